import type { TraceWindow } from '../engine/messages.ts';
import { scaleOf } from '../units/display.ts';
import type { DisplayUnits } from '../words/format.ts';

/** What the plot takes: ascending x and one plain array a series; null for a gap, undefined for nothing to draw. */
export interface PlotData {
  readonly x: number[];
  readonly y: (number | null | undefined)[][];
}

/** Holes up to this long are the sensor's own pace, not a gap: seconds, by what is measured. */
export interface Pace {
  readonly bar: number;
  readonly temperature: number;
}

/** What the pace needs of a channel's own description. */
interface Paced {
  readonly quantity: string;
  readonly rateMilliHz: number;
}

/**
 * Pace of a stream: two and a half of its periods, and never under a quarter second; temperatures by the slowest
 * of their channels.
 */
export function paceOf(rateHz: number | null, channels: readonly Paced[] = []): Pace {
  const bar = rateHz === null || rateHz <= 0 ? 0.35 : Math.max(0.25, 2.5 / rateHz);
  const rates = channels.filter((c) => c.quantity === 'temp' && c.rateMilliHz > 0).map((c) => c.rateMilliHz);
  const slowest = rates.length === 0 ? 2.5 : 2500 / Math.min(...rates);
  return { bar, temperature: Math.max(slowest, bar) };
}

/**
 * Two points a bucket, lowest then highest, so that one line shows the whole swing of the readings behind it.
 * The second point lies half a bucket later: x must rise and never repeat. A long hole is null (a gap that is drawn
 * as one); a short one is undefined, which the plot joins. A hole in which the record has a gap is never joined.
 * @param into arrays of an earlier picture, which this one takes over: under a hand one picture follows the other
 */
export function toPlot(
  window: TraceWindow,
  units: DisplayUnits,
  pace: Pace = paceOf(null),
  gaps: readonly { readonly fromS: number; readonly toS: number }[] = [],
  into: PlotData = { x: [], y: [] },
): PlotData {
  const { s: at, series } = window;
  const n = at.length;
  const { x, y } = into;
  x.length = 2 * n;
  let step = n > 1 ? at[1]! - at[0]! : 1;
  for (let i = 0; i < n; i++) {
    if (i + 1 < n) step = at[i + 1]! - at[i]!;
    x[2 * i] = at[i]!;
    x[2 * i + 1] = at[i]! + Math.max(1e-6, step / 2);
  }
  y.length = series.length;
  for (const [k, { name, min, max }] of series.entries()) {
    const { factor, shift } = scaleOf(name === 'temperature' ? 'temperature' : 'pressure', units);
    const out = y[k] ?? [];
    y[k] = out;
    out.length = 2 * n;
    const join = pace[name === 'temperature' ? 'temperature' : 'bar'];
    let before = -1;
    for (let i = 0; i < n; i++) {
      const lo = min[i] ?? Number.NaN;
      const hi = max[i] ?? Number.NaN;
      if (!Number.isFinite(lo) || !Number.isFinite(hi)) continue;
      let joined = before >= 0;
      if (i > before + 1) {
        const from = before < 0 ? Number.NEGATIVE_INFINITY : at[before]!;
        const to = at[i]!;
        joined = to - from <= join && !gaps.some((g) => g.fromS < to && g.toS > from);
        out.fill(joined ? undefined : null, 2 * (before + 1), 2 * i);
      }
      if (name === 'temperature' && hi - lo < CALM_K) {
        const middle = ((lo + hi) / 2) * factor + shift;
        out[2 * i] = middle;
        // A line that goes on needs the point but once; a bucket that nothing leads to is a short line of its own.
        out[2 * i + 1] = joined ? undefined : middle;
      } else {
        out[2 * i] = lo * factor + shift;
        out[2 * i + 1] = hi * factor + shift;
      }
      before = i;
    }
    out.fill(null, 2 * (before + 1), 2 * n);
  }
  return into;
}

/**
 * Temperatures within this span of a bucket are drawn at its middle, K: scatter of a probe drawn as a swing hides the
 * line's dashes. A true swing is drawn in full, and pressure always is.
 */
const CALM_K = 1.5;

/** Value nearest to a time, for the readout: highest of the bucket, null in a gap. */
export function valueAt(window: TraceWindow, series: number, atS: number): number | null {
  const s = window.s;
  if (s.length === 0) return null;
  let lo = 0;
  let hi = s.length - 1;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    if (s[mid]! <= atS) lo = mid;
    else hi = mid - 1;
  }
  const v = window.series[series]?.max[lo];
  return v === undefined || !Number.isFinite(v) ? null : v;
}
