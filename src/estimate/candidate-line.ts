/**
 * The straight line of one candidate supply pressure in y against warped time (subsonic.ts), and its chi-square: the
 * inner loop of the bank (settle-bank.ts), which asks for it some twenty times a question.
 */

import { arcsine, type BlockMeans, MOST_HEAT, pressureAt, type SubsonicFit } from './subsonic.ts';

/** Longest stretch that the bank takes, in blocks. */
export const BANK_MOST = 64;
/** Above this y (u = 0.96) the line has lost its slope: there the residual is taken in pressure. */
const STEEP_Y = 1.287;
const HALF_PI = Math.PI / 2;

// Scratch of one question: filled by `prepare`, worth nothing after the answer.
export const MOST_TAUS = 3;
const y = new Float64Array(BANK_MOST);
const w = new Float64Array(BANK_MOST);
const pOf = new Float64Array(BANK_MOST);
const perVariance = new Float64Array(BANK_MOST);
/** Time since the first block; and, about its middle, that time and the part that heat adds to it: sums lose no digits. */
const since = new Float64Array(BANK_MOST);
const x = new Float64Array(BANK_MOST);
const warp = [new Float64Array(BANK_MOST), new Float64Array(BANK_MOST), new Float64Array(BANK_MOST)] as const;
let xMid = 0;
const warpMid = new Float64Array(MOST_TAUS);

/** The fits of one question, a column each: objects with a dozen numbers a candidate would cost more than the sums. */
export const MOST_FITS = 48;
export const columns = {
  p1: new Float64Array(MOST_FITS),
  y0: new Float64Array(MOST_FITS),
  rate: new Float64Array(MOST_FITS),
  h: new Float64Array(MOST_FITS),
  tau: new Float64Array(MOST_FITS),
  chi2: new Float64Array(MOST_FITS),
};

/** Fills the scratch with what all candidates share. */
export function prepare(blocks: BlockMeans, n: number, taus: readonly number[]): void {
  const t0 = blocks.t[0]!;
  xMid = (blocks.t[n - 1]! - t0) / 2;
  for (let i = 0; i < n; i++) {
    const at = blocks.t[i]! - t0;
    since[i] = at;
    x[i] = at - xMid;
    pOf[i] = blocks.p[i]!;
    perVariance[i] = 1 / blocks.variance[i]!;
  }
  for (let k = 0; k < taus.length; k++) {
    const e = warp[k]!;
    const tau = taus[k]!;
    const mid = tau * (1 - Math.exp(-xMid / tau));
    warpMid[k] = mid;
    for (let i = 0; i < n; i++) e[i] = tau * (1 - Math.exp(-since[i]! / tau)) - mid;
  }
}

/**
 * Best line of one candidate over the fading times, into that column; `prepare` has run. One pass makes the sums for
 * every fading time; chi-square follows from them, but for blocks so near the end that y has no slope left.
 */
export function fitOne(
  column: number,
  n: number,
  p1: number,
  b: number,
  taus: readonly number[],
  soft = 0,
  most = MOST_HEAT,
): number {
  const scale = p1 * (1 - b);
  const perScale = 1 / scale;
  const m = taus.length;
  let s0 = 0;
  let sx = 0;
  let sxx = 0;
  let sy = 0;
  let sxy = 0;
  let syy = 0;
  // Two fading times run along in the same pass, whether or not both are asked for; a third is asked for seldom.
  const e0 = warp[0];
  const e1 = warp[1];
  let se0 = 0;
  let sxe0 = 0;
  let see0 = 0;
  let sey0 = 0;
  let se1 = 0;
  let sxe1 = 0;
  let see1 = 0;
  let sey1 = 0;
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
    const ea = e0[i]!;
    const wea = weight * ea;
    se0 += wea;
    sxe0 += wea * at;
    see0 += wea * ea;
    sey0 += wea * dy;
    const eb = e1[i]!;
    const web = weight * eb;
    se1 += web;
    sxe1 += web * at;
    see1 += web * eb;
    sey1 += web * dy;
  }
  columns.p1[column] = p1;
  if (!(s0 > 0)) {
    let chi2 = 0;
    for (let i = 0; i < n; i++) chi2 += (pOf[i]! - p1) ** 2 * perVariance[i]!;
    columns.y0[column] = HALF_PI;
    columns.rate[column] = 0;
    columns.h[column] = 0;
    columns.tau[column] = 1;
    columns.chi2[column] = chi2;
    return chi2;
  }
  const xx = sxx - (sx * sx) / s0;
  const xy = sxy - (sx * sy) / s0;
  let bestChi2 = Number.POSITIVE_INFINITY;
  let bestK = 0;
  let bestH = 0;
  let bestRate = 0;
  let bestAt = 0;
  for (let k = 0; k < m; k++) {
    let se = k === 0 ? se0 : se1;
    let sxe = k === 0 ? sxe0 : sxe1;
    let see = k === 0 ? see0 : see1;
    let sey = k === 0 ? sey0 : sey1;
    if (k === 2) {
      const e = warp[2];
      se = sxe = see = sey = 0;
      for (let i = 0; i < n; i++) {
        const ei = e[i]!;
        const we = w[i]! * ei;
        se += we;
        sxe += we * x[i]!;
        see += we * ei;
        sey += we * y[i]!;
      }
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
  columns.y0[column] = bestAt + yMid - bestRate * (xMid + bestH * warpMid[bestK]!);
  columns.rate[column] = bestRate;
  columns.h[column] = bestH;
  columns.tau[column] = taus[bestK]!;
  bestChi2 = Math.max(0, bestChi2);
  columns.chi2[column] = bestChi2;
  return bestChi2;
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

/** Residuals of the best in standard deviations, from what `prepare` has filled in. */
export function residuals(n: number, best: SubsonicFit, taus: readonly number[]): number[] {
  const { p1, b, y0, rate, h, tauS } = best;
  const k = Math.max(0, taus.indexOf(tauS));
  const e = warp[k]!;
  const mid = warpMid[k]!;
  const out: number[] = [];
  for (let i = 0; i < n; i++) {
    const at = y0 + rate * (since[i]! + h * (e[i]! + mid));
    out.push((pOf[i]! - pressureAt(at, p1, b)) * Math.sqrt(perVariance[i]!));
  }
  return out;
}
