import type { Limits } from '../../job/setup.ts';
import type { Stage } from '../codes.ts';
import type { Levels } from '../signal/levels.ts';
import { levelAgo, levelMax, levelNow, levelSpan } from '../signal/levels.ts';

/**
 * Stages read off the pressure alone, for traces without commands. Causal: a stage is told when the data show it,
 * together with the time at which it seems to have begun, a few seconds before. 'done' and 'abandoned' are words of a
 * person and never inferred: a line at zero says nothing of the packer.
 */
export interface Inference {
  /** Level at which the present stage was recognised, bar. */
  levelBar: number;
  /** Lowest level since the let-down, bar. */
  lowBar: number;
  /** When the pressure was last at the stage's own level: a rise began then, s. */
  restS: number;
}

export interface Inferred {
  readonly to: Stage;
  /** When it seems to have begun, s on the run clock. */
  readonly fromS: number;
}

export function createInference(): Inference {
  return { levelBar: 0, lowBar: 0, restS: 0 };
}

/** Air has come into the line, bar. */
const AIR_BAR = 0.1;
/** Seat pauses lie at or under this, bar (common practice: 0.3-0.5). */
const SEAT_TOP_BAR = 0.7;
/** A plateau's means stay within this and five times their scatter, bar. */
const PLATEAU_BAR = 0.02;
const SEAT_PLATEAU_S = 4;
/** Still near working pressure: a hold. Still elsewhere: perhaps a pause of the hand, so wait longer. */
const HOLD_NEAR_S = 5;
const HOLD_FAR_S = 10;
/** A hold that rises again within this time was a pause in the fill, s. */
const PAUSE_S = 60;
/** A rise or fall has begun when the level is left by this, bar. */
const LEFT_BAR = 0.03;

function plateau(l: Levels, s: number): boolean {
  const span = levelSpan(l, s);
  return span !== null && span <= PLATEAU_BAR + 5 * l.noiseBar;
}

function seatTop(limits: Limits | null): number {
  if (limits === null) return SEAT_TOP_BAR;
  if (limits.seatBar !== null)
    return Math.max(limits.seatBar + 0.15, Math.min(SEAT_TOP_BAR, 0.45 * limits.workingBar));
  return Math.min(SEAT_TOP_BAR, 0.45 * limits.workingBar);
}

/** The level that belongs to the stage: leaving it upwards is a rise. */
function ownLevel(inf: Inference, stage: Stage): number {
  if (stage === 'seat' || stage === 'hold') return inf.levelBar;
  return stage === 'let-down' ? inf.lowBar : 0;
}

/** The stage that the newest mean shows, or null for no change. */
export function inferStage(
  inf: Inference,
  l: Levels,
  stage: Stage,
  sinceS: number,
  limits: Limits | null,
): Inferred | null {
  const p = levelNow(l);
  const t = l.t[l.t.length - 1];
  if (p === null || t === undefined) return null;
  if (p <= ownLevel(inf, stage) + LEFT_BAR) inf.restS = t;
  switch (stage) {
    case 'prepare':
      return p > AIR_BAR ? filling(inf, l, p, limits) : null;
    case 'seat':
      if (p > Math.max(seatTop(limits), inf.levelBar + 0.1) || p > inf.levelBar + 0.2)
        return rise(inf, 'inflate');
      return p < 0.4 * inf.levelBar ? down(inf, l, p, inf.levelBar) : null;
    case 'inflate':
      return inflating(inf, l, p, limits);
    case 'hold':
      return holding(inf, l, p, sinceS);
    case 'let-down':
      if (p < inf.lowBar) inf.lowBar = p;
      return p > Math.max(AIR_BAR, inf.lowBar + 0.1) ? filling(inf, l, p, limits) : null;
    case 'done':
    case 'air-test':
    case 'abandoned':
      return null;
  }
}

function rise(inf: Inference, to: Stage): Inferred {
  return { to, fromS: inf.restS };
}

function filling(inf: Inference, l: Levels, p: number, limits: Limits | null): Inferred | null {
  if (p > seatTop(limits)) return rise(inf, 'inflate');
  if (p > AIR_BAR + 0.05 && plateau(l, SEAT_PLATEAU_S)) {
    inf.levelBar = p;
    return rise(inf, 'seat');
  }
  return null;
}

/** Begun when the level was last at what it was before. */
function down(inf: Inference, l: Levels, p: number, beforeBar: number): Inferred {
  inf.lowBar = p;
  let fromS = l.t[l.t.length - 1]!;
  for (let i = l.t.length - 1; i >= 0; i--) {
    fromS = l.t[i]!;
    if (l.p[i]! >= beforeBar - LEFT_BAR) break;
  }
  return { to: 'let-down', fromS };
}

function inflating(inf: Inference, l: Levels, p: number, limits: Limits | null): Inferred | null {
  const top = levelMax(l, 10) ?? p;
  if (p < 0.5 * top || p < AIR_BAR) return down(inf, l, p, top);
  const working = limits?.workingBar ?? null;
  const least = limits?.floorBar ?? (working === null ? SEAT_TOP_BAR : 0.35 * working);
  const near = working !== null && p >= 0.9 * working;
  const stillS = near ? HOLD_NEAR_S : HOLD_FAR_S;
  // Standing still over the ceiling is no hold, whatever the hand does there.
  if (p < least || (limits !== null && p > limits.ceilingBar) || !plateau(l, stillS)) return null;
  inf.levelBar = p;
  return { to: 'hold', fromS: l.t[l.t.length - 1]! - stillS };
}

function holding(inf: Inference, l: Levels, p: number, sinceS: number): Inferred | null {
  const before = levelAgo(l, 10) ?? levelMax(l, 10) ?? p;
  const fall = Math.max(0.1, 0.12 * before);
  if (p < before - fall || p < 0.3 * inf.levelBar) {
    // A blown hose is no let-down: leave the fast-fall alarm its second. A leak that empties the packer in under
    // two minutes is not told from a let-down by the data alone.
    const second = levelAgo(l, 1) ?? p;
    const sudden = second > before - 0.5 * fall || p < 0.5 * (levelMax(l, 1) ?? p);
    return sudden ? null : down(inf, l, p, before);
  }
  if (sinceS < PAUSE_S && p > inf.levelBar + 0.1 && p > before + 0.05) return rise(inf, 'inflate');
  return null;
}
