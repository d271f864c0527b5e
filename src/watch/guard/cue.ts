/**
 * The cue: seconds until the valve should be shut to stop at the working pressure. Help on every fill, not an alarm.
 * Where the bank knows the line, its curve is followed; else the slope of now.
 */

import { timeToReach } from '../../estimate/subsonic.ts';
import type { Bounded } from '../events.ts';
import { AIR_BAR } from './settle.ts';
import { learntDrop, learntReach } from './stop.ts';
import type { GuardContext, GuardState } from './types.ts';

/** Slower than this there is nothing to count down, bar/s; further off than this it is not shown, s. */
const LEAST_RATE = 0.002;
const FAR_S = 60;
/** A hand's own time from the cue to a shut valve counts half, and the hose's after-rise this much, s. */
const HAND_SHARE = 0.5;
const AFTER_S = 0.1;
/** The cue is sure when its interval is no wider than this, s, or this share of itself. */
const WIDE_S = 1.5;
const WIDE_SHARE = 0.6;

export function cueOf(s: GuardState, ctx: GuardContext): Bounded | null {
  const limits = ctx.limits;
  const m = s.motion;
  if (limits === null || !limits.cue || m === null || s.lastS === null) return null;
  if (m.rate - 2 * m.sd < LEAST_RATE || s.slowSince !== null) return null;
  const reach = learntReach(s) ?? HAND_SHARE * ctx.reaction.closeS + AFTER_S;
  // While air flows a tap before a hose reads too high: the packer is that much behind.
  const drop = ctx.tap === 'packer' ? 0 : (learntDrop(s) ?? 0);
  const target = limits.workingBar - m.rate * (reach - drop);
  const level = m.bar + m.rate * (s.lastS - m.midS);
  if (level > limits.workingBar + m.rate * drop) return null;
  const straight = (target - level) / m.rate;
  const b = s.belief;
  let value = straight;
  if (b !== null && b.reduced < 3) {
    // A regulator that ends at or under the working pressure needs no hand.
    if (b.high < limits.workingBar + 0.02) return null;
    if (b.low > target) value = Math.max(straight, timeToReach(b.fit, s.lastS, target + AIR_BAR));
  }
  if (!(value < FAR_S)) return null;
  value = Math.max(0, value);
  const doubt = 0.15 + 2 * (m.sd / m.rate) * value;
  const low = Math.max(0, Math.min(straight, value) - doubt);
  const high = value + doubt + 0.1 * value;
  return high - low > Math.max(WIDE_S, WIDE_SHARE * value) ? null : { value, low, high };
}
