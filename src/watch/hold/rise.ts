import { ar1Inflation, lag1 } from '../../estimate/ar1.ts';
import { Z_95 } from '../../estimate/normal.ts';
import type { Bounded } from '../events.ts';

/**
 * A rise by warmth is no straight line: an exotherm speeds up, passes its turn and slows down. So level, rate and change
 * of rate at the end of the course are estimated together, over the shortest of a few windows that tells the rate well
 * enough. The change of rate has a prior (a few tenths of a mbar/min each minute is what cures do), so that a coarse
 * sensor's wander makes no forecast of its own.
 */
export interface Rise {
  readonly levelBar: number;
  /** bar/s at the end of the course with its 95 % interval. */
  readonly rate: Bounded;
  /** Change of the rate, bar/s², and its standard uncertainty. */
  readonly gain: number;
  readonly sdGain: number;
}

/** Windows in blocks of ten seconds: three to ten minutes. */
const WINDOWS = [18, 24, 36, 48, 60] as const;
const LEAST = 12;
/** Prior of the change of the rate, bar/s² (0.5 mbar/min each minute; common practice, no source). */
const SD_GAIN = 0.5e-3 / 3600;
/** A rate known to this share of itself, or to this much (bar/s), is known well enough. */
const WELL = 0.12;
const WELL_RATE = 0.15e-3 / 60;
/** Means are never better than this, bar. */
const LEAST_BAR = 3e-5;

interface Fit {
  readonly level: number;
  readonly rate: number;
  readonly gain: number;
  readonly sdRate: number;
  readonly sdGain: number;
}

/** p = level + rate·x + gain·x²/2 with x = 0 at the end; least squares with a prior on the gain. */
function fitRise(t: readonly number[], p: readonly number[], from: number): Fit {
  const n = t.length;
  const end = t[n - 1]!;
  const sd = scatter(p, from);
  let fit = solve(t, p, from, end, sd);
  const residuals: number[] = [];
  for (let i = from; i < n; i++) {
    const x = t[i]! - end;
    residuals.push(p[i]! - fit.level - fit.rate * x - (fit.gain * x * x) / 2);
  }
  const rms = Math.sqrt(residuals.reduce((s, r) => s + r * r, 0) / Math.max(1, residuals.length - 3));
  const wide = Math.max(sd, rms) * Math.sqrt(ar1Inflation(lag1(residuals)));
  if (wide > sd) fit = solve(t, p, from, end, wide);
  return fit;
}

/** Scatter of the means from their second differences. */
function scatter(p: readonly number[], from: number): number {
  let sum = 0;
  for (let i = from + 2; i < p.length; i++) sum += (p[i]! - 2 * p[i - 1]! + p[i - 2]!) ** 2;
  return Math.max(LEAST_BAR, Math.sqrt(sum / (6 * Math.max(1, p.length - from - 2))));
}

function solve(t: readonly number[], p: readonly number[], from: number, end: number, sd: number): Fit {
  // Scaled to minutes and millibars, so that the matrix is well made.
  const n = t.length - from;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let s4 = 0;
  let y0 = 0;
  let y1 = 0;
  let y2 = 0;
  const base = p[t.length - 1]!;
  for (let i = from; i < t.length; i++) {
    const x = (t[i]! - end) / 60;
    const h = (x * x) / 2;
    const y = (p[i]! - base) * 1e3;
    s1 += x;
    s2 += x * x;
    s3 += x * h;
    s4 += h * h;
    y0 += y;
    y1 += x * y;
    y2 += h * y;
  }
  const prior = (sd / (SD_GAIN * 3600)) ** 2;
  const h1 = s2 / 2;
  const a = [
    [n, s1, h1],
    [s1, s2, s3],
    [h1, s3, s4 + prior],
  ] as const;
  const inv = invert3(a);
  const at = (k: number) => inv[k]![0]! * y0 + inv[k]![1]! * y1 + inv[k]![2]! * y2;
  const mbar = sd * 1e3;
  return {
    level: base + at(0) / 1e3,
    rate: at(1) / 60e3,
    gain: at(2) / 3600e3,
    sdRate: (mbar * Math.sqrt(inv[1]![1]!)) / 60e3,
    sdGain: (mbar * Math.sqrt(inv[2]![2]!)) / 3600e3,
  };
}

type Matrix3 = readonly (readonly [number, number, number])[];

function invert3(m: Matrix3): number[][] {
  const [a, b, c] = m[0]!;
  const [d, e, f] = m[1]!;
  const [g, h, i] = m[2]!;
  const A = e * i - f * h;
  const B = f * g - d * i;
  const C = d * h - e * g;
  const det = a * A + b * B + c * C;
  return [
    [A / det, (c * h - b * i) / det, (b * f - c * e) / det],
    [B / det, (a * i - c * g) / det, (c * d - a * f) / det],
    [C / det, (b * g - a * h) / det, (a * e - b * d) / det],
  ];
}

/** The rise at the end of the course; null with too short a course. */
export function riseOf(t: readonly number[], p: readonly number[]): Rise | null {
  if (t.length < LEAST) return null;
  let best: Fit | null = null;
  for (const window of WINDOWS) {
    const from = Math.max(0, t.length - window);
    best = fitRise(t, p, from);
    if (from === 0 || best.sdRate <= Math.max(WELL * Math.abs(best.rate), WELL_RATE)) break;
  }
  if (best === null) return null;
  const half = Z_95 * best.sdRate;
  return {
    levelBar: best.level,
    rate: { value: best.rate, low: best.rate - half, high: best.rate + half },
    gain: best.gain,
    sdGain: best.sdGain,
  };
}

/**
 * Time to rise by `way` at that rate and gain, s; infinite where the rise ends before. What slows down fades
 * exponentially, which carries twice as far as the parabola of the same rate and gain.
 */
export function timeToRise(way: number, rate: number, gain: number): number {
  if (!(rate > 0)) return Number.POSITIVE_INFINITY;
  if (gain > 0) return (Math.sqrt(rate * rate + 2 * gain * way) - rate) / gain;
  if (gain === 0) return way / rate;
  const fade = rate / -gain;
  const share = way / (rate * fade);
  return share < 1 ? -fade * Math.log(1 - share) : Number.POSITIVE_INFINITY;
}
