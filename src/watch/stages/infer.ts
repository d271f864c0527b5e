import type { Limits } from '../../job/setup.ts';
import type { Stage } from '../codes.ts';
import type { Levels } from '../signal/levels.ts';
import { levelAgo, levelMax, levelNow, levelSpan } from '../signal/levels.ts';

/**
 * Stages read off the pressure alone, for traces without commands. Causal: a stage begins when the data show
 * it, a few seconds after it really began. 'done' and 'abandoned' are words of a person and never inferred:
 * a line at zero says nothing of the packer.
 */
export interface Inference {
  /** Level at which the present stage was recognised, bar. */
  levelBar: number;
  /** Lowest level since the let-down, bar. */
  lowBar: number;
}

export function createInference(): Inference {
  return { levelBar: 0, lowBar: 0 };
}

/** Air has come into the line, bar. */
const AIR_BAR = 0.1;
/** Seat pauses lie at or under this, bar (common practice: 0.3-0.5). */
const SEAT_TOP_BAR = 0.7;
/** A plateau's means stay within this, bar; noise of the means adds to it. */
const PLATEAU_BAR = 0.02;
const SEAT_PLATEAU_S = 4;
/** Still near working pressure: a hold. Still elsewhere: perhaps a pause of the hand, so wait longer. */
const HOLD_NEAR_S = 5;
const HOLD_FAR_S = 10;
/** A hold that rises again within this time was a pause in the fill, s. */
const PAUSE_S = 60;

function plateau(l: Levels, s: number): boolean {
  const span = levelSpan(l, s);
  return span !== null && span <= PLATEAU_BAR;
}

function seatTop(limits: Limits | null): number {
  if (limits === null) return SEAT_TOP_BAR;
  if (limits.seatBar !== null)
    return Math.max(limits.seatBar + 0.15, Math.min(SEAT_TOP_BAR, 0.45 * limits.workingBar));
  return Math.min(SEAT_TOP_BAR, 0.45 * limits.workingBar);
}

function filling(inf: Inference, l: Levels, p: number, limits: Limits | null): Stage | null {
  if (p > seatTop(limits)) return 'inflate';
  if (p > AIR_BAR + 0.05 && plateau(l, SEAT_PLATEAU_S)) {
    inf.levelBar = p;
    return 'seat';
  }
  return null;
}

/** The stage that the newest mean shows, or null for no change. */
export function inferStage(
  inf: Inference,
  l: Levels,
  stage: Stage,
  sinceS: number,
  limits: Limits | null,
): Stage | null {
  const p = levelNow(l);
  if (p === null) return null;
  switch (stage) {
    case 'prepare':
      return p > AIR_BAR ? filling(inf, l, p, limits) : null;
    case 'seat':
      if (p > Math.max(seatTop(limits), inf.levelBar + 0.1) || p > inf.levelBar + 0.2) return 'inflate';
      return p < 0.4 * inf.levelBar ? down(inf, p) : null;
    case 'inflate':
      return inflating(inf, l, p, limits);
    case 'hold':
      return holding(inf, l, p, sinceS);
    case 'let-down':
      if (p < inf.lowBar) inf.lowBar = p;
      return p > Math.max(AIR_BAR, inf.lowBar + 0.1) ? filling(inf, l, p, limits) : null;
    default:
      return null;
  }
}

function down(inf: Inference, p: number): Stage {
  inf.lowBar = p;
  return 'let-down';
}

function inflating(inf: Inference, l: Levels, p: number, limits: Limits | null): Stage | null {
  const top = levelMax(l, 10) ?? p;
  if (p < 0.5 * top || p < AIR_BAR) return down(inf, p);
  const working = limits?.workingBar ?? null;
  const least = limits?.floorBar ?? (working === null ? SEAT_TOP_BAR : 0.35 * working);
  const near = working !== null && p >= 0.9 * working;
  if (p < least || !plateau(l, near ? HOLD_NEAR_S : HOLD_FAR_S)) return null;
  inf.levelBar = p;
  return 'hold';
}

function holding(inf: Inference, l: Levels, p: number, sinceS: number): Stage | null {
  // A blown hose is no let-down: leave the fast-fall alarm its second.
  if (p < 0.5 * (levelMax(l, 1) ?? p)) return null;
  const before = levelAgo(l, 10) ?? levelMax(l, 10) ?? p;
  // A leak that empties the packer in under two minutes is not told from a let-down by the data alone.
  if (p < before - Math.max(0.1, 0.12 * before) || p < 0.3 * inf.levelBar) return down(inf, p);
  if (sinceS < PAUSE_S && p > inf.levelBar + 0.1 && p > before + 0.05) return 'inflate';
  return null;
}
