/**
 * The knee of a fill: the pressure at which the limp packer lies against the pipe and begins to resist, seen as a
 * slope that steepens several times over while the flow goes on. Reported once a fill, when the steep part has
 * lasted; a valve that is opened further in mid-flow looks the same, so the interval is wide and only the last
 * steepening before half of the working pressure counts.
 *
 * Before a hose the reading lies over the packer by the hose's drop while air flows. It shows when the flow begins:
 * the reading jumps by it before the limp packer has moved.
 */

import type { BlockRow } from './blocks.ts';
import { slopeOver } from './motion.ts';
import { meanSd } from './settle.ts';
import type { GuardContext, GuardState, KneeState } from './types.ts';

export function createKnee(): KneeState {
  return {
    n: 0,
    t0: 0,
    st: 0,
    sp: 0,
    stt: 0,
    stp: 0,
    last: -1,
    found: null,
    told: false,
    parted: false,
    restBar: null,
    flowS: null,
    jumpBar: null,
  };
}

/** Slope now that is compared with the limp line: over the fewest of these blocks of 0.2 s that know it to this share. */
const STEEP_BLOCKS = [5, 8, 12] as const;
const KNOWN_SHARE = 0.15;
/** How much steeper, by how many standard deviations, and how long the limp part must have been, blocks and bar/s. */
const STEEPER = 2;
const SURE_SD = 3;
const LIMP_LEAST_BLOCKS = 8;
/** After a stop the slope grows from nothing as the valve opens: a longer limp part is asked for. */
const LIMP_AGAIN_BLOCKS = 13;
const LIMP_LEAST_RATE = 0.002;
/** Rise over the knee that confirms it, bar; the knee is sought up to this pressure. */
const CONFIRM_BAR = 0.08;
const HIGHEST_BAR = 0.75;
/** Below this the packer is empty and the next fill begins, bar. */
const EMPTY_BAR = 0.01;
/** A steepening that has not gone on after this was none, s and share of the limp slope. */
const GOES_ON_S = 1;
const GOES_ON = 1.3;
/** The jump at the beginning of a flow: seen from here to there after it, s; the valve is half open after this, s. */
const JUMP_FROM_S = 0.5;
const JUMP_TO_S = 2;
const OPENING_S = 0.2;

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
  if (n <= STEEP_BLOCKS[0] || m === null || ctx.tap === 'supply') return;
  const bar = row.p[n - 1]!;
  const t = row.t[n - 1]!;
  if (bar < EMPTY_BAR) {
    s.kneeState = { ...createKnee(), restBar: bar, last: t };
    s.knee = null;
    return;
  }
  if (k.told || ctx.ventOpen) return;
  if (m.rate + m.sd < LIMP_LEAST_RATE) {
    // The flow ended: what comes after it begins a limp part of its own, if it is limp still.
    clearLimp(k);
    k.last = t;
    k.parted = true;
    k.restBar = k.restBar === null || k.flowS !== null ? bar : k.restBar + 0.3 * (bar - k.restBar);
    k.flowS = null;
    k.jumpBar = null;
    if (k.found !== null && !confirm(s, k, ctx)) k.found = null;
    return;
  }
  k.flowS ??= t;
  if (k.jumpBar === null && t - k.flowS >= JUMP_TO_S) k.jumpBar = jumpOf(s, k);
  if (k.found !== null) {
    const since = t - k.found.atS;
    if (since < GOES_ON_S || bar - k.found.fromBar > GOES_ON * k.found.limp * since) {
      confirm(s, k, ctx);
      return;
    }
    k.found = null;
  }
  if (bar > Math.min(HIGHEST_BAR, ctx.limits?.workingBar ?? HIGHEST_BAR)) return;
  const sd = meanSd(s);
  let from = n;
  let steep = null;
  for (const blocks of STEEP_BLOCKS) {
    if (n - 1 - blocks < 0) break;
    from = n - 1 - blocks;
    steep = slopeOver(row, from, n, sd);
    if (steep !== null && steep.sd < KNOWN_SHARE * Math.abs(steep.rate)) break;
  }
  if (steep === null) return;
  const limp = k.n >= (k.parted ? LIMP_AGAIN_BLOCKS : LIMP_LEAST_BLOCKS) ? slopeOf(k) : null;
  if (limp !== null && limp > LIMP_LEAST_RATE && steep.rate > STEEPER * limp) {
    const blockSd = sd / Math.sqrt(row.n[n - 1]!);
    const limpSd = blockSd / Math.sqrt(k.stt - (k.st * k.st) / k.n);
    if (steep.rate - limp > SURE_SD * Math.hypot(steep.sd, limpSd)) {
      k.found = { fromBar: bar, atS: t, limp, limpS: k.t0 + k.st / k.n, limpBar: k.sp / k.n, limpSd };
      return;
    }
  }
  // A block joins the limp line late, so that the first steep ones do not bend it.
  let i = from;
  while (i > 0 && row.t[i - 1]! > k.last) i--;
  for (; i <= from; i++)
    if (row.t[i]! > k.last) {
      addLimp(k, row.t[i]!, row.p[i]!);
      k.last = row.t[i]!;
    }
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

/** First block later than that. */
function blockAfter(row: BlockRow, t: number): number {
  let i = row.t.length;
  while (i > 0 && row.t[i - 1]! > t) i--;
  return i;
}

/** Rise of the reading as the flow began that the packer had no part in: the line after it, back to its beginning. */
function jumpOf(s: GuardState, k: KneeState): number | null {
  if (k.restBar === null || k.flowS === null) return null;
  const line = slopeOver(s.long, blockAfter(s.long, k.flowS + JUMP_FROM_S), s.long.t.length, meanSd(s));
  if (line === null) return null;
  return Math.max(0, line.bar - Math.max(0, line.rate) * (line.midS - k.flowS - OPENING_S) - k.restBar);
}

/**
 * Parts of the interval, bar and share of the knee: a knee is no corner, and the lines through what lies before and after
 * it meet over it rather than under. And the share of the way that the steepening took.
 */
const UNDER_BAR = 0.03;
const UNDER = 0.18;
const OVER_BAR = 0.02;
const OVER = 0.1;
const BEND = 0.3;
/** Drop at the knee in jumps at the beginning of the flow: the flow is less by then and the air denser. */
const DROP_OF_JUMP = 0.75;
const DROP_DOUBT = 0.35;
/** Drop before a hose where the jump was not seen, bar. */
const UNSEEN_DROP_BAR = 0.06;

/** Tells the knee when the steep part has lasted; true when it did. */
function confirm(s: GuardState, k: KneeState, ctx: GuardContext): boolean {
  const f = k.found;
  const row = s.long;
  const n = row.t.length;
  if (f === null || row.p[n - 1]! < f.fromBar + CONFIRM_BAR) return false;
  const steep = slopeOver(row, Math.min(n - 4, blockAfter(row, f.atS - 0.5)), n, meanSd(s));
  if (steep === null || steep.rate < GOES_ON * f.limp) {
    k.found = null;
    return false;
  }
  k.told = true;
  // Where the steep line meets the limp one.
  const atS = (f.limpBar - f.limp * f.limpS - steep.bar + steep.rate * steep.midS) / (steep.rate - f.limp);
  const bar = steep.bar + steep.rate * (atS - steep.midS);
  const statistical = 2 * f.limpSd * Math.abs(atS - f.limpS);
  const bend = BEND * Math.abs(f.fromBar - bar);
  let drop = 0;
  let doubt = 0;
  if (ctx.tap !== 'packer') {
    drop = DROP_OF_JUMP * (k.jumpBar ?? 0);
    doubt = k.jumpBar === null ? UNSEEN_DROP_BAR : DROP_DOUBT * k.jumpBar;
  }
  const value = Math.max(0, bar - drop);
  s.knee = {
    value,
    low: Math.max(0, value - Math.max(UNDER_BAR, UNDER * bar, bend) - statistical - doubt),
    high: value + Math.max(OVER_BAR, OVER * bar, bend) + statistical + (k.jumpBar === null ? 0 : doubt),
  };
  return true;
}
