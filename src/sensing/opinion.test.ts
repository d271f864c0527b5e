import { describe, expect, it } from 'vitest';
import { compareGauge, dialGaugeU, zeroDrift } from './opinion.ts';

describe('dial gauge', () => {
  it('a class 1.6 gauge of 0-4 bar is ±64 mbar, rectangular (EN 837-1 class rule, value from memory)', () => {
    expect(dialGaugeU(1.6, 4, 0)).toBeCloseTo((2 * 0.064) / Math.sqrt(3), 9);
    expect(dialGaugeU(1.6, 4, 0.1)).toBeGreaterThan(dialGaugeU(1.6, 4, 0));
  });

  it('differs only beyond both uncertainties, and says which reads low', () => {
    expect(compareGauge(0.41, 0.03, 0.45, 0.04)).toMatchObject({ agrees: true, readsLow: false });
    const low = compareGauge(0.32, 0.03, 0.4, 0.04);
    expect(low.differenceBar).toBeCloseTo(-0.08, 12);
    expect(low.limitBar).toBeCloseTo(0.05, 12);
    expect(low).toMatchObject({ agrees: false, readsLow: true });
    expect(compareGauge(0.5, 0.03, 0.4, 0.04)).toMatchObject({ agrees: false, readsLow: false });
  });
});

describe('zero over the jobs', () => {
  it('a steady creep has a pace and a day when the limit is met', () => {
    const zeros = [0, 10, 20, 30, 40].map((day) => ({ day, offsetBar: 0.001 + day * 2e-4 }));
    const d = zeroDrift(zeros, 0.04)!;
    expect(d.perDay).toBeCloseTo(2e-4, 12);
    expect(d.since).toBeCloseTo(0.008, 12);
    expect(d.daysToLimit).toBeCloseTo((0.04 - 0.009) / 2e-4, 6);
    expect(d.jumped).toBe(false);
  });

  it('a jump stands out against the usual scatter', () => {
    const offsets = [0.001, 0.002, 0.001, 0.0015, 0.001, 0.015];
    expect(
      zeroDrift(
        offsets.map((offsetBar, day) => ({ day, offsetBar })),
        0.04,
      )!.jumped,
    ).toBe(true);
    expect(
      zeroDrift(
        offsets.slice(0, 5).map((offsetBar, day) => ({ day, offsetBar })),
        0.04,
      )!.jumped,
    ).toBe(false);
  });

  it('knows little from little', () => {
    expect(zeroDrift([], 0.04)).toBeNull();
    expect(zeroDrift([{ day: 1, offsetBar: 0.01 }], 0.04)).toMatchObject({
      jobs: 1,
      perDay: null,
      daysToLimit: null,
    });
  });
});
