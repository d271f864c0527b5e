import { describe, expect, it } from 'vitest';
import { bucklingThickness, ovalityFactor, stressThickness } from './thickness.ts';

describe('ASTM F1216 Appendix X1', () => {
  it('ovality of 2 % reduces to 0.836', () => {
    expect(ovalityFactor(2)).toBeCloseTo(0.836, 3);
    expect(ovalityFactor(0)).toBe(1);
  });

  // Worked example of Trenchless Technology Piping (§2.7): 48 in, 12 ft of water (5.20 psi), E_L 125 000 psi.
  const common = { diameter: 48, pressure: 5.2, safetyFactor: 2, ovality: 2 };
  it('X1.1: 0.878 in', () => {
    expect(bucklingThickness({ ...common, modulus: 125_000, poisson: 0.3, enhancement: 7 })).toBeCloseTo(
      0.878,
      3,
    );
  });
  it('X1.2: 0.376 in, the root of 432.7 t² + 24.48 t − 70.5', () => {
    const t = stressThickness({ ...common, strength: 4500 });
    expect(t).toBeCloseTo(0.376, 3);
    expect(Math.abs(432.7 * t * t + 24.48 * t - 70.5)).toBeLessThan(0.05);
  });
  it('without water nothing presses', () => {
    expect(bucklingThickness({ ...common, pressure: 0, modulus: 1, poisson: 0, enhancement: 7 })).toBe(0);
    expect(stressThickness({ ...common, pressure: 0, strength: 1 })).toBe(0);
  });
});
