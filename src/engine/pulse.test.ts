import { expect, it } from 'vitest';
import { createManualTimers } from '../link/testing/timers.ts';
import type { Notice } from '../watch/inputs.ts';
import type { FromEngine } from './messages.ts';
import { startPulse } from './pulse.ts';

function bench() {
  const timers = createManualTimers();
  const wall = { ms: 0 };
  const posted: FromEngine[] = [];
  const notices: Notice[] = [];
  const counts = { advanced: 0, due: 0, flushed: 0 };
  let faulty = false;
  startPulse(
    { timers, utcMs: () => wall.ms + timers.nowUs() / 1000, post: (m) => posted.push(m) },
    {
      notice: (n) => notices.push(n),
      advance() {
        counts.advanced++;
        if (faulty) throw new Error('a fault of one pulse');
      },
      flush: () => counts.flushed++,
    },
    { due: () => counts.due++, stirred: () => undefined },
  );
  return {
    timers,
    wall,
    posted,
    notices,
    counts,
    fail: (on: boolean) => {
      faulty = on;
    },
  };
}

it('ticks 20 times a second, flushes and beats twice', async () => {
  const { timers, posted, counts, notices } = bench();
  await timers.run(10_000);
  expect(counts).toEqual({ advanced: 200, due: 200, flushed: 20 });
  expect(posted).toHaveLength(20);
  expect(posted.at(-1)).toEqual({ m: 'beat', utcMs: 10_000 });
  expect(notices).toEqual([]);
});

it('a wall clock that jumped is told with the next tick', async () => {
  const { timers, wall, notices } = bench();
  await timers.run(1000);
  wall.ms += 60_000;
  await timers.run(50);
  expect(notices).toEqual([{ n: 'clock-jump', seconds: 60 }]);
});

it('a fault of one pulse does not end the ticks', async () => {
  const { timers, counts, fail } = bench();
  await timers.run(100);
  fail(true);
  await expect(timers.run(50)).rejects.toThrow('a fault of one pulse');
  fail(false);
  await timers.run(100);
  expect(counts.advanced).toBe(5);
});
