import { describe, expect, it } from 'vitest';
import { driftOver } from './opinion.ts';

const daily = (offs: readonly number[]) => offs.map((off, day) => ({ day, off }));

describe('drift over the jobs', () => {
  it('a steady creep has a pace and a day when the limit is met', () => {
    const d = driftOver(
      [0, 10, 20, 30, 40].map((day) => ({ day, off: 0.001 + day * 2e-4 })),
      0.04,
      0.005,
    )!;
    expect(d.perDay).toBeCloseTo(2e-4, 12);
    expect(d).toMatchObject({ jobs: 5, moving: true, jumped: false });
    expect(d.now).toBeCloseTo(0.009, 12);
    expect(d.since).toBeCloseTo(0.008, 12);
    expect(d.daysToLimit).toBeCloseTo((0.04 - 0.009) / 2e-4, 6);
  });

  it('downwards it is the lower limit that is met', () => {
    const d = driftOver(
      [0, 10, 20, 30].map((day) => ({ day, off: -day * 1e-3 })),
      0.04,
      0.005,
    )!;
    expect(d.daysToLimit).toBeCloseTo(10, 6);
  });

  it('scatter is no drift, however steep the line through it', () => {
    const d = driftOver(daily([0.002, -0.001, 0.003, 0.001]), 0.04, 0.005)!;
    expect(d.perDay).not.toBeNull();
    expect(d).toMatchObject({ moving: false, daysToLimit: null });
    // Values that are the same to a thousandth may still differ by half of one.
    expect(driftOver(daily([0.001, 0.001, 0.001, 0.001]), 0.04, 0.005)!.moving).toBe(false);
  });

  it('few jobs need a steeper line: Student’s t, 3.182 for five of them (two-sided 95 %, as printed in tables)', () => {
    // Residuals of 2 mbar in the shape 2, -1, -2, -1, 2 are across both mean and slope; sd of the slope √(14·4e-6/3/10) = 1.366e-3.
    const course = (t: number) =>
      [0, 1, 2, 3, 4].map((d, i) => 1.366e-3 * t * d + 0.002 * [2, -1, -2, -1, 2][i]!);
    expect(driftOver(daily(course(3.0)), 0.04, 0.005)!.moving).toBe(false);
    expect(driftOver(daily(course(3.4)), 0.04, 0.005)!.moving).toBe(true);
  });

  it('a jump stands out against the usual scatter', () => {
    const offs = [0.001, 0.002, 0.001, 0.0015, 0.001, 0.015];
    expect(driftOver(daily(offs), 0.04, 0.005)!.jumped).toBe(true);
    expect(driftOver(daily(offs.slice(0, 5)), 0.04, 0.005)!.jumped).toBe(false);
    expect(driftOver(daily(offs), 0.04, 0.02)!.jumped).toBe(false);
  });

  it('knows little from little', () => {
    expect(driftOver([], 0.04, 0.005)).toBeNull();
    expect(driftOver(daily([0.01]), 0.04, 0.005)).toMatchObject({ jobs: 1, perDay: null, daysToLimit: null });
    expect(driftOver(daily([0, 0.001, 0.002]), 0.04, 0.005)).toMatchObject({ moving: false });
    expect(
      driftOver(
        [0, 0.001, 0.002, 0.003].map((off) => ({ day: 7, off })),
        0.04,
        0.005,
      ),
    ).toMatchObject({ perDay: null, moving: false });
  });
});
