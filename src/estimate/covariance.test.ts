import { describe, expect, it } from 'vitest';
import { smoothCovariance, studentOf, wanderOfMeans, whiteScale } from './covariance.ts';
import { Z_95 } from './normal.ts';
import { noise } from './testing/random.ts';

describe('covariance of block means', () => {
  it('is the double integral of exp(−|Δt|/tau), within a block and between blocks', () => {
    const N = 400;
    for (const [tau, block, apart] of [
      [20, 10, 0],
      [20, 10, 10],
      [20, 60, 180],
      [600, 15, 45],
    ] as const) {
      let sum = 0;
      for (let i = 0; i < N; i++)
        for (let j = 0; j < N; j++) sum += Math.exp(-Math.abs(apart + ((j - i) / N) * block) / tau);
      expect(wanderOfMeans(0.3, tau, block, apart)).toBeCloseTo((0.09 * sum) / (N * N), 6);
    }
    expect(wanderOfMeans(2, 1e9, 1, 0)).toBeCloseTo(4, 6);
  });

  it('smooth: sd² at no distance, exp(−1/2) of it at one length', () => {
    expect(smoothCovariance(3, 5, 0)).toBe(9);
    expect(smoothCovariance(3, 5, 5)).toBeCloseTo(9 * Math.exp(-0.5), 12);
  });
});

describe('whiteScale', () => {
  it('finds σ under a slow course', () => {
    const normal = noise(3);
    const y = Array.from({ length: 4000 }, (_, i) => 0.05 * i + Math.sin(i / 200) + 0.3 * normal());
    expect(whiteScale(y)).toBeGreaterThan(0.28);
    expect(whiteScale(y)).toBeLessThan(0.32);
    expect(whiteScale([1, 2])).toBe(0);
  });
});

describe('studentOf', () => {
  it('gives the tables of Student’s t (Abramowitz & Stegun table 26.10: t 0.975 and 0.9995)', () => {
    expect(studentOf(1.959964, 20)).toBeCloseTo(2.086, 2);
    expect(studentOf(1.959964, 60)).toBeCloseTo(2.0, 2);
    expect(studentOf(3.290527, 30)).toBeCloseTo(3.646, 1);
    expect(studentOf(Z_95, 0)).toBe(Number.POSITIVE_INFINITY);
  });
});
