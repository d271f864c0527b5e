/**
 * How fast the pressure moves now: a straight line through the last short blocks, over the shortest window that
 * knows the slope well enough. The level is never taken from the line's far end, which overshoots when a valve
 * shuts, but from its middle or from the readings themselves.
 */

import type { BlockRow } from './blocks.ts';
import type { Motion } from './state.ts';

/** Longest row of short blocks. */
export const SHORT_MOST = 44;
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
const SHARE = 0.1;
const ENOUGH = 0.0012;
const LEAST_S = 0.24;

const WINDOWS = [4, 5, 7, 9, 12, 16, 21, 28, 36, SHORT_MOST] as const;

/** Fading time of the fastest rise that is remembered, s. */
const FADE_S = 5;

export function measureMotion(row: BlockRow, sampleSd: number, last: Motion | null): Motion | null {
  const to = row.t.length;
  const atS = row.t[to - 1];
  if (atS === undefined) return null;
  let now: Slope | null = null;
  for (const m of WINDOWS) {
    if (m > to) break;
    if (atS - row.t[to - m]! < LEAST_S) continue;
    now = slopeOver(row, to - m, to, sampleSd);
    if (now !== null && now.sd <= Math.max(SHARE * Math.abs(now.rate), ENOUGH)) break;
  }
  if (now === null) return null;
  const kept = last === null ? 0 : last.before * Math.exp(-(atS - last.atS) / FADE_S);
  // A noisy slope is no record to hold a hand against.
  const before = Math.max(now.rate - now.sd, Math.min(kept, Math.max(kept, now.rate)));
  return { atS, rate: now.rate, sd: now.sd, before, bar: now.bar, midS: now.midS };
}
