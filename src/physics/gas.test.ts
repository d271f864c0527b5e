import { describe, expect, it } from 'vitest';
import { leakPaM3, liftByWarmth } from './gas.ts';
import { closedVolumeGauge, leakRateMol } from './testing/gas.ts';

describe('gas', () => {
  it.each([
    [10, 1.4143],
    [0, 1.3285],
    [60, 1.8429],
  ])(
    '1.500 bar(g) closed at 20 °C becomes, at %i °C, %f (ideal gas in absolute units, computed)',
    (c, bar) => {
      expect(closedVolumeGauge(1.5, 20, c, 1.01325)).toBeCloseTo(bar, 4);
    },
  );

  it('lifts 8.9 mbar/K at 1.5 bar and 12.4 at 2.5, near 10 °C (computed)', () => {
    expect(liftByWarmth(1.5 + 1.01325, 10, 1, false) * 1000).toBeCloseTo(8.9, 1);
    expect(liftByWarmth(2.5 + 1.01325, 10, 1, false) * 1000).toBeCloseTo(12.4, 1);
  });

  it('leak rate with temperature (form and inputs of 40 CFR 1065.644, result computed)', () => {
    const n = leakRateMol(0.002, 25_300, 293.15, 50_600, 293.15, 70, 8.314472);
    expect(n).toBeCloseTo(2.9657e-4, 9);
    expect(leakPaM3(0.001, 10)).toBeCloseTo(1 / 60, 9);
  });
});
