/**
 * Where will it settle? A bank of candidate supply pressures, each fitted as a straight line in y against warped
 * time (subsonic.ts), compared by chi-square. The scale of chi-square is taken from the best fit itself and widened
 * by the lag-1 correlation of its residuals, so that correlated noise and a model that is slightly wrong both make
 * the bank less sure, never more.
 */

import { ar1Inflation, lag1 } from './ar1.ts';
import {
  arcsine,
  type BlockMeans,
  fittedPressure,
  MOST_HEAT,
  pressureAt,
  type SubsonicFit,
} from './subsonic.ts';

export interface CandidateFit extends SubsonicFit {
  /** Σ (p − model)² / variance. */
  readonly chi2: number;
}

export interface BankResult {
  readonly best: CandidateFit;
  /** Reduced chi-square of the best fit times the AR(1) inflation, at least 1: differences were divided by it. */
  readonly scale: number;
  /** Reduced chi-square of the best fit alone. */
  readonly reduced: number;
  /** Candidates (absolute bar, ascending) and their chi-square above the best, divided by `scale`. */
  readonly p1: readonly number[];
  readonly excess: readonly number[];
}

/** Longest stretch that the bank takes, in blocks. */
export const BANK_MOST = 64;
/** Above this y (u = 0.96) the line has lost its slope: there the residual is taken in pressure. */
const STEEP_Y = 1.287;
/** Rounds of the parabola that look for the best between the candidates. */
const REFINE_ROUNDS = 5;
const HALF_PI = Math.PI / 2;

// Scratch of one evaluation; nothing is kept in it between calls.
const MOST_TAUS = 3;
const y = new Float64Array(BANK_MOST);
const w = new Float64Array(BANK_MOST);
const pOf = new Float64Array(BANK_MOST);
const perVariance = new Float64Array(BANK_MOST);
/** Time, and the part that heat adds to it, about their middles: sums over them lose no digits. */
const x = new Float64Array(BANK_MOST);
const warp = [new Float64Array(BANK_MOST), new Float64Array(BANK_MOST), new Float64Array(BANK_MOST)];
let xMid = 0;
const warpMid = new Float64Array(MOST_TAUS);

/** Fills the scratch with what all candidates share. */
function prepare(blocks: BlockMeans, n: number, taus: readonly number[]): void {
  const t0 = blocks.t[0]!;
  xMid = (blocks.t[n - 1]! - t0) / 2;
  for (let i = 0; i < n; i++) {
    x[i] = blocks.t[i]! - t0 - xMid;
    pOf[i] = blocks.p[i]!;
    perVariance[i] = 1 / blocks.variance[i]!;
  }
  for (let k = 0; k < taus.length; k++) {
    const e = warp[k]!;
    const tau = taus[k]!;
    warpMid[k] = tau * (1 - Math.exp(-xMid / tau));
    for (let i = 0; i < n; i++) e[i] = tau * (1 - Math.exp(-(x[i]! + xMid) / tau)) - warpMid[k]!;
  }
}

/**
 * Best line of one candidate over the fading times; `prepare` has run. One pass makes the sums for every fading time;
 * chi-square follows from them, but for blocks so near the end that y has no slope left.
 */
function fitOne(
  t0: number,
  n: number,
  p1: number,
  b: number,
  taus: readonly number[],
  soft = 0,
  most = MOST_HEAT,
): CandidateFit {
  const scale = p1 * (1 - b);
  const perScale = 1 / scale;
  const m = taus.length;
  let s0 = 0;
  let sx = 0;
  let sxx = 0;
  let sy = 0;
  let sxy = 0;
  let syy = 0;
  let steepFrom = n;
  let yMid = 0;
  for (let i = 0; i < n; i++) {
    const u = (pOf[i]! - p1 * b) * perScale;
    let v: number;
    let weight = scale * scale * perVariance[i]!;
    if (u > 0) {
      v = u >= 1 ? HALF_PI : arcsine(u);
      // Past the steep part a block pulls weakly, and not at all once it is at p1.
      weight = u >= 0.9995 ? 0 : (1 - u * u) * weight;
    } else v = u;
    if (soft > 0) {
      // A vessel that gives way by a share `soft` of its volume a bar fills as (1 + soft·(2p − 1)) times as large.
      const integral = v > 0 ? -Math.cos(v) : 0.5 * v * v - 1;
      v += soft * (2 * p1 * (b * v + (1 - b) * integral) - v);
      const larger = 1 + soft * (2 * pOf[i]! - 1);
      weight /= larger * larger;
    }
    if (i === 0) yMid = v;
    const steep = soft === 0 && v >= STEEP_Y;
    if (steep && i < steepFrom) steepFrom = i;
    const at = x[i]!;
    const dy = v - yMid;
    const wx = weight * at;
    y[i] = dy;
    w[i] = weight;
    s0 += weight;
    sx += wx;
    sxx += wx * at;
    sy += weight * dy;
    sxy += wx * dy;
    if (!steep) syy += weight * dy * dy;
  }
  if (!(s0 > 0)) {
    let chi2 = 0;
    for (let i = 0; i < n; i++) chi2 += (pOf[i]! - p1) ** 2 * perVariance[i]!;
    return { p1, b, y0: HALF_PI, rate: 0, t0, h: 0, tauS: 1, chi2 };
  }
  const xx = sxx - (sx * sx) / s0;
  const xy = sxy - (sx * sy) / s0;
  let bestChi2 = Number.POSITIVE_INFINITY;
  let bestK = 0;
  let bestH = 0;
  let bestRate = 0;
  let bestAt = 0;
  for (let k = 0; k < m; k++) {
    const e = warp[k]!;
    let se = 0;
    let sxe = 0;
    let see = 0;
    let sey = 0;
    for (let i = 0; i < n; i++) {
      const we = w[i]! * e[i]!;
      se += we;
      sxe += we * x[i]!;
      see += we * e[i]!;
      sey += we * y[i]!;
    }
    const xe = sxe - (sx * se) / s0;
    const ee = see - (se * se) / s0;
    const ey = sey - (se * sy) / s0;
    const det = xx * ee - xe * xe;
    let h = 0;
    if (det > 1e-9 * xx * ee) {
      const rate = (xy * ee - ey * xe) / det;
      const extra = (ey * xx - xy * xe) / det;
      h = rate > 0 ? extra / rate : extra > 0 ? most : 0;
    }
    h = Math.max(0, Math.min(most, h));
    // Without heat the fading times are one and the same.
    if (h === 0 && bestH === 0 && k > 0) continue;
    const zz = xx + 2 * h * xe + h * h * ee;
    const zy = xy + h * ey;
    const rate = zz > 0 ? Math.max(0, zy / zz) : 0;
    /** The line at the middle of x and e, about yMid. */
    const at = (sy - rate * (sx + h * se)) / s0;
    const chi2 =
      steepFrom === n
        ? syy - (sy * sy) / s0 - 2 * rate * zy + rate * rate * zz
        : slowChi2(n, steepFrom, k, h, rate, at, yMid, p1, b);
    if (chi2 < bestChi2) {
      bestChi2 = chi2;
      bestK = k;
      bestH = h;
      bestRate = rate;
      bestAt = at;
    }
  }
  const y0 = bestAt + yMid - bestRate * (xMid + bestH * warpMid[bestK]!);
  return { p1, b, y0, rate: bestRate, t0, h: bestH, tauS: taus[bestK]!, chi2: Math.max(0, bestChi2) };
}

/** Chi-square block by block: in y (here about yMid) where it has a slope, in pressure near the end. */
function slowChi2(
  n: number,
  steepFrom: number,
  k: number,
  h: number,
  rate: number,
  mid: number,
  yMid: number,
  p1: number,
  b: number,
): number {
  const e = warp[k]!;
  let chi2 = 0;
  for (let i = 0; i < steepFrom; i++) {
    const r = y[i]! - mid - rate * (x[i]! + h * e[i]!);
    chi2 += w[i]! * r * r;
  }
  for (let i = steepFrom; i < n; i++) {
    const at = mid + rate * (x[i]! + h * e[i]!);
    if (y[i]! + yMid < STEEP_Y) {
      const r = y[i]! - at;
      chi2 += w[i]! * r * r;
    } else {
      const r = pOf[i]! - pressureAt(at + yMid, p1, b);
      chi2 += r * r * perVariance[i]!;
    }
  }
  return chi2;
}

/** Chi-square over the best, in its own scale, from which on a finer candidate between two such is not asked. */
const HOPELESS = 60;

/**
 * Judges the candidates (ascending, absolute bar) on the blocks, at most BANK_MOST of them. Those that the blocks have
 * clearly passed are still judged, and fail. The best is refined between its neighbours by a parabola.
 * @param taus up to three fading times of the heat, s
 * @param finer more candidates, judged only beside one of the others that is not hopeless
 */
export function judgeBank(
  blocks: BlockMeans,
  candidates: readonly number[],
  b: number,
  taus: readonly number[],
  finer: readonly number[] = [],
): BankResult | null {
  const n = blocks.t.length;
  if (n < 4 || n > BANK_MOST || candidates.length < 3 || taus.length < 1 || taus.length > MOST_TAUS)
    return null;
  prepare(blocks, n, taus);
  const t0 = blocks.t[0]!;
  let fits: CandidateFit[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (const p1 of candidates) {
    const fit = fitOne(t0, n, p1, b, taus);
    fits.push(fit);
    least = Math.min(least, fit.chi2);
  }
  if (finer.length > 0) {
    const hopeless = least + HOPELESS * Math.max(1, least / Math.max(1, n - 4));
    const all: CandidateFit[] = [];
    let k = 0;
    for (const p1 of finer) {
      while (k < fits.length && fits[k]!.p1 <= p1) all.push(fits[k++]!);
      const under = k > 0 && fits[k - 1]!.chi2 < hopeless;
      const over = k < fits.length && fits[k]!.chi2 < hopeless;
      if (under || over) all.push(fitOne(t0, n, p1, b, taus));
    }
    while (k < fits.length) all.push(fits[k++]!);
    fits = all;
  }
  let bestK = 0;
  for (let k = 1; k < fits.length; k++) if (fits[k]!.chi2 < fits[bestK]!.chi2) bestK = k;
  for (let round = 0; round < REFINE_ROUNDS; round++) {
    if (bestK === 0 || bestK === fits.length - 1) break;
    const at = vertex(fits[bestK - 1]!, fits[bestK]!, fits[bestK + 1]!);
    if (at === null) break;
    const fit = fitOne(t0, n, at, b, taus);
    const where = at < fits[bestK]!.p1 ? bestK : bestK + 1;
    const gain = fits[bestK]!.chi2 - fit.chi2;
    const better = gain > 0;
    fits.splice(where, 0, fit);
    bestK = better ? where : where <= bestK ? bestK + 1 : bestK;
    // Near enough: less than a tenth of a standard deviation is left to gain.
    if (better && gain < 0.01) break;
  }
  const best = fits[bestK]!;
  const reduced = best.chi2 / Math.max(1, n - 4);
  const scale = Math.max(1, reduced) * ar1Inflation(lag1(residuals(blocks, best)));
  return {
    best,
    scale,
    reduced,
    p1: fits.map((f) => f.p1),
    excess: fits.map((f) => (f.chi2 - best.chi2) / scale),
  };
}

/**
 * Excess of one more candidate, where the vessel may give way under pressure by `soft` (share of its volume a bar).
 * For the question whether a supply that stays open could look like the best fit.
 */
export function excessSoft(
  r: BankResult,
  blocks: BlockMeans,
  p1: number,
  taus: readonly number[],
  soft: number,
  most: number,
): number {
  const n = blocks.t.length;
  if (n > BANK_MOST) return 0;
  prepare(blocks, n, taus);
  return (fitOne(blocks.t[0]!, n, p1, r.best.b, taus, soft, most).chi2 - r.best.chi2) / r.scale;
}

/** Least excess of all candidates up to p1 (between neighbours as a parabola's arm); Infinity when none lies so low. */
export function excessUpTo(r: BankResult, p1: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < r.p1.length; k++) {
    if (r.p1[k]! > p1) {
      if (k > 0) least = Math.min(least, between(r, k, p1));
      break;
    }
    least = Math.min(least, r.excess[k]!);
  }
  return least;
}

/** Least excess of all candidates from p1 on; Infinity when none lies so high. */
export function excessFrom(r: BankResult, p1: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = r.p1.length - 1; k >= 0; k--) {
    if (r.p1[k]! < p1) {
      if (k + 1 < r.p1.length) least = Math.min(least, between(r, k + 1, p1));
      break;
    }
    least = Math.min(least, r.excess[k]!);
  }
  return least;
}

/** Profile interval: all p1 whose excess is at most z². An end that the candidates do not bracket is their own end. */
export function bankInterval(r: BankResult, z: number): { readonly low: number; readonly high: number } {
  const limit = z * z;
  const at = Math.max(0, r.excess.indexOf(0));
  let low = r.p1[0]!;
  for (let k = at; k > 0; k--) {
    if (r.excess[k - 1]! > limit) {
      low = crossing(r, k, k - 1, z);
      break;
    }
  }
  let high = r.p1[r.p1.length - 1]!;
  for (let k = at; k + 1 < r.p1.length; k++) {
    if (r.excess[k + 1]! > limit) {
      high = crossing(r, k, k + 1, z);
      break;
    }
  }
  return { low, high };
}

/** Where the root of the excess passes z between a candidate inside and its neighbour outside. */
function crossing(r: BankResult, inside: number, outside: number, z: number): number {
  const a = Math.sqrt(Math.max(0, r.excess[inside]!));
  const c = Math.sqrt(r.excess[outside]!);
  const share = c > a ? (z - a) / (c - a) : 0;
  return r.p1[inside]! + share * (r.p1[outside]! - r.p1[inside]!);
}

function between(r: BankResult, k: number, p1: number): number {
  const share = (p1 - r.p1[k - 1]!) / (r.p1[k]! - r.p1[k - 1]!);
  const a = Math.sqrt(Math.max(0, r.excess[k - 1]!));
  const c = Math.sqrt(Math.max(0, r.excess[k]!));
  return (a + share * (c - a)) ** 2;
}

/** Lowest point of the parabola through three fits, kept off its neighbours; null where it has none. */
function vertex(a: CandidateFit, m: CandidateFit, c: CandidateFit): number | null {
  const x1 = a.p1 - m.p1;
  const x2 = c.p1 - m.p1;
  const y1 = a.chi2 - m.chi2;
  const y2 = c.chi2 - m.chi2;
  const det = x1 * x2 * (x1 - x2);
  const quad = (y1 * x2 - y2 * x1) / det;
  const lin = (x1 * x1 * y2 - x2 * x2 * y1) / det;
  if (!(quad > 0)) return null;
  const at = Math.max(0.8 * x1, Math.min(0.8 * x2, -lin / (2 * quad)));
  return Math.abs(at) < 1e-6 ? null : m.p1 + at;
}

function residuals(blocks: BlockMeans, fit: SubsonicFit): number[] {
  const out: number[] = [];
  for (let i = 0; i < blocks.t.length; i++)
    out.push((blocks.p[i]! - fittedPressure(fit, blocks.t[i]!)) / Math.sqrt(blocks.variance[i]!));
  return out;
}
