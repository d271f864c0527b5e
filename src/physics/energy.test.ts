import { describe, expect, it } from 'vitest';
import { endForce, storedEnergyPcc2 } from './energy.ts';

describe('stored energy', () => {
  it.each([
    [1, 0.1, 8977.8],
    [2, 0.05, 10_092.7],
    [7, 1, 894_934],
  ])(
    '%f bar(g) in %f m³ (ASME PCC-2 Article 501, Appendix II; values computed from its formula)',
    (bar, v, j) => {
      expect(Math.abs(storedEnergyPcc2(bar * 1e5 + 101_000, v) / j - 1)).toBeLessThan(2e-5);
    },
  );

  it('nothing is stored without pressure', () => {
    expect(storedEnergyPcc2(101_000, 1)).toBe(0);
    expect(storedEnergyPcc2(50_000, 1)).toBe(0);
  });

  it('end force: about 4 kN in DN150 at 2.5 bar, 28 kN in DN600 at 1 bar (p · A)', () => {
    expect(endForce(2.5e5, 0.15)).toBeCloseTo(4418, 0);
    expect(endForce(1e5, 0.6)).toBeCloseTo(28_274, 0);
  });
});
