import { describe, expect, it } from 'vitest';
import { createEngineClient } from './client.ts';
import type { EngineContract } from './messages.ts';
import { createScriptedLine } from './worker/testing/line.ts';

function bench() {
  const worker = createScriptedLine<EngineContract>();
  const clock = { ms: 0, look: () => {} };
  const client = createEngineClient(worker.line, {
    nowMs: () => clock.ms,
    every(_ms, call) {
      clock.look = call;
      return () => {
        clock.look = () => {};
      };
    },
  });
  return {
    client,
    sent: worker.sent,
    clock,
    ended: () => worker.ended,
    say: worker.say,
    fail: worker.fail,
    pass(ms: number) {
      clock.ms += ms;
      clock.look();
    },
  };
}

describe('the client', () => {
  it('settles each request with its own answer, in whatever order', async () => {
    const { client, sent, say } = bench();
    const first = client.ask({ q: 'runs' });
    const second = client.ask({ q: 'disconnect' });
    expect(sent.map((m) => m.request.q)).toEqual(['runs', 'disconnect']);
    say({ m: 'answer', id: sent[1]!.id, ok: true, value: null });
    say({ m: 'answer', id: sent[0]!.id, ok: false, code: 'denied', detail: 'no' });
    expect(await second).toBeNull();
    await expect(first).rejects.toMatchObject({ code: 'denied', detail: 'no' });
  });

  it('hands out news until the listener goes', () => {
    const { client, say } = bench();
    const seen: string[] = [];
    const off = client.on((news) => seen.push(news.m));
    say({ m: 'beat', utcMs: 1 });
    off();
    say({ m: 'beat', utcMs: 2 });
    expect(seen).toEqual(['beat']);
  });

  it('notices that the engine fell silent, and that it came back', () => {
    const b = bench();
    const seen: boolean[] = [];
    b.client.onSilence((silent) => seen.push(silent));
    for (let i = 0; i < 4; i++) b.pass(500);
    expect(b.client.silent).toBe(false);
    b.pass(500);
    expect(b.client.silent).toBe(true);
    b.say({ m: 'beat', utcMs: 1 });
    expect(seen).toEqual([true, false]);
  });

  it('fails what waits when the worker dies or is closed', async () => {
    for (const how of ['die', 'close'] as const) {
      const b = bench();
      const asked = b.client.ask({ q: 'storage' });
      if (how === 'die') b.fail('out of memory');
      else b.client.close();
      await expect(asked).rejects.toMatchObject({ code: 'internal' });
      expect(b.client.silent).toBe(true);
      expect(b.ended()).toBe(how === 'close');
    }
  });
});
