/**
 * The course of the pressure behind a closed end: means over half a second, of which lock-up and creep are read. The heat of
 * filling in a hose fades within seconds, so a slope that lasts longer is the regulator's (science: proof of the supply).
 */
import { ar1Inflation, lag1 } from '../../estimate/ar1.ts';
import { studentOf } from '../../estimate/covariance.ts';
import { fitLine, type LineFit } from '../../estimate/line.ts';
import { Z_95 } from '../../estimate/normal.ts';
import type { Bounded } from '../events.ts';

export interface Course {
  /** Middle of each mean, s, and its level, bar, oldest first. */
  t: number[];
  p: number[];
  sum: number;
  n: number;
  fromS: number;
}

const MEAN_S = 0.5;
/** Two minutes. */
const MOST_MEANS = 240;

export const createCourse = (): Course => ({ t: [], p: [], sum: 0, n: 0, fromS: 0 });

/** Takes a reading; true where it completed a mean. */
export function courseAdd(c: Course, tS: number, bar: number): boolean {
  const full = c.n > 0 && tS - c.fromS >= MEAN_S - 1e-9;
  if (full) {
    if (c.t.length === MOST_MEANS) {
      c.t.shift();
      c.p.shift();
    }
    c.t.push((c.fromS + tS) / 2);
    c.p.push(c.sum / c.n);
    c.n = 0;
    c.sum = 0;
  }
  if (c.n === 0) c.fromS = tS;
  c.sum += bar;
  c.n++;
  return full;
}

/** Only the means from a time on stay. */
export function courseFrom(c: Course, fromS: number): void {
  const at = c.t.findIndex((t) => t >= fromS - 1e-9);
  const go = at < 0 ? c.t.length : at;
  c.t.splice(0, go);
  c.p.splice(0, go);
}

/** Mean of the last `s` seconds, bar; null: the course is shorter. */
export function courseMean(c: Course, s: number): number | null {
  const k = Math.round(s / MEAN_S);
  const n = c.p.length;
  if (n < k) return null;
  let sum = 0;
  for (let i = n - k; i < n; i++) sum += c.p[i]!;
  return sum / k;
}

/** Line through the last `s` seconds; null: the course is shorter. */
export function courseLine(c: Course, s: number): LineFit | null {
  const k = Math.round(s / MEAN_S);
  const n = c.t.length;
  return n < k ? null : fitLine(c.t.slice(n - k), c.p.slice(n - k));
}

/** Seconds that the course is long. */
export const courseS = (c: Course): number => c.t.length * MEAN_S;

/** Where the line locked up, bar, and how it creeps, bar/s; both with 95 % intervals under noise of first order. */
export interface Standing {
  readonly lockUp: Bounded;
  readonly creep: Bounded;
}

const LEAST_MEANS = 5;

/**
 * Of the whole course. What stands has its mean for a level; what creeps has the level at which it began to.
 * null: fewer means than a scatter needs.
 */
export function standing(c: Course): Standing | null {
  const line = c.t.length < LEAST_MEANS ? null : fitLine(c.t, c.p);
  if (line === null) return null;
  const rest = c.p.map((p, i) => p - line.intercept - line.slope * c.t[i]!);
  const wider = studentOf(Z_95, line.n - 2) * Math.sqrt(ar1Inflation(lag1(rest)));
  const dSlope = wider * line.sdSlope;
  const creep = { value: line.slope, low: line.slope - dSlope, high: line.slope + dSlope };
  const creeps = creep.low > 0;
  const first = line.intercept + line.slope * c.t[0]!;
  const value = creeps ? first : line.meanY;
  // The start of a line is known half as well as its middle.
  const d = (wider * line.residualSd * (creeps ? 2 : 1)) / Math.sqrt(line.n);
  return { lockUp: { value, low: value - d, high: value + d }, creep };
}
