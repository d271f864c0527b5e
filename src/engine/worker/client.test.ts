import { describe, expect, it } from 'vitest';
import { createWorkerClient, type WorkerLife } from './client.ts';
import { RequestError } from './request-error.ts';
import type { TestContract } from './testing/contract.ts';
import { createScriptedLine, type ScriptedLine } from './testing/line.ts';

function bench(life: 'kept' | 'as-needed', more: Partial<WorkerLife<TestContract>> = {}) {
  const lines: ScriptedLine<TestContract>[] = [];
  const client = createWorkerClient<TestContract>({
    life,
    open() {
      const line = createScriptedLine<TestContract>();
      lines.push(line);
      return line.line;
    },
    ...more,
  });
  return { client, lines };
}

describe('a worker’s client', () => {
  it('settles each request with its own answer, in whatever order', async () => {
    const { client, lines } = bench('kept');
    const first = client.ask({ q: 'double', n: 1 });
    const second = client.ask({ q: 'double', n: 2 });
    const [line] = lines;
    const [one, two] = line!.sent;
    expect([one!.request, two!.request]).toEqual([
      { q: 'double', n: 1 },
      { q: 'double', n: 2 },
    ]);
    line!.say({ m: 'answer', id: two!.id, ok: true, value: 4 });
    line!.say({ m: 'answer', id: one!.id, ok: false, code: 'closed', detail: 'for lunch' });
    expect(await second).toBe(4);
    const refused = await first.catch((e: unknown) => e);
    expect(refused).toBeInstanceOf(RequestError);
    expect(refused).toMatchObject({ code: 'closed', detail: 'for lunch', message: 'closed: for lunch' });
  });

  it('tells the progress of a request to whoever asked it, and of no other', async () => {
    const { client, lines } = bench('kept');
    const seen: number[] = [];
    const long = client.ask({ q: 'long', steps: 3 }, (share) => seen.push(share));
    const other = client.ask({ q: 'long', steps: 1 });
    const [one, two] = lines[0]!.sent;
    lines[0]!.say({ m: 'progress', id: one!.id, share: 0.25 });
    lines[0]!.say({ m: 'progress', id: two!.id, share: 0.5 });
    lines[0]!.say({ m: 'answer', id: one!.id, ok: true, value: 'done' });
    lines[0]!.say({ m: 'answer', id: two!.id, ok: true, value: 'done' });
    await Promise.all([long, other]);
    lines[0]!.say({ m: 'progress', id: one!.id, share: 0.75 });
    expect(seen).toEqual([0.25]);
  });

  it('ends a worker that does not answer: what was asked is refused with the reason, the next request starts another', async () => {
    const { client, lines } = bench('as-needed');
    const never = client.ask({ q: 'double', n: 1 });
    client.stop('closed', 'by hand');
    await expect(never).rejects.toMatchObject({ code: 'closed', detail: 'by hand' });
    expect(lines[0]!.ended).toBe(true);
    const next = client.ask({ q: 'double', n: 2 });
    expect(lines).toHaveLength(2);
    lines[1]!.say({ m: 'answer', id: lines[1]!.sent[0]!.id, ok: true, value: 4 });
    expect(await next).toBe(4);
  });

  it('hands news on, and says of all that came that it came', () => {
    const told: string[] = [];
    const { lines } = bench('kept', {
      heard: () => told.push('heard'),
      news: (news) => told.push(news.text),
    });
    lines[0]!.say({ m: 'news', text: 'rain' });
    lines[0]!.say({ m: 'answer', id: 99, ok: true, value: null });
    expect(told).toEqual(['heard', 'rain', 'heard']);
  });

  it('that is kept starts at once, and is not replaced when it failed', async () => {
    let failed = 0;
    const { client, lines } = bench('kept', { failed: () => failed++ });
    expect(lines).toHaveLength(1);
    const asked = client.ask({ q: 'refuse' });
    lines[0]!.fail('out of memory');
    await expect(asked).rejects.toMatchObject({ code: 'internal', detail: 'out of memory' });
    expect(failed).toBe(1);
    const again = client.ask({ q: 'refuse' });
    expect(lines).toHaveLength(1);
    expect(lines[0]!.ended).toBe(false);
    lines[0]!.say({ m: 'answer', id: lines[0]!.sent[1]!.id, ok: true, value: null });
    expect(await again).toBeNull();
  });

  it('as needed starts at the first request, and anew at the next one after it failed', async () => {
    const { client, lines } = bench('as-needed');
    expect(lines).toEqual([]);
    const asked = client.ask({ q: 'refuse' });
    expect(lines).toHaveLength(1);
    lines[0]!.fail(null);
    await expect(asked).rejects.toMatchObject({ code: 'internal', detail: 'a message could not be read' });
    expect(lines[0]!.ended).toBe(true);
    const again = client.ask({ q: 'double', n: 4 });
    expect(lines).toHaveLength(2);
    lines[1]!.say({ m: 'answer', id: lines[1]!.sent[0]!.id, ok: true, value: 8 });
    expect(await again).toBe(8);
  });

  it.each(['kept', 'as-needed'] as const)(
    'closed, %s: the worker ends and what waits is refused',
    async (life) => {
      const { client, lines } = bench(life);
      const asked = client.ask({ q: 'refuse' });
      client.close();
      await expect(asked).rejects.toMatchObject({ code: 'internal', detail: 'closed' });
      expect(lines[0]!.ended).toBe(true);
    },
  );
});
