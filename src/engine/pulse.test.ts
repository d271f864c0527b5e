import { expect, it } from 'vitest';
import { createManualTimers } from '../link/testing/timers.ts';
import type { FromEngine } from './messages.ts';
import { startPulse } from './pulse.ts';

function bench() {
  const timers = createManualTimers();
  const posted: FromEngine[] = [];
  const counts = { looked: 0, advanced: 0, due: 0, flushed: 0 };
  const faulty = { advance: false, due: false };
  startPulse(
    { timers, utcMs: () => timers.nowUs() / 1000, post: (m) => posted.push(m) },
    {
      advance() {
        counts.advanced++;
        if (faulty.advance) throw new Error('a fault of one pulse');
      },
      flush: () => counts.flushed++,
    },
    {
      due() {
        if (faulty.due) throw new Error('a fault of the picture');
        counts.due++;
      },
      stirred: () => undefined,
    },
    () => counts.looked++,
  );
  return {
    timers,
    posted,
    counts,
    fail: (what: keyof typeof faulty, on: boolean) => {
      faulty[what] = on;
    },
  };
}

it('ticks 20 times a second, flushes and beats twice', async () => {
  const { timers, posted, counts } = bench();
  await timers.run(10_000);
  expect(counts).toEqual({ looked: 200, advanced: 200, due: 200, flushed: 20 });
  expect(posted).toHaveLength(20);
  expect(posted.at(-1)).toEqual({ m: 'beat', utcMs: 10_000 });
});

it('a fault of one pulse does not end the ticks', async () => {
  const { timers, counts, fail } = bench();
  await timers.run(100);
  fail('advance', true);
  await expect(timers.run(50)).rejects.toThrow('a fault of one pulse');
  fail('advance', false);
  await timers.run(100);
  expect(counts.advanced).toBe(5);
});

it.each(['advance', 'due'] as const)(
  'where each pulse fails (%s) what is recorded is kept, and the page hears no beat',
  async (what) => {
    const { timers, counts, posted, fail } = bench();
    fail(what, true);
    for (let i = 0; i < 40; i++) await timers.run(50).catch(() => undefined);
    expect(counts.flushed).toBe(4);
    expect(posted).toEqual([]);
  },
);
