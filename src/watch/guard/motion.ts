/**
 * How fast the pressure moves now: a straight line through the last short blocks, over the shortest window that
 * knows the slope well enough. The level is never taken from the line's far end, which overshoots when a valve
 * shuts, but from its middle or from the readings themselves.
 */

import type { BlockRow } from './blocks.ts';
import type { Motion } from './types.ts';

/** Longest row of short blocks. */
export const SHORT_MOST = 64;
export const SHORT_S = 0.05;

interface Slope {
  readonly rate: number;
  readonly sd: number;
  readonly bar: number;
  readonly midS: number;
}

/** Line through blocks [from, to); the sd is the larger of the noise known before and the scatter seen. */
export function slopeOver(row: BlockRow, from: number, to: number, sampleSd: number): Slope | null {
  const m = to - from;
  if (m < 3) return null;
  let st = 0;
  let sp = 0;
  let sn = 0;
  for (let i = from; i < to; i++) {
    st += row.t[i]!;
    sp += row.p[i]!;
    sn += row.n[i]!;
  }
  const midS = st / m;
  const bar = sp / m;
  let stt = 0;
  let stp = 0;
  for (let i = from; i < to; i++) {
    const dt = row.t[i]! - midS;
    stt += dt * dt;
    stp += dt * (row.p[i]! - bar);
  }
  if (!(stt > 0)) return null;
  const rate = stp / stt;
  let rss = 0;
  for (let i = from; i < to; i++) {
    const r = row.p[i]! - bar - rate * (row.t[i]! - midS);
    rss += r * r;
  }
  const prior = (sampleSd * sampleSd * m) / sn;
  const seen = m > 4 ? rss / (m - 2) : 0;
  return { rate, sd: Math.sqrt(Math.max(prior, seen) / stt), bar, midS };
}

/** Share of the slope that its standard deviation may be, and the sd that is good enough at rest, bar/s. */
const SHARE = 0.14;
const ENOUGH = 0.0012;
const LEAST_S = 0.24;

const WINDOWS = [4, 5, 7, 9, 12, 16, 21, 28, 36, 46] as const;

/** The slope before: a stretch of this length that ended this long ago, s, and how many values of it are remembered. */
const BEFORE_S = 1.2;
const AGO_S = 0.4;
const BEFORE_KEPT = 10;

/**
 * The slope over the shortest window of short blocks that knows it well enough, else over the longest. Each window is the
 * one before it and some older blocks, so the sums grow on; the scatter is asked only where the noise known before
 * would let the window pass.
 */
function slopeNow(
  row: BlockRow,
  sampleSd: number,
  coarse: number,
): (Slope & { readonly used: number }) | null {
  const to = row.t.length;
  const atS = row.t[to - 1]!;
  const atBar = row.p[to - 1]!;
  let st = 0;
  let sp = 0;
  let sn = 0;
  let stt = 0;
  let stp = 0;
  let from = to;
  for (let k = 0; k < WINDOWS.length && WINDOWS[k]! <= to; k++) {
    const m = WINDOWS[k]!;
    while (from > to - m) {
      from--;
      const t = row.t[from]! - atS;
      const p = row.p[from]! - atBar;
      st += t;
      sp += p;
      sn += row.n[from]!;
      stt += t * t;
      stp += t * p;
    }
    const span = atS - row.t[from]!;
    if (span < LEAST_S) continue;
    const about = stt - (st * st) / m;
    const rate = (stp - (st * sp) / m) / about;
    const step = coarse > 0 ? (0.4 * coarse) / span : 0;
    const enough = Math.max(SHARE * Math.abs(rate), ENOUGH);
    const prior = (sampleSd * sampleSd * m) / sn;
    const last = k + 1 === WINDOWS.length || WINDOWS[k + 1]! > to;
    if (!last && prior / about + step * step > enough * enough) continue;
    const midS = atS + st / m;
    const bar = atBar + sp / m;
    let rss = 0;
    for (let i = from; i < to; i++) {
      const r = row.p[i]! - bar - rate * (row.t[i]! - midS);
      rss += r * r;
    }
    const seen = m > 4 ? rss / (m - 2) : 0;
    const sd = Math.sqrt(Math.max(prior, seen) / about + step * step);
    if (last || sd <= enough) return { rate, sd, bar, midS, used: m };
  }
  return null;
}

/**
 * @param coarse converter step where the noise is too small to dither it, bar; else 0. A staircase has no noise to
 * judge a slope by: its error is that of a step over the window.
 * @param kept slopes of the moments before, updated
 */
export function measureMotion(
  row: BlockRow,
  sampleSd: number,
  coarse: number,
  kept: number[],
): Motion | null {
  const to = row.t.length;
  const atS = row.t[to - 1];
  if (atS === undefined) return null;
  const now = slopeNow(row, sampleSd, coarse);
  if (now === null) return null;
  // A stop shows against the slope before it. That one is remembered a little, so that it outlasts the stop.
  let end = to;
  while (end > 0 && atS - row.t[end - 1]! < AGO_S) end--;
  let from = end;
  while (from > 0 && (atS - row.t[from - 1]! < AGO_S + BEFORE_S || end - from < now.used)) from--;
  const earlier = slopeOver(row, from, end, sampleSd);
  // Less their own doubt: the largest of several noisy slopes would be too steep. The slope of now is among them: after a
  // valve was opened the stretch before it was flat, and a stop that follows at once shows against the opening alone.
  kept.push(earlier === null ? now.rate : Math.max(earlier.rate - 1.5 * earlier.sd, now.rate - 2 * now.sd));
  if (kept.length > BEFORE_KEPT) kept.shift();
  let before = now.rate;
  for (const rate of kept) before = Math.max(before, rate);
  return { atS, rate: now.rate, sd: now.sd, before, ago: earlier?.rate ?? 0, bar: now.bar, midS: now.midS };
}
