/**
 * Where will it settle? A bank of candidate supply pressures, each fitted as a straight line in y against warped
 * time (subsonic.ts), compared by chi-square. The scale of chi-square is taken from the best fit itself and widened
 * by the lag-1 correlation of its residuals, so that correlated noise and a model that is slightly wrong both make
 * the bank less sure, never more.
 */

import { ar1Inflation, lag1 } from './ar1.ts';
import { type BlockMeans, fittedPressure, MOST_HEAT, type SubsonicFit } from './subsonic.ts';

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
/** Above this u the line has lost its slope: there the residual is taken in pressure, not in y. */
const STEEP_U = 0.96;
/** Rounds of the parabola that look for the best between the candidates. */
const REFINE_ROUNDS = 5;
const HALF_PI = Math.PI / 2;

// Scratch of one evaluation; nothing is kept in it between calls.
const y = new Float64Array(BANK_MOST);
const w = new Float64Array(BANK_MOST);
const x = new Float64Array(BANK_MOST);
const warp = [new Float64Array(BANK_MOST), new Float64Array(BANK_MOST), new Float64Array(BANK_MOST)];

/**
 * Best line of one candidate over the given fading times. @param n blocks; x and warp are filled.
 */
function fitOne(
  blocks: BlockMeans,
  n: number,
  p1: number,
  b: number,
  taus: readonly number[],
  soft = 0,
  most = MOST_HEAT,
): CandidateFit {
  const { p, variance, t } = blocks;
  const scale = p1 * (1 - b);
  let s0 = 0;
  let sx = 0;
  let sy = 0;
  for (let i = 0; i < n; i++) {
    const u = (p[i]! / p1 - b) / (1 - b);
    if (u >= STEEP_U) {
      // Past the steep part a block pulls weakly, and not at all once it is at p1.
      y[i] = u >= 1 ? HALF_PI : Math.asin(u);
      w[i] = u >= 0.9995 ? 0 : ((1 - u * u) * scale * scale) / variance[i]!;
    } else if (u > 0) {
      y[i] = Math.asin(u);
      w[i] = ((1 - u * u) * scale * scale) / variance[i]!;
    } else {
      y[i] = u;
      w[i] = (scale * scale) / variance[i]!;
    }
    // A vessel that gives way by a share `soft` of its volume a bar fills as (1 + soft·(2p − 1)) times as large.
    if (soft > 0) {
      const v = y[i]!;
      const integral = v > 0 ? -Math.cos(v) : 0.5 * v * v - 1;
      y[i] = v + soft * (2 * p1 * (b * v + (1 - b) * integral) - v);
      w[i] = w[i]! / (1 + soft * (2 * p[i]! - 1)) ** 2;
    }
    s0 += w[i]!;
    sx += w[i]! * x[i]!;
    sy += w[i]! * y[i]!;
  }
  const t0 = t[0]!;
  let out: CandidateFit = { p1, b, y0: HALF_PI, rate: 0, t0, h: 0, tauS: 1, chi2: Number.POSITIVE_INFINITY };
  if (!(s0 > 0)) {
    let chi2 = 0;
    for (let i = 0; i < n; i++) chi2 += (p[i]! - p1) ** 2 / variance[i]!;
    return { ...out, chi2 };
  }
  const mx = sx / s0;
  const my = sy / s0;
  let xx = 0;
  let xy = 0;
  for (let i = 0; i < n; i++) {
    const dx = x[i]! - mx;
    xx += w[i]! * dx * dx;
    xy += w[i]! * dx * (y[i]! - my);
  }
  for (let k = 0; k < taus.length; k++) {
    const e = warp[k]!;
    let se = 0;
    for (let i = 0; i < n; i++) se += w[i]! * e[i]!;
    const me = se / s0;
    let xe = 0;
    let ee = 0;
    let ey = 0;
    for (let i = 0; i < n; i++) {
      const we = w[i]! * (e[i]! - me);
      xe += we * (x[i]! - mx);
      ee += we * (e[i]! - me);
      ey += we * (y[i]! - my);
    }
    const det = xx * ee - xe * xe;
    let h = 0;
    if (det > 1e-9 * xx * ee) {
      const rate = (xy * ee - ey * xe) / det;
      const extra = (ey * xx - xy * xe) / det;
      h = rate > 0 ? extra / rate : extra > 0 ? most : 0;
    }
    h = Math.max(0, Math.min(most, h));
    const zz = xx + 2 * h * xe + h * h * ee;
    const rate = zz > 0 ? Math.max(0, (xy + h * ey) / zz) : 0;
    const y0 = my - rate * (mx + h * me);
    let chi2 = 0;
    for (let i = 0; i < n; i++) {
      const at = y0 + rate * (x[i]! + h * e[i]!);
      if (y[i]! < 1.287) {
        const r = y[i]! - at;
        chi2 += w[i]! * r * r;
      } else {
        const u = at <= 0 ? at : at >= HALF_PI ? 1 : Math.sin(at);
        const r = p[i]! - (p1 * b + scale * u);
        chi2 += (r * r) / variance[i]!;
      }
    }
    if (chi2 < out.chi2) out = { p1, b, y0, rate, t0, h, tauS: taus[k]!, chi2 };
  }
  return out;
}

function prepare(blocks: BlockMeans, n: number, taus: readonly number[]): void {
  const t0 = blocks.t[0]!;
  for (let i = 0; i < n; i++) x[i] = blocks.t[i]! - t0;
  for (let k = 0; k < taus.length; k++)
    for (let i = 0; i < n; i++) warp[k]![i] = taus[k]! * (1 - Math.exp(-x[i]! / taus[k]!));
}

/**
 * Judges the candidates (ascending, absolute bar) on the blocks, at most BANK_MOST of them. Those that the blocks have
 * clearly passed are still judged, and fail. The best is refined between its neighbours by a parabola.
 * @param taus up to three fading times of the heat, s
 */
export function judgeBank(
  blocks: BlockMeans,
  candidates: readonly number[],
  b: number,
  taus: readonly number[],
): BankResult | null {
  const n = blocks.t.length;
  if (n < 4 || n > BANK_MOST || candidates.length < 3 || taus.length < 1 || taus.length > 3) return null;
  prepare(blocks, n, taus);
  let bestK = 0;
  const fits: CandidateFit[] = [];
  for (let k = 0; k < candidates.length; k++) {
    fits.push(fitOne(blocks, n, candidates[k]!, b, taus));
    if (fits[k]!.chi2 < fits[bestK]!.chi2) bestK = k;
  }
  for (let round = 0; round < REFINE_ROUNDS; round++) {
    if (bestK === 0 || bestK === fits.length - 1) break;
    const at = vertex(fits[bestK - 1]!, fits[bestK]!, fits[bestK + 1]!);
    if (at === null) break;
    const fit = fitOne(blocks, n, at, b, taus);
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
  return (fitOne(blocks, n, p1, r.best.b, taus, soft, most).chi2 - r.best.chi2) / r.scale;
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
