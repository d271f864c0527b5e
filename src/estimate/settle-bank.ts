/**
 * Where will it settle? A bank of candidate supply pressures, each fitted as a straight line in y against warped
 * time (subsonic.ts), compared by chi-square. The scale of chi-square is taken from the best fit itself and widened
 * by the lag-1 correlation of its residuals, so that correlated noise and a model that is slightly wrong both make
 * the bank less sure, never more.
 */

import { ar1Inflation, lag1 } from './ar1.ts';
import { BANK_MOST, columns, fitOne, MOST_FITS, MOST_TAUS, prepare, residuals } from './candidate-line.ts';
import type { BlockMeans, SubsonicFit } from './subsonic.ts';

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

/** Rounds of the parabola that look for the best between the candidates. */
const REFINE_ROUNDS = 5;

/** Chi-square over the best, in its own scale, from which on a finer candidate between two such is not asked. */
const HOPELESS = 60;

/** Columns of one evaluation in order of p1. */
const order: number[] = [];

/** Fits the candidates and the finer ones beside those that are not hopeless; `order` lists the columns by p1. */
function fitAll(
  n: number,
  candidates: readonly number[],
  b: number,
  taus: readonly number[],
  finer: readonly number[],
): void {
  const always = candidates.length;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < always; k++) least = Math.min(least, fitOne(k, n, candidates[k]!, b, taus));
  const hopeless = least + HOPELESS * Math.max(1, least / Math.max(1, n - 4));
  order.length = 0;
  let next = always;
  let k = 0;
  for (const p1 of finer) {
    while (k < always && candidates[k]! <= p1) order.push(k++);
    const under = k > 0 && columns.chi2[k - 1]! < hopeless;
    const over = k < always && columns.chi2[k]! < hopeless;
    if (!under && !over) continue;
    fitOne(next, n, p1, b, taus);
    order.push(next++);
  }
  while (k < always) order.push(k++);
}

/** Looks for the best between its neighbours by a parabola, again and again; gives its place in `order`. */
function refine(n: number, b: number, taus: readonly number[]): number {
  let best = 0;
  for (let k = 1; k < order.length; k++) if (columns.chi2[order[k]!]! < columns.chi2[order[best]!]!) best = k;
  for (let round = 0; round < REFINE_ROUNDS; round++) {
    if (best === 0 || best === order.length - 1) break;
    const at = vertex(order[best - 1]!, order[best]!, order[best + 1]!);
    if (at === null) break;
    const column = order.length;
    const gain = columns.chi2[order[best]!]! - fitOne(column, n, at, b, taus);
    const where = at < columns.p1[order[best]!]! ? best : best + 1;
    const better = gain > 0;
    order.splice(where, 0, column);
    best = better ? where : where <= best ? best + 1 : best;
    // Near enough: less than a tenth of a standard deviation is left to gain.
    if (better && gain < 0.01) break;
  }
  return order[best]!;
}

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
  if (candidates.length + finer.length + REFINE_ROUNDS > MOST_FITS)
    throw new RangeError('judgeBank: too many candidates');
  prepare(blocks, n, taus);
  fitAll(n, candidates, b, taus, finer);
  const column = refine(n, b, taus);
  const chi2 = columns.chi2[column]!;
  const best: CandidateFit = {
    p1: columns.p1[column]!,
    b,
    y0: columns.y0[column]!,
    rate: columns.rate[column]!,
    t0: blocks.t[0]!,
    h: columns.h[column]!,
    tauS: columns.tau[column]!,
    chi2,
  };
  const reduced = chi2 / Math.max(1, n - 4);
  const scale = Math.max(1, reduced) * ar1Inflation(lag1(residuals(n, best, taus)));
  return {
    best,
    scale,
    reduced,
    p1: order.map((c) => columns.p1[c]!),
    excess: order.map((c) => (columns.chi2[c]! - chi2) / scale),
  };
}

/**
 * Excess of one more candidate, where the vessel may give way under pressure by `soft` (share of its volume a bar).
 * For the question whether a supply that stays open could look like the best columns.
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
  return (fitOne(0, n, p1, r.best.b, taus, soft, most) - r.best.chi2) / r.scale;
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

/** Lowest point of the parabola through three columns, kept off its neighbours; null where it has none. */
function vertex(a: number, m: number, c: number): number | null {
  const x1 = columns.p1[a]! - columns.p1[m]!;
  const x2 = columns.p1[c]! - columns.p1[m]!;
  const y1 = columns.chi2[a]! - columns.chi2[m]!;
  const y2 = columns.chi2[c]! - columns.chi2[m]!;
  const det = x1 * x2 * (x1 - x2);
  const quad = (y1 * x2 - y2 * x1) / det;
  const lin = (x1 * x1 * y2 - x2 * x2 * y1) / det;
  if (!(quad > 0)) return null;
  const at = Math.max(0.8 * x1, Math.min(0.8 * x2, -lin / (2 * quad)));
  return Math.abs(at) < 1e-6 ? null : columns.p1[m]! + at;
}
