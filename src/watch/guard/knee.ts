/**
 * The knee of a fill: the pressure at which the limp packer lies against the pipe and begins to resist, seen as a
 * slope that steepens several times over while the flow goes on. Reported once a fill, when the steep part has
 * lasted; a valve that is opened further in mid-flow looks the same, so the interval is wide and only the last
 * steepening before half of the working pressure counts.
 */

import type { GuardContext, GuardState } from './state.ts';

/** Plain data. */
export interface KneeState {
  /** Limp line so far: sums over long blocks about the first. */
  n: number;
  t0: number;
  st: number;
  sp: number;
  stt: number;
  stp: number;
  last: number;
  /** A steepening under way: where the two lines meet, and the steep slope. */
  found: { bar: number; steep: number; limp: number; atS: number; fromBar: number } | null;
  told: boolean;
  /** A stop has parted this fill. */
  parted: boolean;
}

export function createKnee(): KneeState {
  return { n: 0, t0: 0, st: 0, sp: 0, stt: 0, stp: 0, last: 0, found: null, told: false, parted: false };
}

/** Slope over the last blocks that is compared with the limp line, blocks of 0.2 s. */
const STEEP_BLOCKS = 5;
/** How much steeper, and how long the limp part must have been, s and bar/s. */
const STEEPER = 2;
const LIMP_LEAST_BLOCKS = 8;
/** After a stop the slope grows from nothing as the valve opens: a longer limp part is asked for. */
const LIMP_AGAIN_BLOCKS = 13;
const LIMP_LEAST_RATE = 0.002;
/** Rise over the knee that confirms it, bar; the knee is sought up to this pressure. */
const CONFIRM_BAR = 0.12;
const HIGHEST_BAR = 0.75;
/** Below this the packer is empty and the next fill begins, bar. */
const EMPTY_BAR = 0.01;

function clearLimp(k: KneeState): void {
  k.n = 0;
  k.st = 0;
  k.sp = 0;
  k.stt = 0;
  k.stp = 0;
}

/** A long block was completed. Sets `s.knee` when the knee is sure. */
export function followKnee(s: GuardState, ctx: GuardContext): void {
  const k = s.kneeState;
  const row = s.long;
  const n = row.t.length;
  const m = s.motion;
  if (n <= STEEP_BLOCKS || m === null) return;
  const bar = row.p[n - 1]!;
  if (bar < EMPTY_BAR) {
    clearLimp(k);
    k.found = null;
    k.told = false;
    k.parted = false;
    s.knee = null;
    return;
  }
  if (k.told || ctx.ventOpen) return;
  const top = Math.min(HIGHEST_BAR, ctx.limits?.workingBar ?? HIGHEST_BAR);
  const a = n - 1 - STEEP_BLOCKS;
  const steep = (row.p[n - 1]! - row.p[a]!) / (row.t[n - 1]! - row.t[a]!);
  if (m.rate < LIMP_LEAST_RATE) {
    // The flow ended: what comes after it begins a limp part of its own, if it is limp still.
    clearLimp(k);
    k.parted = true;
    if (k.found !== null && bar < k.found.bar + CONFIRM_BAR) k.found = null;
    else confirm(s, k, ctx, bar);
    return;
  }
  if (k.found !== null) {
    confirm(s, k, ctx, bar);
    return;
  }
  if (bar > top) return;
  const limp = k.n >= (k.parted ? LIMP_AGAIN_BLOCKS : LIMP_LEAST_BLOCKS) ? slopeOf(k) : null;
  if (limp !== null && limp > LIMP_LEAST_RATE && steep > STEEPER * limp) {
    // Where the steep line through the last blocks meets the limp line.
    const tm = (row.t[n - 1]! + row.t[a]!) / 2;
    const pm = (row.p[n - 1]! + row.p[a]!) / 2;
    const pl = k.sp / k.n + limp * (tm - k.t0 - k.st / k.n);
    const dt = (pm - pl) / (steep - limp);
    k.found = { bar: pm - steep * dt, steep, limp, atS: row.t[n - 1]!, fromBar: bar };
    return;
  }
  // A block joins the limp line a second late, so that the first steep ones do not bend it.
  addLimp(k, row.t[a]!, row.p[a]!);
}

function addLimp(k: KneeState, t: number, p: number): void {
  if (k.n === 0) k.t0 = t;
  const x = t - k.t0;
  k.n++;
  k.st += x;
  k.sp += p;
  k.stt += x * x;
  k.stp += x * p;
  // Forgets slowly: heat and a valve that opens bend the limp part too.
  const keep = 0.97;
  k.n *= keep;
  k.st *= keep;
  k.sp *= keep;
  k.stt *= keep;
  k.stp *= keep;
}

function slopeOf(k: KneeState): number | null {
  const det = k.n * k.stt - k.st * k.st;
  return det > 1e-9 ? (k.n * k.stp - k.st * k.sp) / det : null;
}

function confirm(s: GuardState, k: KneeState, ctx: GuardContext, bar: number): void {
  const f = k.found;
  if (f === null || bar < f.fromBar + CONFIRM_BAR) return;
  k.told = true;
  // The bend is as wide as the steepening took; before a hose the reading also holds its drop.
  const half = Math.max(0.04, 0.2 * f.bar, 0.35 * Math.abs(f.fromBar - f.bar));
  const drop = ctx.tap === 'packer' ? 0 : 0.06;
  const value = Math.max(0, f.bar);
  s.knee = { value, low: Math.max(0, value - half - drop), high: value + half };
}
