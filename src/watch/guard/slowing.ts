/**
 * Does the rise slow down? A hand that shuts the valve and a regulator that comes near its set point both do; a supply
 * that sticks open and a regulator that creeps do not.
 */

import type { GuardState } from './types.ts';

/** A hand's stop is over after this; what still rises then is no stop, s. */
const STOP_S = 0.9;

/** Notes since when the rise is slower than before by more than noise explains. */
export function followSlowing(s: GuardState): void {
  const m = s.motion;
  if (m === null || m.rate >= m.before - Math.max(0.1 * m.before, 2 * m.sd)) s.slowSince = null;
  else if (s.slowSince === null) s.slowSince = m.atS;
}

/** Is a hand, or the end of the fill, at work? A slow decline that goes on and on is neither: it lets go. */
export function slowing(s: GuardState): boolean {
  const m = s.motion;
  if (m === null) return true;
  if (s.slowSince === null) return false;
  return m.atS - s.slowSince < STOP_S || m.rate < 0.5 * m.before;
}

/** A stop by hand has taken the slope below this share of itself after this time; a line that settles has not, s. */
const HAND_BY_S = 0.45;
const HAND_TO = 0.6;

/** Might what slows now be a hand's stop? */
export function handStops(s: GuardState): boolean {
  const m = s.motion;
  if (m === null || s.slowSince === null) return false;
  return m.atS - s.slowSince < HAND_BY_S || m.rate < HAND_TO * m.before;
}
