import { describe, expect, it } from 'vitest';
import { zeroDrift } from './opinion.ts';

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
