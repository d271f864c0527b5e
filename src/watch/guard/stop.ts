/**
 * Stops of this fill and stillness after them. A hand's stop teaches how far the pressure still goes once the slope
 * begins to fall, and what a hose's drop was: both as seconds of the slope before, for they grow with the flow.
 */

import type { GuardContext, GuardState } from './types.ts';

/** A rise slower than this teaches nothing, bar/s. */
const LEAST_RISE = 0.012;
/** The slope has begun to fall below this share of its best, and the stop is over below that one. */
const FALLING = 0.75;
const OVER = 0.06;
/** What takes longer to end is no hand's stop but the end of a regulated fill, s. */
const HAND_MOST_S = 2.5;
const GIVE_UP_S = 4;
const STOPS_KEPT = 4;

/** Follows a rise to its end. */
export function followStop(s: GuardState): void {
  const m = s.motion;
  if (m === null) return;
  if (m.rate > s.fastest || (m.rate > 0.8 * s.fastest && m.rate > 0.8 * LEAST_RISE)) {
    s.fastest = Math.max(m.rate, 0.98 * s.fastest);
    s.slowFromS = null;
  } else if (s.fastest > LEAST_RISE && s.slowFromS === null && m.rate < FALLING * s.fastest) {
    s.slowFromS = m.midS;
    s.slowFromBar = m.bar;
  }
  if (s.slowFromS === null) return;
  if (m.rate < OVER * s.fastest) {
    if (m.atS - s.slowFromS < HAND_MOST_S) {
      const gone = (s.lastBar - s.slowFromBar) / s.fastest;
      s.stops.push({ reachS: Math.max(0, gone), dropS: Math.max(0, -gone), atS: m.atS });
      if (s.stops.length > STOPS_KEPT) s.stops.shift();
    }
    s.fastest = 0;
    s.slowFromS = null;
  } else if (m.atS - s.slowFromS > GIVE_UP_S) {
    s.fastest = Math.max(0, m.rate);
    s.slowFromS = null;
  }
}

/** A stop must have shown at least this to be believed, s: less is noise. */
const LEAST_SHOWN_S = 0.05;

/** Longest reach of the stops so far, s of slope; null where none has shown one. */
export function learntReach(s: GuardState): number | null {
  let most = 0;
  for (const stop of s.stops) most = Math.max(most, stop.reachS);
  return most < LEAST_SHOWN_S ? null : most;
}

/** Drop of the hose while air flows, as s of slope; null where no stop has shown it. */
export function learntDrop(s: GuardState): number | null {
  const last = s.stops[s.stops.length - 1];
  return last === undefined ? null : last.dropS;
}

/** After a stop about a second must pass without a rise before the reading is the packer's. */
export const STILL_S = 1;
/** Rise that still counts as still; and the fall by cooling after a quick fill, which is no flow either, bar/s. */
const STILL_RISE = 0.002;
const COOLING = 0.015;

export function followStillness(s: GuardState, ctx: GuardContext): void {
  const m = s.motion;
  if (m === null || ctx.ventOpen) {
    s.stillSince = null;
    return;
  }
  const calm = m.rate < STILL_RISE + m.sd && m.rate > -COOLING - m.sd;
  if (!calm) s.stillSince = null;
  else if (s.stillSince === null) s.stillSince = m.atS;
}

/** Nothing flows: the reading is the packer's. */
export function isStill(s: GuardState): boolean {
  return s.stillSince !== null && s.motion !== null && s.motion.atS - s.stillSince >= STILL_S;
}
