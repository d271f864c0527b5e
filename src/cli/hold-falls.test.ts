import { expect, it } from 'vitest';
import { fallBetween } from './hold-falls.ts';

const trace = (points: readonly (readonly [number, number])[]) => ({
  s: Float64Array.from(points, (p) => p[0]),
  bar: Float64Array.from(points, (p) => p[1]),
});

// The first of Anscombe's quartet (The American Statistician 27, 1973): slope 0.5001 over eleven points.
const ANSCOMBE = [
  [10, 8.04],
  [8, 6.95],
  [13, 7.58],
  [9, 8.81],
  [11, 8.33],
  [14, 9.96],
  [6, 7.24],
  [4, 4.26],
  [12, 10.84],
  [7, 4.82],
  [5, 5.68],
] as const;

it('is the slope by least squares, falling counted up', () => {
  const { mbarPerMin, samples } = fallBetween(trace(ANSCOMBE), 0, 20);
  expect(samples).toBe(11);
  expect(mbarPerMin! / -60e3).toBeCloseTo(0.5001, 4);
});

it('takes what lies between the two moments, and of that what has a value', () => {
  const t = trace([
    [0, 9],
    [1, 1.5],
    [2, Number.NaN],
    [3, 1.4],
    [4, 9],
  ]);
  expect(fallBetween(t, 1, 3)).toEqual({ mbarPerMin: expect.closeTo(3000, 6), samples: 2 });
  expect(fallBetween(t, 1.5, 2.5)).toEqual({ mbarPerMin: null, samples: 0 });
  expect(fallBetween(t, 0.5, 1.5)).toEqual({ mbarPerMin: null, samples: 1 });
});

it('loses no digits over twelve hours at 50 Hz', () => {
  const n = 12 * 3600 * 50;
  const t = {
    s: Float64Array.from({ length: n }, (_, i) => i / 50),
    bar: Float64Array.from({ length: n }, (_, i) => 1.5 - (0.001 / 60) * (i / 50)),
  };
  expect(fallBetween(t, 0, 12 * 3600).mbarPerMin).toBeCloseTo(1, 6);
});
