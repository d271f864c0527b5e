import { expect, it } from 'vitest';
import { createCountdownSound } from './countdown-sound.ts';

/** What sounds while the estimates come ten times a second. */
function sounds(estimates: readonly (number | null)[], stage: 'inflate' | 'hold' = 'inflate') {
  const count = createCountdownSound();
  return estimates.flatMap((closeInS, i) => {
    const seen = { tUs: 1e6 + i * 1e5, bar: 1, stale: false, stage, closeInS, rateBarPerS: 0.05 };
    return count.next(seen) ?? [];
  });
}

const run = (from: number, to: number, n: number) =>
  Array.from({ length: n }, (_, i) => from + ((to - from) * i) / (n - 1));
const WHOLE = ['cue', 'tick', 'tick', 'tick', 'tick', 'tick', 'now'];

it('two notes at eight, a tick a second from five, one long note at the end', () => {
  expect(sounds(run(14, -0.5, 146))).toEqual(WHOLE);
});

it('an estimate that sways tells no second twice', () => {
  expect(sounds(run(9, -0.5, 96).map((s, i) => s + (i % 2 === 0 ? 0.4 : -0.4)))).toEqual(WHOLE);
});

it('one that jumps up by three seconds counts anew, once', () => {
  const told = sounds([...run(8, 3, 51), ...run(8, 3, 51), ...run(8, 3, 51)]);
  expect(told.filter((s) => s === 'cue')).toHaveLength(2);
});

it('goes on by its own clock where the guard is not sure for a moment, as the page does', () => {
  expect(sounds([...run(6, 4.1, 20), ...Array<null>(15).fill(null), ...run(2.5, -0.5, 31)])).toEqual(WHOLE);
});

it('one that begins late calls at once; outside a fill nothing counts', () => {
  expect(sounds([0.2])).toEqual(['now']);
  expect(sounds(run(9, -0.5, 96), 'hold')).toEqual([]);
});
