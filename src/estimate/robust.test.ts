import { describe, expect, it } from 'vitest';
import { isSpike, MAD_TO_SD, median, median3, stepMedian } from './robust.ts';

describe('medians', () => {
  it('median of three in every order', () => {
    for (const [a, b, c] of [
      [1, 2, 3],
      [1, 3, 2],
      [2, 1, 3],
      [2, 3, 1],
      [3, 1, 2],
      [3, 2, 1],
    ] as const)
      expect(median3(a, b, c)).toBe(2);
    expect(median3(1, 1, 9)).toBe(1);
  });

  it('median of lists, even and odd; none is NaN', () => {
    expect(median([5, 1, 3])).toBe(3);
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(median([])).toBeNaN();
  });

  it('MAD_TO_SD is 1 / Φ⁻¹(3/4) (value from memory)', () => {
    expect(MAD_TO_SD).toBeCloseTo(1 / 0.6744897501960817, 12);
  });
});

describe('spikes', () => {
  it('takes a lone jump and leaves a slope, a step and noise alone', () => {
    expect(isSpike(1, 3, 1.01, 0.02)).toBe(true);
    expect(isSpike(1, 0, 1.01, 0.02)).toBe(true);
    expect(isSpike(1, 1.5, 2, 0.02)).toBe(false);
    expect(isSpike(1, 2, 2, 0.02)).toBe(false);
    expect(isSpike(1, 1.015, 1, 0.02)).toBe(false);
  });
});

describe('running median', () => {
  it('settles at the median of |x| and shrugs at spikes', () => {
    let m = 1;
    for (let i = 0; i < 5000; i++) m = stepMedian(m, i % 50 === 0 ? 1000 : ((i * 37) % 101) / 100, 0.03);
    expect(m).toBeGreaterThan(0.4);
    expect(m).toBeLessThan(0.62);
  });
});
