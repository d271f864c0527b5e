import { R_MOLAR } from './gas.ts';

/** Cure by time and temperature. Temperatures in K and rates in 1/s unless a name says otherwise. */

/** Arrhenius: k(t) / k(ref) = exp[(Ea / R) · (1/ref − 1/t)]. Ea in J/mol, temperatures in K. */
export function arrhenius(ea: number, t: number, ref: number): number {
  return Math.exp((ea / R_MOLAR) * (1 / ref - 1 / t));
}

/** The same with Ea/R given as Q in K, the form of ASTM C1074 and of the CEB-FIP Model Code. */
export function ageFactor(q: number, t: number, ref: number): number {
  return Math.exp(q * (1 / ref - 1 / t));
}

/** Activation energy in J/mol for which the rate grows `factor` times from t1 to t2, K. */
export function activationEnergy(factor: number, t1: number, t2: number): number {
  return (R_MOLAR * Math.log(factor)) / (1 / t1 - 1 / t2);
}

/** Kamal and Sourour: da/dt = (k1 + k2·a^m)(1 − a)^n. With k1 = 0 the rate peaks at a = m / (m + n). */
export function kamal(a: number, k1: number, k2: number, m: number, n: number): number {
  const x = Math.min(1, Math.max(0, a));
  return (k1 + k2 * x ** m) * (1 - x) ** n;
}
