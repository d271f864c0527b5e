import { describe, expect, it } from 'vitest';
import { closedVolumeGauge, criticalRatio, iso6358, leakPaM3, leakRateMol, liftPerKelvin } from './gas.ts';

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
    expect(liftPerKelvin(1.5, 10, 1.01325) * 1000).toBeCloseTo(8.9, 1);
    expect(liftPerKelvin(2.5, 10, 1.01325) * 1000).toBeCloseTo(12.4, 1);
  });

  it('leak rate with temperature (form and inputs of 40 CFR 1065.644, result computed)', () => {
    const n = leakRateMol(0.002, 25_300, 293.15, 50_600, 293.15, 70, 8.314472);
    expect(n).toBeCloseTo(2.9657e-4, 9);
    expect(leakPaM3(0.001, 10)).toBeCloseTo(1 / 60, 9);
  });

  it('critical pressure ratio of air (isentropic)', () => {
    expect(criticalRatio(1.4)).toBeCloseTo(0.528282, 6);
  });

  it.each([
    [7, 1, 8.295e-3],
    [3, 2, 3.02827e-3],
    [3, 2.7, 1.8311e-3],
  ])('%f → %f bar abs through C = 1e-8, b = 0.3 (ISO 6358 form, computed)', (p1, p2, kgs) => {
    expect(Math.abs(iso6358(1e-8, 0.3, p1 * 1e5, 293.15, p2 * 1e5) / kgs - 1)).toBeLessThan(1e-5);
  });

  it('nothing flows uphill, and a ratio of 1 is none', () => {
    expect(iso6358(1e-8, 0.3, 1e5, 293, 1e5)).toBe(0);
    expect(iso6358(1e-8, 0.3, 1e5, 293, 2e5)).toBe(0);
    expect(() => iso6358(1e-8, 1, 2e5, 293, 1e5)).toThrow(RangeError);
  });
});
