import { expect, it } from 'vitest';
import type { WatchView } from '../../watch/view.ts';
import { nextPause, pauseLeftS, SEAT_PAUSE_S } from './seat-pause.ts';

const seen = (s: number, bar: number | null, rateBarPerS: number | null, stage = 'seat') =>
  ({ tUs: s * 1e6, stage, bar, guard: { rateBarPerS } }) as unknown as WatchView;

it('begins when the line stands still with air in it, and counts down', () => {
  expect(nextPause(null, seen(1, 0.02, 0))).toBeNull();
  expect(nextPause(null, seen(2, 0.3, 0.05))).toBeNull();
  const pause = nextPause(null, seen(3, 0.4, 0.003));
  expect(pause).toBe(3e6);
  expect(pauseLeftS(pause, 3e6)).toBe(SEAT_PAUSE_S);
  expect(pauseLeftS(pause, 13e6)).toBe(SEAT_PAUSE_S - 10);
  expect(pauseLeftS(pause, 60e6)).toBe(0);
});

it('is not broken off by what a still line trembles, but by a valve that is opened again', () => {
  expect(nextPause(3e6, seen(5, 0.4, -0.008))).toBe(3e6);
  expect(nextPause(3e6, seen(5, 0.42, 0.03))).toBeNull();
});

it('without a reading or in another stage there is none', () => {
  expect(nextPause(3e6, seen(5, null, 0))).toBeNull();
  expect(nextPause(3e6, seen(5, 0.4, 0, 'inflate'))).toBeNull();
  expect(pauseLeftS(null, 5e6)).toBeNull();
});
