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
 * @param coarse converter step where the noise is too small to dither it, bar; else 0. A staircase has no noise to
 * judge a slope by: its error is that of a step over the window.
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
  let now: Slope | null = null;
  let used = 0;
  for (const m of WINDOWS) {
    if (m > to) break;
    if (atS - row.t[to - m]! < LEAST_S) continue;
    now = slopeOver(row, to - m, to, sampleSd);
    if (now !== null && coarse > 0)
      now = { ...now, sd: Math.hypot(now.sd, (0.4 * coarse) / (atS - row.t[to - m]!)) };
    used = m;
    if (now !== null && now.sd <= Math.max(SHARE * Math.abs(now.rate), ENOUGH)) break;
  }
  if (now === null) return null;
  // A stop shows against the slope before it. That one is remembered a little, so that it outlasts the stop.
  let end = to;
  while (end > 0 && atS - row.t[end - 1]! < AGO_S) end--;
  let from = end;
  while (from > 0 && (atS - row.t[from - 1]! < AGO_S + BEFORE_S || end - from < used)) from--;
  const earlier = slopeOver(row, from, end, sampleSd);
  // Less its own doubt: the largest of several noisy slopes would be too steep.
  kept.push(earlier === null ? now.rate : earlier.rate - 1.5 * earlier.sd);
  if (kept.length > BEFORE_KEPT) kept.shift();
  let before = now.rate;
  for (const rate of kept) before = Math.max(before, rate);
  return { atS, rate: now.rate, sd: now.sd, before, ago: earlier?.rate ?? 0, bar: now.bar, midS: now.midS };
}
