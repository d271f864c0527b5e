/**
 * Thickness of a close-fit sleeve after ASTM F1216, Appendix X1, partially deteriorated host pipe. A check for an
 * engineer with its inputs shown, not a design. Lengths in one unit, pressures and moduli in one unit.
 */

/** Ovality reduction factor C = [(1 − q/100) / (1 + q/100)²]³; q in per cent. */
export function ovalityFactor(q: number): number {
  return ((1 - q / 100) / (1 + q / 100) ** 2) ** 3;
}

export interface BucklingInputs {
  /** Inner diameter of the host pipe, mm. */
  readonly diameter: number;
  /** Long-term flexural modulus; external water pressure at the invert: the same unit. */
  readonly modulus: number;
  readonly pressure: number;
  readonly safetyFactor: number;
  readonly poisson: number;
  readonly enhancement: number;
  /** Per cent. */
  readonly ovality: number;
}

/** X1.1: t = D / ([2·K·E_L·C / (P·N·(1 − ν²))]^(1/3) + 1); 0 without water. */
export function bucklingThickness(i: BucklingInputs): number {
  if (i.pressure <= 0) return 0;
  const ratio =
    (2 * i.enhancement * i.modulus * ovalityFactor(i.ovality)) /
    (i.pressure * i.safetyFactor * (1 - i.poisson * i.poisson));
  return i.diameter / (Math.cbrt(ratio) + 1);
}

export interface StressInputs {
  readonly diameter: number;
  /** Long-term flexural strength; external water pressure: the same unit. */
  readonly strength: number;
  readonly pressure: number;
  readonly safetyFactor: number;
  /** Per cent. */
  readonly ovality: number;
}

/**
 * X1.2: 1.5·(q/100)·(1 + q/100)·DR² − 0.5·(1 + q/100)·DR = σ / (P·N) with DR = D/t, solved for t; 0 without water. A
 * round pipe (q = 0) has no bending: the equation then has no thickness, and 0 is given.
 */
export function stressThickness(i: StressInputs): number {
  const q = i.ovality / 100;
  if (i.pressure <= 0 || q <= 0) return 0;
  const a = i.strength / (i.pressure * i.safetyFactor);
  const b = 0.5 * (1 + q) * i.diameter;
  const c = 1.5 * q * (1 + q) * i.diameter * i.diameter;
  return (-b + Math.sqrt(b * b + 4 * a * c)) / (2 * a);
}
