import { expect, it } from 'vitest';
import { createScriptedLine, type ScriptedLine } from '../../engine/worker/testing/line.ts';
import type { PieceContract, PieceOrder } from './order.ts';
import { createPool } from './pool.ts';

function bench(size: number) {
  const lines: ScriptedLine<PieceContract>[] = [];
  const timers = new Set<() => void>();
  const pool = createPool<PieceContract>({
    size,
    open() {
      const line = createScriptedLine<PieceContract>();
      lines.push(line);
      return line.line;
    },
    later(_, call) {
      timers.add(call);
      return () => void timers.delete(call);
    },
  });
  const order = (from: number): PieceOrder => ({
    pages: { start: 0, size: 9 },
    from,
    to: 9,
    patient: false,
    trace: null,
  });
  const ask = (from: number, told?: (share: number) => void) =>
    pool.ask({ q: 'piece', file: '', order: order(from) }, told);
  const answer = (line: number, value: unknown) =>
    lines[line]!.say({ m: 'answer', id: lines[line]!.sent.at(-1)!.id, ok: true, value });
  const asked = () =>
    lines.map((l) => l.sent.map(({ request }) => (request.q === 'piece' ? request.order.from : null)));
  return { pool, lines, timers, ask, answer, asked };
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

it('has as many at work as there are, and gives the next piece to the first that is free', async () => {
  const { ask, answer, asked } = bench(2);
  const told: number[] = [];
  const pieces = [ask(0), ask(1, (share) => told.push(share)), ask(2)];
  await settled();
  expect(asked()).toEqual([[0], [1]]);
  answer(1, 'b');
  await settled();
  expect(asked()).toEqual([[0], [1, 2]]);
  answer(1, 'c');
  answer(0, 'a');
  expect(await Promise.all(pieces)).toEqual(['a', 'b', 'c']);
});

it('ends one that tells of nothing any more; what it was at is refused, and another takes its place', async () => {
  const { ask, lines, timers, asked, answer } = bench(1);
  const stuck = ask(0);
  const next = ask(1);
  await settled();
  lines[0]!.say({ m: 'progress', id: 1, share: 0.2 });
  expect(timers.size).toBe(1);
  for (const call of timers) call();
  await expect(stuck).rejects.toMatchObject({ code: 'internal' });
  await settled();
  expect([lines[0]!.ended, asked()]).toEqual([true, [[0], [1]]]);
  answer(1, 'done');
  expect(await next).toBe('done');
  expect(timers.size).toBe(0);
});

it('is stopped with all that it was asked for, and starts nothing more', async () => {
  const { pool, ask, lines } = bench(1);
  const pieces = [ask(0), ask(1)];
  await settled();
  pool.stop();
  pieces.push(ask(2));
  const done = await Promise.allSettled(pieces);
  expect(done.map((d) => d.status)).toEqual(['rejected', 'rejected', 'rejected']);
  expect(lines.map((l) => l.ended)).toEqual([true]);
});
