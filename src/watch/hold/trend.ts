import { ar1Inflation, lag1 } from '../../estimate/ar1.ts';
import { fitLine } from '../../estimate/line.ts';
import type { Bounded } from '../events.ts';
import type { HoldView } from '../view.ts';

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
/** Slower than this is no trend, bar/s (0.3 mbar/min). */
const LEAST_RATE = 0.3e-3 / 60;
/** A band exit further off than this is not shown, s. */
const HORIZON_S = 4 * 3600;

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

/** Slope in bar/s with its 95 % interval, and the level at the end; null where no trend is sure. */
export function trendSlope(tr: Trend): { rate: Bounded; levelBar: number } | null {
  if (tr.t.length < LEAST) return null;
  const fit = fitLine(tr.t, tr.p);
  if (fit === null) return null;
  const residuals = tr.t.map((t, i) => tr.p[i]! - fit.meanY - fit.slope * (t - fit.meanX));
  const half = 1.96 * fit.sdSlope * Math.sqrt(ar1Inflation(lag1(residuals)));
  if (Math.abs(fit.slope) < Math.max(LEAST_RATE, 1.5 * half)) return null;
  const end = tr.t[tr.t.length - 1]!;
  return {
    rate: { value: fit.slope, low: fit.slope - half, high: fit.slope + half },
    levelBar: fit.meanY + fit.slope * (end - fit.meanX),
  };
}

/** When the band floor…ceiling will be left if it goes on like this; null where that is not sure or far. */
export function bandExit(
  tr: Trend,
  floorBar: number | null,
  ceilingBar: number | null,
): HoldView['bandExit'] {
  const slope = trendSlope(tr);
  if (slope === null) return null;
  const up = slope.rate.value > 0;
  const edge = up ? ceilingBar : floorBar;
  if (edge === null) return null;
  const way = edge - slope.levelBar;
  // Already past the edge is not 'will leave'.
  if (up ? way <= 0 : way >= 0) return null;
  const at = (rate: number) => Math.min(HORIZON_S * 4, way / rate);
  const value = at(slope.rate.value);
  if (value > HORIZON_S) return null;
  const fast = at(up ? slope.rate.high : slope.rate.low);
  const slow = at(up ? slope.rate.low : slope.rate.high);
  return { direction: up ? 'up' : 'down', inS: { value, low: fast, high: slow } };
}
