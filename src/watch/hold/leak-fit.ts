import { ar1Inflation, lag1 } from '../../estimate/ar1.ts';
import { smoothCovariance, wanderOfMeans, whiteScale } from '../../estimate/covariance.ts';
import { fitGls } from '../../estimate/gls.ts';
import type { Course } from './course.ts';
import type { GasCourse, GasDoubt } from './gas.ts';
import { AIR, blind, gasCourse, SLEEVE } from './gas.ts';
import type { Past } from './past.ts';
import { FADES_S, fadeAt } from './past.ts';

/**
 * Regression of ln(p_abs/T) on time over the blocks of a closed segment,
 *   ln p = a − b·t + κ·ln T − (volume that has crept) + errors,
 * by generalised least squares. What has a law but no known size (creep, squeeze-out, heat of the fill, lag and gain
 * of a probe) is a nuisance with a prior in the covariance; so the data settle it where they can and the interval
 * carries it where they cannot. Residuals that are larger or more alike than the covariance says widen everything.
 */
export interface FitContext {
  /** Absolute pressure now and standard uncertainty of the air's, bar. */
  readonly absBar: number;
  readonly uAirBar: number;
  readonly groundC: number | null;
  readonly exotherm: Parameters<typeof blind>[0];
  /** Scatter of one reading and value of one count, bar. */
  readonly sampleSd: number;
  readonly stepBar: number;
  readonly past: Past;
}

export interface LeakFit {
  readonly witness: GasCourse['witness'];
  readonly blocks: number;
  readonly spanS: number;
  /** −d ln p/dt by the leak alone, 1/s, and its standard uncertainty. */
  readonly perS: number;
  readonly sd: number;
  /** Degrees of freedom of the scatter: for quantiles. */
  readonly dof: number;
  /** Shares of the variance: gas temperature, creep and squeeze-out. */
  readonly heatShare: number;
  readonly creepShare: number;
  /** Coefficient of κ·ln T when it is left free: 1 for shut-in gas, 0 for a pressure that something holds. */
  readonly follows: { readonly value: number; readonly sd: number } | null;
}

/**
 * Change of ln p for one of ln T: 1 for a rigid packer, less for one that gives way: 1 / (1 + p·V'/V) with 0.5 to 5 %
 * of the volume a bar (common practice, no source).
 */
export const KAPPA = 0.94;
export const SD_KAPPA = 0.03;

/** Growth of the volume after a fill: mean and sd of the share for each of past.ts FADES_S (common practice). */
const CREEP: readonly (readonly [number, number])[] = [
  [0.003, 0.004],
  [0.003, 0.003],
  [0.0045, 0.003],
  [0.0005, 0.001],
];
/** Slow drift of the sensor's zero and of the weather, bar, in two hours. */
const DRIFT_BAR = 0.0012;
const DRIFT_S = 7200;
/** A sensor wanders a little: share of its noise, and how long. */
const WANDER_SHARE = 0.35;
const WANDER_S = 30;
/** Nothing is known better than this over a block, bar: models are only models. */
const LEAST_BAR = 4e-5;
const LEAST_BLOCKS = 12;

/** Prepared data: what both fits share. */
interface Prepared {
  readonly gas: GasCourse;
  readonly doubt: GasDoubt;
  readonly t: readonly number[];
  readonly lnP: readonly number[];
  /** Fades at each block: [k][i]. */
  readonly fades: readonly (readonly number[])[];
  readonly creepMean: readonly number[];
  readonly fillMean: readonly number[];
}

function prepare(c: Course, ctx: FitContext): Prepared {
  const gas = gasCourse(c, ctx.groundC);
  const doubt = gas.witness === 'air' ? AIR : gas.witness === 'sleeve' ? SLEEVE : blind(ctx.exotherm);
  const { past } = ctx;
  const t = gas.index.map((i) => c.t[i]!);
  const fades = FADES_S.map((_, k) => t.map((at) => fadeAt(past, k, at)));
  const sum = (priors: readonly (readonly [number, number])[]) =>
    t.map((_, i) => priors.reduce((s, [mean], k) => s + mean * past.amount[k]! * fades[k]![i]!, 0));
  return {
    gas,
    doubt,
    t,
    lnP: gas.index.map((i) => c.y[i]!),
    fades,
    creepMean: sum(CREEP),
    fillMean: sum(doubt.fill),
  };
}

/** Covariance of two blocks by what the gas temperature may do, but for the probe's share. */
function heatCov(p: Prepared, ctx: FitContext, block: number, i: number, j: number): number {
  const { doubt, gas, fades } = p;
  const apart = Math.abs(p.t[i]! - p.t[j]!);
  const perK = KAPPA / gas.kelvin;
  let v = (KAPPA * doubt.sdLagS) ** 2 * gas.perLag[i]! * gas.perLag[j]!;
  for (const e of doubt.errors)
    v +=
      perK *
      perK *
      (e.kind === 'wander'
        ? wanderOfMeans(e.sdK, e.timeS, block, apart)
        : smoothCovariance(e.sdK, e.timeS, apart));
  for (let k = 0; k < FADES_S.length; k++) {
    const sd = doubt.fill[k]![1] * ctx.past.size[k]! * perK;
    v += sd * sd * fades[k]![i]! * fades[k]![j]!;
  }
  return v;
}

function creepCov(p: Prepared, ctx: FitContext, i: number, j: number): number {
  let v = 0;
  for (let k = 0; k < FADES_S.length; k++) {
    const sd = CREEP[k]![1] * ctx.past.size[k]!;
    v += sd * sd * p.fades[k]![i]! * p.fades[k]![j]!;
  }
  return v;
}

/** Steps of a converter that the noise does not dither hold the mean off by up to half a step, for minutes. */
function staircaseSd(ctx: FitContext): number {
  const r = ctx.stepBar > 0 ? ctx.sampleSd / ctx.stepBar : 1;
  return 0.29 * ctx.stepBar * Math.exp(-2 * (Math.PI * r) ** 2);
}

function sensorCov(p: Prepared, ctx: FitContext, block: number, white: number, i: number, j: number): number {
  const apart = Math.abs(p.t[i]! - p.t[j]!);
  const perBar = 1 / ctx.absBar;
  let v =
    perBar *
    perBar *
    (wanderOfMeans(WANDER_SHARE * ctx.sampleSd, WANDER_S, block, apart) +
      wanderOfMeans(staircaseSd(ctx), 120, block, apart) +
      wanderOfMeans(DRIFT_BAR, DRIFT_S, block, apart));
  if (i === j) v += white * white;
  return v;
}

/** null: not enough blocks. */
export function leakFit(c: Course, ctx: FitContext): LeakFit | null {
  const p = prepare(c, ctx);
  const n = p.t.length;
  if (n < LEAST_BLOCKS) return null;
  const { gas, doubt } = p;
  const block = c.lengthS;
  const perK = KAPPA / gas.kelvin;
  const base = p.lnP.map((v, i) => v - p.creepMean[i]! - perK * p.fillMean[i]!);
  const heated = gas.lnT.map((v) => KAPPA * v);
  const y = base.map((v, i) => v - doubt.share * heated[i]!);
  const white = Math.max(LEAST_BAR / ctx.absBar, whiteScale(y));
  const sdShare = gas.witness === 'none' ? 0 : shareSd(doubt, ctx);
  const k = new Float64Array(n * n);
  const rest = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      const own =
        sensorCov(p, ctx, block, white, i, j) + heatCov(p, ctx, block, i, j) + creepCov(p, ctx, i, j);
      rest[i * n + j] = own;
      k[i * n + j] = own + sdShare * sdShare * heated[i]! * heated[j]!;
    }
  const ones = p.t.map(() => 1);
  const mid = (p.t[0]! + p.t[n - 1]!) / 2;
  const time = p.t.map((at) => at - mid);
  const fit = fitGls([ones, time], y, k);
  if (fit === null) return null;
  const dof = fit.dof;
  // What the covariance did not foresee widens the interval, never narrows it.
  const misfit = Math.max(1, fit.chi2 / dof) * ar1Inflation(lag1([...fit.white]));
  const w = fit.weights[1]!;
  const form = (cov: (i: number, j: number) => number): number => {
    let v = 0;
    for (let i = 0; i < n; i++)
      for (let j = 0; j <= i; j++) v += (i === j ? 1 : 2) * w[i]! * w[j]! * cov(i, j);
    return v;
  };
  const variance = fit.cov[1]![1]!;
  const heat = form((i, j) => heatCov(p, ctx, block, i, j) + sdShare * sdShare * heated[i]! * heated[j]!);
  return {
    witness: gas.witness,
    blocks: n,
    spanS: p.t[n - 1]! - p.t[0]! + block,
    perS: -fit.beta[1]!,
    sd: Math.sqrt(variance * misfit),
    dof,
    heatShare: heat / variance,
    creepShare: form((i, j) => creepCov(p, ctx, i, j)) / variance,
    follows: gas.witness === 'none' ? null : following(base, ones, time, heated, rest),
  };
}

/** Doubt of the share: the probe's, the packer's give, and the air pressure's. */
function shareSd(doubt: GasDoubt, ctx: FitContext): number {
  return Math.hypot(doubt.sdShare, SD_KAPPA / KAPPA, ctx.uAirBar / ctx.absBar);
}

function following(
  base: readonly number[],
  ones: readonly number[],
  time: readonly number[],
  heated: readonly number[],
  cov: Float64Array,
): LeakFit['follows'] {
  const fit = fitGls([ones, time, heated], base, cov);
  if (fit === null) return null;
  const misfit = Math.max(1, fit.chi2 / fit.dof) * ar1Inflation(lag1([...fit.white]));
  return { value: fit.beta[2]!, sd: Math.sqrt(fit.cov[2]![2]! * misfit) };
}
