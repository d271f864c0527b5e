import { expect, it } from 'vitest';
import { createCountdownSound } from './countdown-sound.ts';

/** What sounds while the estimates come ten times a second. */
function sounds(estimates: readonly (number | null)[], stepS = 0.1) {
  const count = createCountdownSound();
  return estimates.flatMap((closeInS, i) => {
    const sound = count.next({ tUs: 1e6 + i * stepS * 1e6, stageSinceUs: 0, closeInS });
    return sound === null ? [] : [{ sound, at: closeInS }];
  });
}

const run = (from: number, to: number, n: number) =>
  Array.from({ length: n }, (_, i) => from + ((to - from) * i) / (n - 1));

it('two notes at eight, a tick a second from five, one long note at the end', () => {
  expect(sounds(run(14, -0.5, 146)).map((s) => s.sound)).toEqual([
    'cue',
    'tick',
    'tick',
    'tick',
    'tick',
    'tick',
    'now',
  ]);
});

it('an estimate that sways tells no second twice', () => {
  const swaying = run(9, -0.5, 96).map((s, i) => s + (i % 2 === 0 ? 0.4 : -0.4));
  expect(sounds(swaying).map((s) => s.sound)).toEqual(['cue', 'tick', 'tick', 'tick', 'tick', 'tick', 'now']);
});

it('one that jumps up by three seconds counts anew, once', () => {
  const told = sounds([...run(8, 3, 51), ...run(8, 3, 51), ...run(8, 3, 51)]).map((s) => s.sound);
  expect(told.filter((s) => s === 'cue')).toHaveLength(2);
});

it('one that begins late calls at once, and one that went away for long is another', () => {
  expect(sounds([0.2]).map((s) => s.sound)).toEqual(['now']);
  expect(sounds([4.5, null, 3.5]).map((s) => s.sound)).toEqual(['tick', 'tick']);
  expect(sounds([6.5, ...Array<null>(60).fill(null), 6.5]).map((s) => s.sound)).toEqual(['cue', 'cue']);
});

it('another fill counts anew', () => {
  const count = createCountdownSound();
  expect(count.next({ tUs: 1e6, stageSinceUs: 0, closeInS: 7 })).toBe('cue');
  expect(count.next({ tUs: 2e6, stageSinceUs: 1.5e6, closeInS: 7 })).toBe('cue');
});
