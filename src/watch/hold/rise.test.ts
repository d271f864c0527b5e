import { describe, expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { riseOf, timeToRise } from './rise.ts';

/** Means of ten seconds with their noise, bar. */
function course(minutes: number, p: (t: number) => number, sd = 0, seed = 1) {
  const n = noise(seed);
  const t: number[] = [];
  const y: number[] = [];
  for (let x = 5; x < minutes * 60; x += 10) {
    t.push(x);
    y.push(p(x) + sd * n());
  }
  return { t, y, end: t.at(-1)! };
}

describe('rise at the end of a course', () => {
  it('a parabola is told: level, rate to 1 %, change of rate to 5 %', () => {
    const p = (t: number) => 1.2 + 1e-5 * t + 1e-7 * t * t;
    const { t, y, end } = course(8, p);
    const r = riseOf(t, y)!;
    expect(r.levelBar).toBeCloseTo(p(end), 4);
    expect(Math.abs(r.rate.value / (1e-5 + 2e-7 * end) - 1)).toBeLessThan(0.01);
    expect(r.gain / 2e-7).toBeCloseTo(1, 1);
  });

  it('its interval holds the rate in about 95 of 100 noisy courses', () => {
    let held = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const { t, y, end } = course(10, (x) => 1.2 + 2e-5 * x + 3e-8 * x * x, 5e-4, seed);
      const { rate } = riseOf(t, y)!;
      const truth = 2e-5 + 6e-8 * end;
      if (rate.low <= truth && truth <= rate.high) held++;
    }
    expect(held).toBeGreaterThanOrEqual(180);
    expect(held).toBeLessThanOrEqual(199);
  });

  it('is nothing in the first two minutes', () => {
    const { t, y } = course(1.5, (x) => 1 + 1e-4 * x);
    expect(riseOf(t, y)).toBeNull();
  });
});

describe('time to rise', () => {
  it('steady, growing (s = vt + gt²/2) and fading (s = vτ(1 − e^(−t/τ)), τ = v/g)', () => {
    expect(timeToRise(0.06, 1e-4, 0)).toBeCloseTo(600, 9);
    const t = timeToRise(0.06, 1e-4, 2e-7);
    expect(1e-4 * t + 1e-7 * t * t).toBeCloseTo(0.06, 12);
    const tau = 1e-4 / 1e-7;
    const fading = timeToRise(0.06, 1e-4, -1e-7);
    expect(1e-4 * tau * (1 - Math.exp(-fading / tau))).toBeCloseTo(0.06, 12);
  });

  it('never where the rise ends before, or there is none', () => {
    expect(timeToRise(0.11, 1e-4, -1e-7)).toBe(Number.POSITIVE_INFINITY);
    expect(timeToRise(0.06, 0, 1e-7)).toBe(Number.POSITIVE_INFINITY);
    expect(timeToRise(0.06, -1e-4, 0)).toBe(Number.POSITIVE_INFINITY);
  });
});
