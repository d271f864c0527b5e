/** Cure by time and temperature. Temperatures in K and rates in 1/s unless a name says otherwise. */

/** J/(mol·K), exact since 2019. */
const R = 8.314_462_618;

/** Arrhenius: k(t) / k(ref) = exp[(Ea / R) · (1/ref − 1/t)]. Ea in J/mol, temperatures in K. */
export function arrhenius(ea: number, t: number, ref: number): number {
  return Math.exp((ea / R) * (1 / ref - 1 / t));
}

/** The same with Ea/R given as Q in K, the form of ASTM C1074 and of the CEB-FIP Model Code. */
export function ageFactor(q: number, t: number, ref: number): number {
  return Math.exp(q * (1 / ref - 1 / t));
}

/** Activation energy in J/mol for which the rate grows `factor` times from t1 to t2, K. */
export function activationEnergy(factor: number, t1: number, t2: number): number {
  return (R * Math.log(factor)) / (1 / t1 - 1 / t2);
}

/**
 * Equivalent age at the reference temperature, in the unit of `step`: Σ exp[Q (1/ref − 1/T)] · step over temperatures
 * in °C, each standing for one step. ASTM C1074 counts 273 K at 0 °C, hence the offset's default.
 */
export function equivalentAge(
  q: number,
  celsius: readonly number[],
  step: number,
  refC: number,
  zero = 273,
): number {
  let sum = 0;
  for (const c of celsius) sum += ageFactor(q, c + zero, refC + zero);
  return sum * step;
}

/** Nurse-Saul maturity in °C times the unit of `step`: Σ max(0, T − datum) · step, temperatures in °C. */
export function nurseSaul(celsius: readonly number[], step: number, datumC: number): number {
  let sum = 0;
  for (const c of celsius) sum += Math.max(0, c - datumC);
  return sum * step;
}

/** Conversion of an n-th order reaction at k·t from 0 (closed form): da/dt = k (1 − a)^n. */
export function nthOrder(kt: number, n: number): number {
  if (n === 1) return 1 - Math.exp(-kt);
  const base = 1 + (n - 1) * kt;
  // Below first order the reaction ends at a finite time.
  return base <= 0 ? 1 : 1 - base ** (1 / (1 - n));
}

/** Conversion of da/dt = (k1 + k2·a)(1 − a) from 0 (closed form, k1 > 0). */
export function autocatalytic(k1: number, k2: number, t: number): number {
  const e = Math.exp(-(k1 + k2) * t);
  return (1 - e) / (1 + (k2 / k1) * e);
}

/** Conversion of da/dt = k·a(1 − a) from a0 in 0..1 (logistic). */
export function logistic(k: number, a0: number, t: number): number {
  return 1 / (1 + ((1 - a0) / a0) * Math.exp(-k * t));
}

/** Time of the logistic's greatest rate, k/4, where a = 1/2. */
export function logisticPeak(k: number, a0: number): number {
  return Math.log((1 - a0) / a0) / k;
}

/** Kamal and Sourour: da/dt = (k1 + k2·a^m)(1 − a)^n. With k1 = 0 the rate peaks at a = m / (m + n). */
export function kamal(a: number, k1: number, k2: number, m: number, n: number): number {
  const x = Math.min(1, Math.max(0, a));
  return (k1 + k2 * x ** m) * (1 - x) ** n;
}

/** Glass transition of a partly cured network (DiBenedetto): Tg0 + (Tg∞ − Tg0)·λa / (1 − (1 − λ)a), °C or K. */
export function diBenedetto(a: number, tg0: number, tgEnd: number, lambda: number): number {
  return tg0 + ((tgEnd - tg0) * lambda * a) / (1 - (1 - lambda) * a);
}

/** Rate of conversion at conversion a and time t. */
export type Rate = (a: number, t: number) => number;

/** Dormand-Prince 5(4): nodes, weights of the stages, and of the error. */
const C = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1] as const;
const A: readonly (readonly number[])[] = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
const E = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40] as const;
const MOST_STEPS = 200_000;

/**
 * Integrates da/dt = rate(a, t) from t0 to t1 with an adaptive Runge-Kutta 5(4) pair (Dormand & Prince 1980); the
 * local error is kept under `tolerance`. Conversion is kept within 0..1. Throws a RangeError where the steps give out.
 */
export function integrateCure(rate: Rate, a0: number, t0: number, t1: number, tolerance = 1e-9): number {
  return run(rate, a0, t0, t1, tolerance, null).a;
}

/** Time at which the conversion first reaches `target`; null where it does not by t1. */
export function timeToConversion(
  rate: Rate,
  a0: number,
  t0: number,
  t1: number,
  target: number,
  tolerance = 1e-9,
): number | null {
  return run(rate, a0, t0, t1, tolerance, target).met;
}

function run(
  rate: Rate,
  a0: number,
  t0: number,
  t1: number,
  tolerance: number,
  target: number | null,
): { a: number; met: number | null } {
  let t = t0;
  let a = a0;
  if (target !== null && a >= target) return { a, met: t };
  let h = (t1 - t0) / 1000;
  const k = new Float64Array(7);
  for (let step = 0; step < MOST_STEPS; step++) {
    if (t >= t1) return { a, met: null };
    h = Math.min(h, t1 - t);
    let next = a;
    for (let s = 0; s < 7; s++) {
      let x = a;
      const row = A[s] as readonly number[];
      for (let j = 0; j < row.length; j++) x += h * (row[j] as number) * (k[j] as number);
      k[s] = rate(x, t + (C[s] as number) * h);
      next = x;
    }
    let error = 0;
    for (let s = 0; s < 7; s++) error += h * (E[s] as number) * (k[s] as number);
    error = Math.abs(error);
    const grow = error === 0 ? 5 : Math.min(5, Math.max(0.2, 0.9 * (tolerance / error) ** 0.2));
    if (error > tolerance && h > 1e-12 * Math.max(1, Math.abs(t))) {
      h *= grow;
      continue;
    }
    if (target !== null && next >= target) {
      // A cubic through both ends and slopes (the pair's stages 1 and 7), halved until the crossing is found.
      const crossing = (s: number): number =>
        (1 + 2 * s) * (1 - s) ** 2 * a +
        s * (1 - s) ** 2 * h * (k[0] as number) +
        s * s * (3 - 2 * s) * next +
        s * s * (s - 1) * h * (k[6] as number);
      let lo = 0;
      let hi = 1;
      for (let i = 0; i < 60; i++) {
        const mid = (lo + hi) / 2;
        if (crossing(mid) >= target) hi = mid;
        else lo = mid;
      }
      return { a: next, met: t + hi * h };
    }
    t = Math.min(t + h, t1);
    a = Math.min(1, Math.max(0, next));
    h *= grow;
  }
  throw new RangeError('cure integration ran out of steps');
}
