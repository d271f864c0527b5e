import { describe, expect, it } from 'vitest';
import { ar1Inflation, lag1 } from './ar1.ts';
import { noise } from './testing/random.ts';

describe('AR(1) noise', () => {
  it('finds the φ that made it', () => {
    for (const phi of [0, 0.5, 0.9]) {
      const next = noise(17);
      const x: number[] = [];
      let v = 0;
      for (let i = 0; i < 4000; i++) {
        v = phi * v + next();
        x.push(v);
      }
      expect(lag1(x)).toBeGreaterThan(phi - 0.05);
      expect(lag1(x)).toBeLessThan(phi + 0.05);
    }
  });

  it('inflates the variance of a mean as the simulated means do (closed form (1+φ)/(1−φ))', () => {
    const phi = 0.8;
    const next = noise(5);
    const means: number[] = [];
    let v = 0;
    const N = 200;
    for (let k = 0; k < 1500; k++) {
      let sum = 0;
      for (let i = 0; i < N; i++) {
        v = phi * v + next();
        sum += v;
      }
      means.push(sum / N);
    }
    const variance = means.reduce((s, m) => s + m * m, 0) / means.length;
    const single = 1 / (1 - phi * phi);
    const ratio = variance / (single / N);
    expect(ratio).toBeGreaterThan(ar1Inflation(phi) * 0.88);
    expect(ratio).toBeLessThan(ar1Inflation(phi) * 1.12);
  });

  it('claims nothing of a handful of values and never deflates', () => {
    expect(lag1([1, -1, 1])).toBe(0);
    expect(lag1([0, 0, 0, 0])).toBe(0);
    expect(ar1Inflation(-0.5)).toBe(1);
  });
});
