import { ar1Inflation, lag1 } from '../../estimate/ar1.ts';
import { smoothCovariance, wanderOfMeans, whiteScale } from '../../estimate/covariance.ts';
import type { GlsFit } from '../../estimate/gls.ts';
import { fitGls, traceOfShare } from '../../estimate/gls.ts';
import type { Course } from './course.ts';
import type { GasCourse, GasDoubt, GasError } from './gas.ts';
import { AIR, blind, gasCourse, overWater, ROUGH_S, SLEEVE, SWING_S } from './gas.ts';
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
  readonly airBar: number;
  readonly uAirBar: number;
  readonly groundC: number | null;
  readonly exotherm: Parameters<typeof blind>[0];
  /** There may be liquid water in the line: its vapour follows the warmth besides. */
  readonly wet: boolean;
  /** What a kelvin of the transducer's own warmth moves its reading by, bar. */
  readonly sensorBarPerK: number;
  /** Scatter of one reading and value of one count, bar. */
  readonly sampleSd: number;
  readonly stepBar: number;
  /** Probes that are not to be believed. */
  readonly mistrust: { readonly air: boolean; readonly sleeve: boolean };
  readonly past: Past;
}

export interface LeakFit {
  readonly witness: GasCourse['witness'];
  readonly spanS: number;
  /** Mean absolute pressure, bar. */
  readonly meanAbsBar: number;
  /** −d ln p/dt by the leak alone, 1/s, and its standard uncertainty. */
  readonly perS: number;
  readonly sd: number;
  /** Degrees of freedom of the scatter: for quantiles. */
  readonly dof: number;
  /** Shares of the variance: gas temperature, creep and squeeze-out, the transducer's own warmth. */
  readonly heatShare: number;
  readonly creepShare: number;
  readonly sensorShare: number;
  /** Coefficient of κ·ln T when it is left free: 1 for shut-in gas, 0 for a pressure that something holds. */
  readonly follows: Following | null;
}

export interface Following {
  readonly value: number;
  readonly sd: number;
  /**
   * What of the witness's movement the gas can have made: one less the energy of the witness's own errors over that of all
   * of it. The coefficient of a regressor that has errors comes out too small by that factor; near 0 (a gas that stands
   * still under a probe that wanders) it says nothing. 1 where it was not needed.
   */
  readonly moved: number;
}

/**
 * Change of ln p for one of ln T: 1 for a rigid packer and no hose. Less for one that gives way, 1 / (1 + p·V'/V) with
 * 0.5 to 5 % of the volume a bar, and for air in a hose that does not warm with it, 0 to 20 % (common practice).
 */
export const KAPPA = 0.91;
export const SD_KAPPA = 0.05;

/** Growth of the volume after a fill: mean and sd of the share for each of past.ts FADES_S (common practice). */
const CREEP: readonly (readonly [number, number])[] = [
  [0.003, 0.002],
  [0.003, 0.002],
  [0.0036, 0.0018],
  [0.0002, 0.0006],
];
/** Slow drift of the sensor's zero and of the weather, bar, in two hours. */
const DRIFT_BAR = 0.0012;
const DRIFT_S = 7200;
/**
 * Warmth of the transducer itself, smoothly: a cloud, a door, a hand's warmth, a line that is cold at first. With 1.5 K in
 * 20 min a trend of 0.15 K/min is within its 95 %, and one of 5 K in 12 min within what no leak is claimed at (common
 * practice, no source).
 */
const WARMTH_K = 1.5;
const WARMTH_S = 1200;
/** A sensor wanders a little: share of its noise, and how long. */
const WANDER_SHARE = 0.35;
const WANDER_S = 30;
const STAIR_S = 120;
/** Nothing is known better than this over a block, bar: models are only models. */
const LEAST_BAR = 4e-5;
const LEAST_BLOCKS = 12;
/** A packer holds at least so much when it is said to have been filled, bar. */
const LEAST_FILL_BAR = 0.2;
/** Shut-in gas follows its temperature with a factor of one; surely under this it does not. */
export const FOLLOWS = 0.5;
/** Blocks on either side of a turn. */
const LEAST_SIDE = 10;

/** Prepared data: what both fits share. */
interface Prepared {
  readonly gas: GasCourse;
  readonly doubt: GasDoubt;
  readonly t: readonly number[];
  readonly lnP: readonly number[];
  /** Fades at each block: [k][i]. */
  readonly fades: readonly (readonly number[])[];
  /** How far the rubber has followed the pressure's own changes since the first block, in fills: [k][i]. */
  readonly followed: readonly (readonly number[])[];
  readonly creepMean: readonly number[];
  readonly fillMean: readonly number[];
}

function prepare(c: Course, ctx: FitContext): Prepared {
  const gas = gasCourse(c, ctx.groundC, ctx.mistrust);
  const known = gas.witness === 'air' ? AIR : gas.witness === 'sleeve' ? SLEEVE : blind(ctx.exotherm);
  const doubt = ctx.wet ? overWater(known, gas.kelvin, ctx.absBar) : known;
  const { past } = ctx;
  const t = gas.index.map((i) => c.t[i]!);
  const fades = FADES_S.map((_, k) => t.map((at) => fadeAt(past, k, at)));
  const lnP = gas.index.map((i) => c.y[i]!);
  const followed = FADES_S.map((tau) => follow(t, lnP, tau, ctx));
  const sum = (priors: readonly (readonly [number, number])[]) =>
    t.map((_, i) => priors.reduce((s, [mean], k) => s + mean * past.amount[k]! * fades[k]![i]!, 0));
  return {
    gas,
    doubt,
    t,
    lnP,
    fades,
    followed,
    creepMean: sum(CREEP).map((v, i) => CREEP.reduce((s, [mean], k) => s - mean * followed[k]![i]!, v)),
    fillMean: sum(doubt.fill),
  };
}

/**
 * Rubber answers a change of pressure by warmth or a leak as it answers the fill: it goes on growing, or shrinking, for
 * minutes. A share of one is the whole fill. After an exotherm's rise this looks like a leak that begins at its peak.
 */
function follow(t: readonly number[], lnP: readonly number[], tau: number, ctx: FitContext): number[] {
  const fill = Math.max(LEAST_FILL_BAR, ctx.absBar - ctx.airBar);
  const first = Math.exp(lnP[0] ?? 0);
  let x = 0;
  let before = 0;
  return t.map((at, i) => {
    const share = (Math.exp(lnP[i]!) - first) / fill;
    // Between two blocks the pressure goes straight: the exact answer of a first-order law to a ramp.
    if (i > 0) {
      const dt = at - t[i - 1]!;
      const keep = Math.exp(-dt / tau);
      const slope = (share - before) / dt;
      x = share - slope * tau + (x - before + slope * tau) * keep;
    }
    before = share;
    return x;
  });
}

/** Nuisances with a law and a prior: vectors of one standard deviation each. */
function heatNuisances(p: Prepared, ctx: FitContext): number[][] {
  const { doubt, gas, fades } = p;
  const perK = KAPPA / gas.kelvin;
  const out = doubt.fill.map(([, sd], k) => fades[k]!.map((f) => perK * sd * ctx.past.size[k]! * f));
  if (doubt.sdLagS > 0) out.push(gas.perLag.map((v) => KAPPA * doubt.sdLagS * v));
  return out;
}

function creepNuisances(p: Prepared, ctx: FitContext): number[][] {
  return CREEP.flatMap(([, sd], k) => [
    p.fades[k]!.map((f) => sd * ctx.past.size[k]! * f),
    p.followed[k]!.map((x) => sd * x),
  ]);
}

/** Covariance of blocks that lie so many blocks apart, by what the gas temperature may do between the witness's words. */
function heatByLag(p: Prepared, block: number, most: number): Float64Array {
  const perK = KAPPA / p.gas.kelvin;
  const out = new Float64Array(most + 1);
  const swing: GasError = { kind: 'smooth', sdK: p.doubt.swing * p.gas.rangeK, timeS: SWING_S };
  const rough: GasError = { kind: 'wander', sdK: p.doubt.rough * p.gas.rangeK, timeS: ROUGH_S };
  for (const e of [...p.doubt.errors, swing, rough])
    for (let m = 0; m <= most; m++)
      out[m]! +=
        perK *
        perK *
        (e.kind === 'wander'
          ? wanderOfMeans(e.sdK, e.timeS, block, m * block)
          : smoothCovariance(e.sdK, e.timeS, m * block));
  return out;
}

/** Steps of a converter that the noise does not dither hold the mean off by up to half a step, for minutes. */
function staircaseSd(ctx: FitContext): number {
  const r = ctx.stepBar > 0 ? ctx.sampleSd / ctx.stepBar : 1;
  return 0.29 * ctx.stepBar * Math.exp(-2 * (Math.PI * r) ** 2);
}

function sensorByLag(ctx: FitContext, block: number, white: number, most: number): Float64Array {
  const perBar2 = 1 / ctx.absBar ** 2;
  const out = new Float64Array(most + 1);
  for (let m = 0; m <= most; m++)
    out[m] =
      perBar2 *
      (wanderOfMeans(WANDER_SHARE * ctx.sampleSd, WANDER_S, block, m * block) +
        wanderOfMeans(staircaseSd(ctx), STAIR_S, block, m * block) +
        wanderOfMeans(DRIFT_BAR, DRIFT_S, block, m * block));
  out[0]! += white * white;
  return out;
}

/** What the transducer's warmth may have done to the reading. */
function warmthByLag(ctx: FitContext, block: number, most: number): Float64Array {
  const sd = (WARMTH_K * ctx.sensorBarPerK) / ctx.absBar;
  return Float64Array.from({ length: most + 1 }, (_, m) => smoothCovariance(sd, WARMTH_S, m * block));
}

interface Model {
  readonly p: Prepared;
  /** ln p less creep and heat of the fill, and the same less the witness's temperature. */
  readonly base: readonly number[];
  readonly y: readonly number[];
  readonly heated: readonly number[];
  /** Seconds about the middle. */
  readonly time: readonly number[];
  readonly midS: number;
  /** Covariance without and with the doubt of the witness's share. */
  readonly rest: Float64Array;
  readonly all: Float64Array;
  readonly heat: Float64Array;
  readonly warmth: Float64Array;
  readonly heats: readonly (readonly number[])[];
  readonly creeps: readonly (readonly number[])[];
}

/** null: not enough blocks. */
function modelOf(c: Course, ctx: FitContext): Model | null {
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
  const most = c.t.length - 1;
  const heat = heatByLag(p, block, most);
  const heats = heatNuisances(p, ctx);
  const creeps = creepNuisances(p, ctx);
  const warmth = warmthByLag(ctx, block, most);
  const slow = [sensorByLag(ctx, block, white, most), heat, warmth];
  const rest = covariance(gas.index, slow, [...heats, ...creeps]);
  const sdShare = gas.witness === 'none' ? 0 : shareSd(doubt, ctx);
  const shared = heated.map((v) => sdShare * v);
  const all = rest.slice();
  addOuter(all, n, shared);
  const midS = (p.t[0]! + p.t[n - 1]!) / 2;
  return {
    p,
    base,
    y,
    heated,
    time: p.t.map((at) => at - midS),
    midS,
    rest,
    all,
    heat,
    warmth,
    heats: [...heats, shared],
    creeps,
  };
}

export function leakFit(c: Course, ctx: FitContext): LeakFit | null {
  const m = modelOf(c, ctx);
  if (m === null) return null;
  const { p, time } = m;
  const n = time.length;
  const ones = time.map(() => 1);
  const fit = fitGls([ones, time], m.y, m.all);
  if (fit === null) return null;
  const w = fit.weights[1]!;
  const along = (v: readonly number[]) => v.reduce((s, x, i) => s + x * w[i]!, 0) ** 2;
  const variance = fit.cov[1]![1]!;
  const heatPart = m.heats.reduce((s, v) => s + along(v), 0) + quadratic(p.gas.index, m.heat, w);
  return {
    witness: p.gas.witness,
    spanS: p.t[n - 1]! - p.t[0]! + c.lengthS,
    meanAbsBar: Math.exp(p.lnP.reduce((s, v) => s + v, 0) / n),
    perS: -fit.beta[1]!,
    sd: Math.sqrt(variance * misfit(fit)),
    dof: fit.dof,
    heatShare: heatPart / variance,
    creepShare: m.creeps.reduce((s, v) => s + along(v), 0) / variance,
    sensorShare: quadratic(p.gas.index, m.warmth, w) / variance,
    follows: p.gas.witness === 'none' ? null : following(m, ones),
  };
}

/** Gas that is lost faster from some moment on: by how much, 1/s. */
export interface Change {
  readonly change: number;
  readonly sd: number;
  readonly dof: number;
}

/**
 * How much faster gas is lost from turnS on than before, 1/s, where the rate before is known with its standard
 * uncertainty: ln p = a − (before)·t − change·max(0, t − turn). It knows a leak that has just begun sooner than any
 * line through the same minutes, which would have to forget the level first. null: not enough blocks on both sides.
 * Asked for several turns of one course, its covariance is made once.
 */
export function changeFits(
  c: Course,
  ctx: FitContext,
): (turnS: number, before: { readonly perS: number; readonly sd: number }) => Change | null {
  const m = modelOf(c, ctx);
  return (turnS, before) => {
    if (m === null) return null;
    const { time, midS } = m;
    const hinge = time.map((at) => Math.max(0, at - (turnS - midS)));
    const after = hinge.filter((h) => h > 0).length;
    if (after < LEAST_SIDE || time.length - after < LEAST_SIDE) return null;
    const y = m.y.map((v, i) => v + before.perS * time[i]!);
    const all = m.all.slice();
    addOuter(
      all,
      time.length,
      time.map((at) => before.sd * at),
    );
    const fit = fitGls([time.map(() => 1), hinge], y, all);
    if (fit === null) return null;
    return { change: -fit.beta[1]!, sd: Math.sqrt(fit.cov[1]![1]! * misfit(fit)), dof: fit.dof };
  };
}

/**
 * What the covariance did not foresee widens the interval, never narrows it: the mean square of the white residuals over
 * one, and their likeness to their neighbours, both less the standard deviation that chance gives them.
 */
function misfit(fit: GlsFit): number {
  const chance = Math.sqrt(2 / fit.dof);
  const phi = lag1([...fit.white]) - 1 / Math.sqrt(fit.white.length);
  return Math.max(1, fit.chi2 / fit.dof - chance) * ar1Inflation(phi);
}

/** Lower triangle of the covariance of the blocks: what depends on their distance, and the nuisances. In one pass: they are many. */
function covariance(
  index: readonly number[],
  byLag: readonly Float64Array[],
  nuisances: readonly (readonly number[])[],
): Float64Array {
  const n = index.length;
  const lags = byLag.length;
  const most = byLag[0]!.length;
  const apart = new Float64Array(most);
  for (let l = 0; l < lags; l++) for (let m = 0; m < most; m++) apart[m]! += byLag[l]![m]!;
  // A block's nuisances lie side by side.
  const width = nuisances.length;
  const rows = new Float64Array(n * width);
  for (let v = 0; v < width; v++) for (let i = 0; i < n; i++) rows[i * width + v] = nuisances[v]![i]!;
  const k = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = apart[index[i]! - index[j]!]!;
      for (let v = 0, a = i * width, b = j * width; v < width; v++) sum += rows[a + v]! * rows[b + v]!;
      k[i * n + j] = sum;
    }
  return k;
}

function addOuter(k: Float64Array, n: number, v: readonly number[]): void {
  for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) k[i * n + j]! += v[i]! * v[j]!;
}

function quadratic(index: readonly number[], byLag: Float64Array, w: Float64Array): number {
  let v = 0;
  for (let i = 0; i < w.length; i++)
    for (let j = 0; j <= i; j++) v += (i === j ? 1 : 2) * w[i]! * w[j]! * byLag[index[i]! - index[j]!]!;
  return v;
}

/** Doubt of the share: the probe's, the packer's give, and the air pressure's. */
function shareSd(doubt: GasDoubt, ctx: FitContext): number {
  return Math.hypot(doubt.sdShare, SD_KAPPA / KAPPA, ctx.uAirBar / ctx.absBar);
}

function following(m: Model, ones: readonly number[]): Following | null {
  const fit = fitGls([ones, m.time, m.heated], m.base, m.rest);
  if (fit === null) return null;
  const variance = fit.cov[2]![2]!;
  const value = fit.beta[2]!;
  const sd = Math.sqrt(variance * misfit(fit));
  if (value + 3 * sd > FOLLOWS) return { value, sd, moved: 1 };
  const n = ones.length;
  // The errors' energy in the same white measure; the line that is taken off besides makes it a little less.
  const errors = traceOfShare(m.rest, covariance(m.p.gas.index, [m.heat], []), n);
  return { value, sd, moved: Math.max(0, 1 - errors * variance) };
}
