/**
 * Where will it settle? A bank of candidate supply pressures, each fitted as a straight line in y (subsonic.ts),
 * compared by chi-square. The scale of chi-square is taken from the best fit itself and widened by the lag-1
 * correlation of its residuals, so that correlated noise and a model that is slightly wrong both make the bank less
 * sure, never more.
 */

import { ar1Inflation, lag1 } from './ar1.ts';
import { type BlockMeans, type CandidateFit, fitCandidate, fittedPressure } from './subsonic.ts';

export interface BankResult {
  readonly best: CandidateFit;
  /** Reduced chi-square of the best fit times the AR(1) inflation, at least 1: divide differences by it. */
  readonly scale: number;
  /** Reduced chi-square of the best fit alone. */
  readonly reduced: number;
  /** Candidates (absolute bar, ascending) and their chi-square above the best, already divided by `scale`. */
  readonly p1: readonly number[];
  readonly excess: readonly number[];
}

/**
 * Judges the candidates on blocks [from, to). `candidates` ascend, absolute bar; those that the blocks have
 * clearly passed are still judged, and fail. The best is refined between its neighbours by a parabola.
 */
export function judgeBank(
  blocks: BlockMeans,
  from: number,
  to: number,
  candidates: readonly number[],
  b: number,
): BankResult | null {
  const n = to - from;
  if (n < 4 || candidates.length < 3) return null;
  let bestK = 0;
  const fits: CandidateFit[] = [];
  for (let k = 0; k < candidates.length; k++) {
    fits.push(fitCandidate(blocks, from, to, candidates[k]!, b));
    if (fits[k]!.chi2 < fits[bestK]!.chi2) bestK = k;
  }
  let best = fits[bestK]!;
  for (let round = 0; round < 2; round++) {
    const lo = Math.max(0, bestK - 1);
    const hi = Math.min(fits.length - 1, bestK + 1);
    if (lo === bestK || hi === bestK) break;
    const at = vertex(fits[lo]!, fits[bestK]!, fits[hi]!);
    if (at === null) break;
    const fit = fitCandidate(blocks, from, to, at, b);
    const where = at < fits[bestK]!.p1 ? bestK : bestK + 1;
    fits.splice(where, 0, fit);
    bestK = fit.chi2 < best.chi2 ? where : where <= bestK ? bestK + 1 : bestK;
    best = fits[bestK]!;
  }
  const reduced = best.chi2 / Math.max(1, n - 3);
  const scale = Math.max(1, reduced) * ar1Inflation(lag1(residuals(blocks, from, to, best, b)));
  return {
    best,
    scale,
    reduced,
    p1: fits.map((f) => f.p1),
    excess: fits.map((f) => (f.chi2 - best.chi2) / scale),
  };
}

/** Least excess of all candidates up to p1 (linear between neighbours); Infinity when none lies so low. */
export function excessUpTo(r: BankResult, p1: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < r.p1.length; k++) {
    if (r.p1[k]! <= p1) {
      least = Math.min(least, r.excess[k]!);
      continue;
    }
    if (k > 0) least = Math.min(least, between(r, k, p1));
    break;
  }
  return least;
}

/** Least excess of all candidates from p1 on; Infinity when none lies so high. */
export function excessFrom(r: BankResult, p1: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = r.p1.length - 1; k >= 0; k--) {
    if (r.p1[k]! >= p1) {
      least = Math.min(least, r.excess[k]!);
      continue;
    }
    if (k + 1 < r.p1.length) least = Math.min(least, between(r, k + 1, p1));
    break;
  }
  return least;
}

/**
 * Profile interval: all p1 whose excess is at most z². An end that the candidates do not bracket is their own end.
 */
export function bankInterval(r: BankResult, z: number): { readonly low: number; readonly high: number } {
  const limit = z * z;
  let at = r.excess.indexOf(0);
  if (at < 0) at = 0;
  let low = r.p1[0]!;
  for (let k = at; k > 0; k--) {
    if (r.excess[k - 1]! > limit) {
      low = crossing(r, k, k - 1, limit);
      break;
    }
  }
  let high = r.p1[r.p1.length - 1]!;
  for (let k = at; k + 1 < r.p1.length; k++) {
    if (r.excess[k + 1]! > limit) {
      high = crossing(r, k, k + 1, limit);
      break;
    }
  }
  return { low, high };
}

/** Where the excess passes the limit between a candidate inside and its neighbour outside, as a parabola's arm. */
function crossing(r: BankResult, inside: number, outside: number, limit: number): number {
  const a = Math.sqrt(Math.max(0, r.excess[inside]!));
  const c = Math.sqrt(r.excess[outside]!);
  const share = c > a ? (Math.sqrt(limit) - a) / (c - a) : 0;
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
  const x = -lin / (2 * quad);
  const clipped = Math.max(0.8 * x1, Math.min(0.8 * x2, x));
  return Math.abs(clipped) < 1e-6 ? null : m.p1 + clipped;
}

function residuals(blocks: BlockMeans, from: number, to: number, fit: CandidateFit, b: number): number[] {
  const out: number[] = [];
  for (let i = from; i < to; i++)
    out.push((blocks.p[i]! - fittedPressure(fit, b, blocks.t[i]!)) / Math.sqrt(blocks.variance[i]!));
  return out;
}
