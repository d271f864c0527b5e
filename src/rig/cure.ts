/**
 * How the simulated resin really cures: autocatalytic kinetics of Kamal's form with an optional induction time
 * and a ceiling on the degree of cure when it vitrifies. The judge of the cure does not know these laws; it gets
 * data-sheet times and temperatures only.
 */

/** Gas constant, J/(mol·K). */
const R = 8.314462618;

/**
 * `da/dt = (k1 + k2·a^m)·(1 − a)^n · stop`, `ki = kiRef·exp(−Ei/R·(1/T − 1/T0))` with T0 = 293.15 K.
 * Rates in 1/s, energies in J/mol, heat in J/kg.
 */
export interface Kinetics {
  /** 1/s at 20 °C. */
  readonly k1Ref: number;
  readonly k2Ref: number;
  readonly e1: number;
  readonly e2: number;
  readonly m: number;
  readonly n: number;
  /** Heat of the whole reaction, J per kg of resin-wet sleeve (fabric takes its share of the mass). */
  readonly heatJkg: number;
  /** Induction (inhibitor) time at 20 °C, s; runs with Arrhenius energy e1. 0: none. */
  readonly inductionS: number;
  /**
   * Vitrification: a ceiling `aMax = min(1, full + perK·(T − 20 °C))` towards which the reaction slows down
   * (a cold cure stops short). null: none.
   */
  readonly vitrify: { readonly full: number; readonly perK: number } | null;
}

/** A generic slow two-part resin and a generic quick one: sketches for the rig, no product's figures. */
export const SLOW_RESIN: Kinetics = {
  k1Ref: 1.2e-5,
  k2Ref: 5.5e-4,
  e1: 62e3,
  e2: 56e3,
  m: 0.8,
  n: 1.5,
  heatJkg: 180e3,
  inductionS: 0,
  vitrify: null,
};
export const QUICK_RESIN: Kinetics = {
  k1Ref: 4e-5,
  k2Ref: 2.6e-3,
  e1: 60e3,
  e2: 52e3,
  m: 0.9,
  n: 1.4,
  heatJkg: 160e3,
  inductionS: 300,
  vitrify: null,
};

/** Arrhenius factor against 20 °C. @param tK temperature, K. */
export function arrhenius(eJmol: number, tK: number): number {
  return Math.exp((-eJmol / R) * (1 / tK - 1 / 293.15));
}

/** Gain of degree a second at degree `a`. @param ceiling of the degree at this temperature */
export function rate(k: Kinetics, k1: number, k2: number, a: number, ceiling: number): number {
  if (a >= ceiling) return 0;
  const left = 1 - a;
  // x^1.5 and the like are all that is needed; the powers are the dearest part of a cure.
  const grow = a <= 0 ? 0 : k.m === 1 ? a : a ** k.m;
  const slow = k.n === 1 ? left : left ** k.n;
  const stop = ceiling < 1 ? Math.min(1, (ceiling - a) / 0.05) : 1;
  return (k1 + k2 * grow) * slow * stop;
}

/** Degree of cure and spent induction, for a set of nodes. */
export interface CureState {
  readonly degree: Float64Array;
  readonly induction: Float64Array;
}

/**
 * One node forward by h at temperature tK (held): classical second-order step (midpoint), split so that no part
 * gains more than about 0.02. Returns the gain in degree of cure.
 */
export function cureStep(k: Kinetics, state: CureState, i: number, tK: number, h: number): number {
  let left = h;
  if (k.inductionS > 0 && state.induction[i]! < 1) {
    const speed = arrhenius(k.e1, tK) / k.inductionS;
    const need = (1 - state.induction[i]!) / speed;
    if (need >= left) {
      state.induction[i]! += left * speed;
      return 0;
    }
    state.induction[i] = 1;
    left -= need;
  }
  const k1 = k.k1Ref * arrhenius(k.e1, tK);
  const k2 = k.k2Ref * arrhenius(k.e2, tK);
  const ceiling = k.vitrify === null ? 1 : Math.min(1, k.vitrify.full + k.vitrify.perK * (tK - 293.15));
  const first = state.degree[i]!;
  let a = first;
  while (left > 0) {
    const r0 = rate(k, k1, k2, a, ceiling);
    if (r0 <= 0) break;
    const part = Math.min(left, 0.02 / r0);
    const half = Math.min(1, a + 0.5 * part * r0);
    a = Math.min(1, a + part * rate(k, k1, k2, half, ceiling));
    left -= part;
  }
  state.degree[i] = a;
  return a - first;
}
