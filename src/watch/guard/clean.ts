/**
 * First the spikes: cleans the stream of single readings before anything is estimated from it. A reading is judged
 * when its neighbours are known, so the cleaned stream runs one sample late (two where samples are dense). The
 * ceiling does not wait for it: it acts on the median of three of the raw readings.
 */

import { isSpike, MAD_TO_SD, median3, stepMedian } from '../../estimate/robust.ts';

/** Plain data. The lists hold at most five values. */
export interface CleanState {
  t: number[];
  x: number[];
  /** Typical sample period, s. */
  period: number;
  /** Running median of |second difference| of raw readings, bar. */
  second: number;
  /** Running median of |first difference|, bar: what a slope alone puts between neighbours. */
  first: number;
  /** Last cleaned reading, bar. */
  last: number | null;
  seen: number;
  spikes: number;
}

export interface CleanSample {
  readonly t: number;
  readonly bar: number;
}

/** Smallest noise believed, bar: a quiet sensor must not make the model's own error look like certainty. */
const LEAST_SD = 3e-4;
/** Where samples are denser than this, spikes may be two samples wide. */
const DENSE_S = 0.026;

export function createClean(): CleanState {
  return { t: [], x: [], period: 0, second: 0.004, first: 0.002, last: null, seen: 0, spikes: 0 };
}

/** Forget the neighbours, keep what is known of the sensor. */
export function cleanRestart(s: CleanState): void {
  s.t.length = 0;
  s.x.length = 0;
  s.last = null;
  s.seen = 0;
}

/** Standard deviation of one raw reading, bar. White noise assumed: blocks measure their own scatter again. */
export function sampleSd(s: CleanState, stepBar: number): number {
  return Math.max((s.second * MAD_TO_SD) / Math.sqrt(6), 0.3 * stepBar, LEAST_SD);
}

/** The converter's step where the readings do not dither it, bar; 0 where they do. */
export function coarseStep(s: CleanState, stepBar: number): number {
  return s.second < 0.6 * stepBar ? stepBar : 0;
}

/** Median of the last three raw readings; with two, the lower; null with fewer: one reading may be a spike. */
export function lastMedian(s: CleanState): number | null {
  const n = s.x.length;
  if (n >= 3) return median3(s.x[n - 3]!, s.x[n - 2]!, s.x[n - 1]!);
  return n === 2 ? Math.min(s.x[0]!, s.x[1]!) : null;
}

/** So many spacings in a row, each off by this factor, are another rate and no gaps. */
const NEW_RATE = 3;
const OFF = 2;

/**
 * The typical period with one more spacing, s. It follows slowly, lest a lost line moves it; but a rate that has fallen is
 * taken as it is: with blocks and spike window of the rate before, the alarm of a fill came up to a second late.
 */
function periodWith(s: CleanState, dt: number): number {
  if (s.period === 0) return dt;
  const n = s.t.length;
  if (n >= NEW_RATE) {
    let least = dt;
    let most = dt;
    for (let i = n - NEW_RATE + 1; i < n; i++) {
      const spacing = s.t[i]! - s.t[i - 1]!;
      least = Math.min(least, spacing);
      most = Math.max(most, spacing);
    }
    if (least > OFF * s.period) return least;
    if (most * OFF < s.period) return most;
  }
  const off = Math.max(-0.3, Math.min(0.3, dt / s.period - 1));
  return s.period + off * s.period * (s.seen < 20 ? 0.3 : 0.05);
}

/** Takes a raw reading; gives the cleaned one whose turn it is, or null. */
export function cleanPush(s: CleanState, t: number, bar: number, stepBar: number): CleanSample | null {
  const before = s.t.length;
  if (before > 0) {
    s.period = periodWith(s, t - s.t[before - 1]!);
  }
  s.t.push(t);
  s.x.push(bar);
  s.seen++;
  if (s.x.length > 5) {
    s.t.shift();
    s.x.shift();
  }
  const n = s.x.length;
  if (n < 3) return null;
  const d2 = Math.abs(s.x[n - 1]! - 2 * s.x[n - 2]! + s.x[n - 3]!);
  s.second = Math.max(1e-4, stepMedian(s.second, d2, s.seen < 60 ? 0.12 : 0.02));
  s.first = Math.max(
    1e-5,
    stepMedian(s.first, Math.abs(s.x[n - 1]! - s.x[n - 2]!), s.seen < 60 ? 0.12 : 0.06),
  );
  const tolerance = Math.max(6 * sampleSd(s, stepBar), 4 * stepBar, 0.006) + 2 * s.first;
  if (s.period >= DENSE_S) {
    // Against the cleaned reading before it, lest a spike's neighbour is judged by the spike.
    const value = s.x[n - 2]!;
    const before = s.last ?? s.x[n - 3]!;
    const after = s.x[n - 1]!;
    const spike = isSpike(before, value, after, tolerance);
    if (spike) s.spikes++;
    const near = Math.abs(after - before) < 2 * tolerance;
    s.last = !spike ? value : near ? (before + after) / 2 : median3(before, value, after);
    return { t: s.t[n - 2]!, bar: s.last };
  }
  if (n < 5) return null;
  const value = s.x[2]!;
  const mid = middleOfFive(s.x);
  const spike = Math.abs(value - mid) > tolerance;
  if (spike) s.spikes++;
  return { t: s.t[2]!, bar: spike ? mid : value };
}

/** Median of five without sorting a copy. */
function middleOfFive(x: readonly number[]): number {
  const [a, b, c, d, e] = x as unknown as [number, number, number, number, number];
  const lo = Math.max(Math.min(a, b), Math.min(c, d));
  const hi = Math.min(Math.max(a, b), Math.max(c, d));
  return median3(lo, hi, e);
}
