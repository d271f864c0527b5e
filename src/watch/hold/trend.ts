import { ar1Inflation, lag1 } from '../../estimate/ar1.ts';
import { fitLine } from '../../estimate/line.ts';
import { Z_95 } from '../../estimate/normal.ts';
import type { Bounded } from '../events.ts';
import type { HoldView } from '../view.ts';
import { type Rise, riseOf, timeToRise } from './rise.ts';

/** Course of the pressure over the last minutes of a hold, whatever moves it: means of ten seconds. */
export interface Trend {
  t: number[];
  p: number[];
  fromS: number | null;
  sum: number;
  n: number;
}

const BLOCK_S = 10;
/** Ten minutes. */
const KEEP = 60;
/** Blocks before a slope is given: two minutes. */
const LEAST = 12;
/** The slope now is taken over the last four minutes, its change against the rest. */
const NOW = 24;
/** Slower than this is no trend, bar/s (0.3 mbar/min). */
const LEAST_RATE = 0.3e-3 / 60;
/** A band exit further off than this is not shown, s. */
const HORIZON_S = 4 * 3600;
/** A ceiling nearer than this is told of by a rise that is only likely: waiting for surety would cost the lead, s. */
const NEAR_S = 900;

export function createTrend(): Trend {
  return { t: [], p: [], fromS: null, sum: 0, n: 0 };
}

export function trendClear(tr: Trend): void {
  tr.t.length = 0;
  tr.p.length = 0;
  tr.fromS = null;
}

/** Takes a usable pressure; true when a mean was completed. */
export function trendAdd(tr: Trend, tS: number, bar: number): boolean {
  let closed = false;
  if (tr.fromS !== null && tS - tr.fromS >= BLOCK_S) {
    tr.t.push((tr.fromS + tS) / 2);
    tr.p.push(tr.sum / tr.n);
    if (tr.t.length > KEEP) {
      tr.t.shift();
      tr.p.shift();
    }
    tr.fromS = null;
    closed = true;
  }
  if (tr.fromS === null) {
    tr.fromS = tS;
    tr.sum = 0;
    tr.n = 0;
  }
  tr.sum += bar;
  tr.n++;
  return closed;
}

export interface TrendSlope {
  /** bar/s with its 95 % interval. */
  readonly rate: Bounded;
  readonly levelBar: number;
  /** How much faster it gets, bar/s²; 0 where that is not sure. */
  readonly gain: number;
}

function sloped(t: readonly number[], p: readonly number[]): TrendSlope | null {
  const fit = fitLine(t, p);
  if (fit === null) return null;
  const residuals = t.map((at, i) => p[i]! - fit.meanY - fit.slope * (at - fit.meanX));
  const half = Z_95 * fit.sdSlope * Math.sqrt(ar1Inflation(lag1(residuals)));
  return {
    rate: { value: fit.slope, low: fit.slope - half, high: fit.slope + half },
    levelBar: fit.meanY + fit.slope * (t[t.length - 1]! - fit.meanX),
    gain: 0,
  };
}

const sure = (s: TrendSlope): boolean =>
  Math.abs(s.rate.value) >= Math.max(LEAST_RATE, 1.5 * (s.rate.high - s.rate.value));

/**
 * Slope now, and the level at the end; null where no trend is sure. An exotherm speeds up: where the last minutes
 * are surely steeper than those before, theirs is the slope and the difference its gain.
 */
export function trendSlope(tr: Trend): TrendSlope | null {
  const n = tr.t.length;
  if (n < LEAST) return null;
  const all = sloped(tr.t, tr.p);
  if (all === null) return null;
  if (n >= NOW + LEAST) {
    const now = sloped(tr.t.slice(-NOW), tr.p.slice(-NOW));
    const before = sloped(tr.t.slice(0, -NOW), tr.p.slice(0, -NOW));
    if (now !== null && before !== null && sure(now)) {
      const apart = ((n - NOW) / 2 + NOW / 2) * BLOCK_S;
      const steeper = now.rate.value - before.rate.value;
      const doubt = Math.hypot(now.rate.high - now.rate.value, before.rate.high - before.rate.value);
      // Only a movement that grows: one that fades is left to the longer line, which fades more slowly.
      if (Math.abs(steeper) > doubt && steeper * now.rate.value > 0)
        return { ...now, gain: Math.abs(now.rate.value) > Math.abs(before.rate.value) ? steeper / apart : 0 };
    }
  }
  return sure(all) ? all : null;
}

/** Time to go `way` from now at that rate and gain (both towards it), s. */
function timeTo(way: number, rate: number, gain: number): number {
  const v = Math.abs(rate);
  const a = Math.abs(gain);
  const d = Math.abs(way);
  return a > 0 ? (Math.sqrt(v * v + 2 * a * d) - v) / a : d / v;
}

/** The rise at the end of the course; null with too short a course. */
export const trendRise = (tr: Trend): Rise | null => riseOf(tr.t, tr.p);

/** When the band floor…ceiling will be left if it goes on like this; null where that is not sure or far. */
export function bandExit(
  tr: Trend,
  floorBar: number | null,
  ceilingBar: number | null,
): HoldView['bandExit'] {
  const rise = ceilingBar === null ? null : trendRise(tr);
  const up = rise === null || ceilingBar === null ? null : exitUp(rise, ceilingBar);
  if (up !== null && up.inS.value < NEAR_S) return up;
  const slope = trendSlope(tr);
  if (slope === null) return null;
  return slope.rate.value > 0 ? up : exitDown(slope, floorBar);
}

function exitUp(rise: Rise, ceilingBar: number): HoldView['bandExit'] {
  const way = ceilingBar - rise.levelBar;
  const { rate, gain, sdGain } = rise;
  // Already past the edge is not 'will leave'.
  if (way <= 0 || rate.value < LEAST_RATE) return null;
  const value = timeToRise(way, rate.value, gain);
  const half = rate.high - rate.value;
  if (value > HORIZON_S || rate.value < (value < NEAR_S ? 0.5 : 1.5) * half) return null;
  const high = timeToRise(way, Math.max(rate.low, rate.value / 2), Math.min(0, gain - 2 * sdGain));
  return {
    direction: 'up',
    inS: {
      value,
      low: Math.min(value, timeToRise(way, rate.high, Math.max(0, gain) + 2 * sdGain)),
      high: Math.min(4 * HORIZON_S, Math.max(value, high)),
    },
  };
}

function exitDown(slope: TrendSlope, floorBar: number | null): HoldView['bandExit'] {
  if (floorBar === null) return null;
  const way = slope.levelBar - floorBar;
  if (way <= 0) return null;
  const at = (rate: number, gain: number) => Math.min(HORIZON_S * 4, timeTo(way, rate, gain));
  const value = at(slope.rate.value, slope.gain);
  if (value > HORIZON_S) return null;
  return {
    direction: 'down',
    // The gain may double, or end here.
    inS: { value, low: at(slope.rate.low, 2 * slope.gain), high: at(slope.rate.high, 0) },
  };
}
