import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRecent, median3, recentAdd, recentClear, recentStats } from './recent.ts';

describe('the last second', () => {
  it('mean and standard deviation equal those of the readings themselves', () => {
    fc.assert(
      fc.property(
        // Noise: no two of them are a spike's height apart.
        fc.array(fc.double({ min: 2, max: 2.05, noNaN: true }), { minLength: 3, maxLength: 60 }),
        (values) => {
          const r = createRecent();
          // All within the ten tenths that end with the last one.
          values.forEach((v, i) => {
            recentAdd(r, 5_000_000 + i * 15_000, v);
          });
          const stats = recentStats(r, 5_000_000 + (values.length - 1) * 15_000, 0)!;
          const mean = values.reduce((a, b) => a + b, 0) / values.length;
          const sd = Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1));
          expect(stats.n).toBe(values.length);
          expect(stats.mean).toBeCloseTo(mean, 9);
          expect(stats.sd).toBeCloseTo(sd, 5);
        },
      ),
      { seed: 11 },
    );
  });

  it('leaves out what is older than a second', () => {
    const r = createRecent();
    for (let k = 0; k < 40; k++) recentAdd(r, k * 50_000, k < 19 ? 9 : 1);
    expect(recentStats(r, 39 * 50_000, 0)).toMatchObject({ n: 20, mean: 1 });
  });

  it('a spike, up or down, is no part of it; what comes to stay is, one reading later', () => {
    const r = createRecent();
    const levels = [1, 1.01, 3, 1, 0.99, -2, 1, 1, 1.6, 1.61].map((bar, i) => recentAdd(r, i * 50_000, bar));
    expect(levels).toEqual([1, 1.01, 1.01, 1, 0.99, 0.99, 1, 1, 1, 1.61]);
    expect(recentStats(r, 7 * 50_000, 0)!.mean).toBeLessThan(1.2);
  });

  it('a slow device is judged by its last three readings, unless they are old', () => {
    const r = createRecent();
    for (let k = 0; k < 5; k++) recentAdd(r, k * 2e6, k);
    expect(recentStats(r, 8e6, 0)).toEqual({ n: 3, mean: 3, sd: 1 });
    expect(recentStats(r, 8e6, 7e6)).toMatchObject({ n: 1, mean: 4, sd: 0 });
    expect(recentStats(r, 30e6, 29e6)).toBeNull();
  });
});

describe('median of three', () => {
  it('one spike never moves it', () => {
    const r = createRecent();
    [1, 1.01, 9, 1.02].forEach((v, i) => {
      recentAdd(r, i, v);
      expect(median3(r) ?? 1).toBeLessThan(1.03);
    });
  });

  it('equals the middle one of the three', () => {
    fc.assert(
      fc.property(
        fc.tuple(fc.float({ noNaN: true }), fc.float({ noNaN: true }), fc.float({ noNaN: true })),
        (v) => {
          const r = createRecent();
          v.forEach((one, i) => {
            recentAdd(r, i, one);
          });
          expect(median3(r)).toBe([...v].sort((a, b) => a - b)[1]);
        },
      ),
      { seed: 5 },
    );
  });

  it('needs two values, and of two takes the lower; a clear forgets', () => {
    const r = createRecent();
    recentAdd(r, 0, 3);
    expect(median3(r)).toBeNull();
    recentAdd(r, 1, 2);
    expect(median3(r)).toBe(2);
    recentClear(r);
    expect(median3(r)).toBeNull();
    expect(recentStats(r, 1, 0)).toBeNull();
  });
});
