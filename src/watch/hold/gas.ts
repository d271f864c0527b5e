import type { ResinSetup } from '../../job/setup.ts';
import { vapourPressure } from '../../physics/water.ts';
import type { Course } from './course.ts';

/**
 * What is known of the gas temperature in the packer, and how well. A probe in the air is the gas but for its lag,
 * its gain and the corners it does not see; one on the sleeve leads the gas through the packer's wall; without either
 * only the prior is left: heat of the fill, and a cure that may warm and cool the gas by what its exotherm allows.
 */
export type Witness = 'air' | 'sleeve' | 'none';

export interface GasCourse {
  readonly witness: Witness;
  /** Blocks of the course that are used: all but those without the witness. */
  readonly index: readonly number[];
  /** ln of the gas temperature as the witness tells it, lag taken off; about the mean. Zeros without one. */
  readonly lnT: readonly number[];
  /** Change of ln T for one second more of lag. */
  readonly perLag: readonly number[];
  /** Highest less lowest, K. */
  readonly rangeK: number;
  /** Mean temperature, K. */
  readonly kelvin: number;
}

/** One slow error: comes and goes ('wander') or swings smoothly ('smooth'). sd in K, time in s. */
export interface GasError {
  readonly kind: 'wander' | 'smooth';
  readonly sdK: number;
  readonly timeS: number;
}

/** What the temperature that the witness tells may be wrong by (95 % is about two of each). */
export interface GasDoubt {
  /** Lag that is taken off and its standard uncertainty, s. Negative: the witness leads the gas. */
  readonly lagS: number;
  readonly sdLagS: number;
  /** Share of a change that reaches the gas, and its standard uncertainty. */
  readonly share: number;
  readonly sdShare: number;
  readonly errors: readonly GasError[];
  /** More of the smooth error the more the temperature swings: share of its range, over 900 s. */
  readonly swing: number;
  /** Share of its range that comes and goes within minutes: no probe lags by one time constant alone, no gas is of one warmth. */
  readonly rough: number;
  /** Heat of the fill that the witness does not tell: mean and sd, K, for each of past.ts FADES_S. */
  readonly fill: readonly (readonly [mean: number, sd: number])[];
}

/** Times over which the errors by a swing come and go, s. */
export const SWING_S = 900;
export const ROUGH_S = 300;

/**
 * A probe in the air: bare wires answer in seconds, a sheath in half a minute. 0.17 K that wander in ten minutes are a
 * trend known to 0.05 K/min (95 %) over ten minutes.
 */
export const AIR: GasDoubt = {
  lagS: 18,
  sdLagS: 12,
  share: 1,
  sdShare: 0.06,
  errors: [{ kind: 'wander', sdK: 0.17, timeS: 600 }],
  swing: 0.01,
  rough: 0.015,
  fill: [
    [0, 0.5],
    [0, 0.3],
    [0, 0.15],
    [0, 0.05],
  ],
};

/** A probe between packer and sleeve: 3-8 mm of rubber lie between it and the gas, minutes of diffusion. */
export const SLEEVE: GasDoubt = {
  lagS: -130,
  sdLagS: 110,
  share: 0.95,
  sdShare: 0.1,
  errors: [
    { kind: 'wander', sdK: 0.3, timeS: 600 },
    { kind: 'smooth', sdK: 0.5, timeS: SWING_S },
  ],
  swing: 0.1,
  rough: 0,
  fill: [
    [1, 2],
    [1, 1.5],
    [0.7, 0.8],
    [0.2, 0.3],
  ],
};

/**
 * Standard deviation of what a cure does to the gas, K, by the resin's exotherm, and of what a heater does that is set, goes
 * off or is moved (common practice, no source).
 */
const CURE_K = { low: 3, medium: 5, high: 10, unknown: 9, heated: 20 } as const;
const CURE_TIME_S = 1200;

export function blind(exotherm: ResinSetup['exotherm'] | 'none' | 'heated'): GasDoubt {
  return {
    lagS: 0,
    sdLagS: 0,
    share: 0,
    sdShare: 0,
    swing: 0,
    rough: 0,
    errors: [
      { kind: 'wander', sdK: 0.3, timeS: 600 },
      { kind: 'smooth', sdK: exotherm === 'none' ? 2 : CURE_K[exotherm], timeS: CURE_TIME_S },
    ],
    fill: [
      [1, 3],
      [1.5, 3],
      [1.5, 1.5],
      [0.5, 0.5],
    ],
  };
}

/**
 * Over liquid water a change of ln T moves ln p by T/p · de/dT more, where the air stays saturated: a tenth at 10 °C and 2.5 bar
 * absolute, a third at 35 °C. Whether it does nobody knows: half of it, give or take the other half.
 */
export function overWater(doubt: GasDoubt, kelvin: number, absBar: number): GasDoubt {
  const c = Math.min(150, Math.max(1, kelvin - 273.15));
  const perK = (vapourPressure(c + 0.5) - vapourPressure(c - 0.5)) / 1e5;
  const half = (0.5 * perK * kelvin) / absBar;
  return {
    ...doubt,
    share: doubt.share * (1 + half),
    sdShare: Math.hypot(doubt.sdShare, doubt.share * half),
  };
}

/** Share of the blocks that must have a value before a probe is a witness. */
const LEAST_SHARE = 0.8;

/** The best witness that the course has, and what it tells. `ground` stands in for the mean where there is none. */
export function gasCourse(
  c: Course,
  groundC: number | null,
  mistrust: { readonly air: boolean; readonly sleeve: boolean },
): GasCourse {
  for (const witness of ['air', 'sleeve'] as const) {
    if (mistrust[witness]) continue;
    const values = c[witness];
    const index: number[] = [];
    values.forEach((v, i) => {
      if (v !== null) index.push(i);
    });
    if (index.length < 4 || index.length < LEAST_SHARE * c.t.length) continue;
    const kelvin = index.reduce((s, i) => s + values[i]!, 0) / index.length;
    const doubt = witness === 'air' ? AIR : SLEEVE;
    const last = index.length - 1;
    const perLag = index.map((i, j) => {
      const a = index[Math.max(0, j - 1)]!;
      const b = index[Math.min(last, j + 1)]!;
      return (values[b]! - values[a]!) / (c.t[b]! - c.t[a]!) / values[i]!;
    });
    const lnT = index.map((i, j) => Math.log(values[i]! / kelvin) + doubt.lagS * perLag[j]!);
    const told = index.map((i) => values[i]!);
    return { witness, index, lnT, perLag, kelvin, rangeK: Math.max(...told) - Math.min(...told) };
  }
  const index = c.t.map((_, i) => i);
  const zero = index.map(() => 0);
  return { witness: 'none', index, lnT: zero, perLag: zero, rangeK: 0, kelvin: (groundC ?? 10) + 273.15 };
}
