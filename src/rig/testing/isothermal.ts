import { arrhenius, type Kinetics, rate } from '../cure.ts';

const ZERO_C = 273.15;

/**
 * Seconds to reach a degree of cure at a constant temperature: what this resin's maker would print on the sheet.
 * @returns Infinity where the resin never gets there (vitrified)
 */
export function isothermalS(k: Kinetics, tempC: number, degree: number, fromDegree = 0): number {
  const tK = tempC + ZERO_C;
  const k1 = k.k1Ref * arrhenius(k.e1, tK);
  const k2 = k.k2Ref * arrhenius(k.e2, tK);
  const ceiling = k.vitrify === null ? 1 : Math.min(1, k.vitrify.full + k.vitrify.perK * (tempC - 20));
  if (degree >= ceiling) return Number.POSITIVE_INFINITY;
  // t = ∫ da/rate(a), by Simpson on a grid in z with a = z² near the start, where a^m has no slope at 0.
  const steps = 2000;
  const z0 = Math.sqrt(fromDegree);
  const z1 = Math.sqrt(degree);
  const dz = (z1 - z0) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const z = z0 + i * dz;
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += (weight * 2 * z) / rate(k, k1, k2, z * z, ceiling);
  }
  return k.inductionS / arrhenius(k.e1, tK) + (sum * dz) / 3;
}
