/**
 * Too fast: at the slope of now a hand that shuts the valve at the working pressure is late, the pressure goes on past the
 * ceiling. Advice to throttle, early in the fill, while there is time to: no alarm, and nothing once the working
 * pressure is reached, where only shutting helps.
 */

import { reachS } from './edge.ts';
import type { GuardContext, GuardState } from './types.ts';

/** Advice begins where a hand is late by this, and ends where it is in time by that share of the way, bar and 1. */
const LATE_BAR = 0.02;
const EASE = 0.1;
/** A slope must be known to be spoken of: so many of its standard deviations. */
const KNOWN_SD = 5;
/**
 * So long it must have been so: a valve that is just opened makes slopes that are not the fill's, s. Before a hose the
 * reading jumps by the hose's drop as the flow begins, and a window of slopes that holds the jump is as long.
 */
const AGREE_S = 0.15;
const JUMP_S = 0.6;

/** Slope at which a hand is just in time, bar/s. */
export function mostRate(s: GuardState, ctx: GuardContext): number | null {
  const limits = ctx.limits;
  if (limits === null || !limits.cue) return null;
  return (limits.ceilingBar - limits.workingBar) / reachS(s, ctx);
}

/** Follows the slope; sets `s.tooFast`. */
export function followTooFast(s: GuardState, ctx: GuardContext, level: number): void {
  const lateBar = lateOf(s, ctx, level);
  const m = s.motion;
  if (lateBar === null || m === null) {
    s.fastSince = null;
    s.tooFast = null;
    return;
  }
  s.fastSince ??= m.atS;
  if (m.atS - s.fastSince < (ctx.tap === 'packer' ? AGREE_S : JUMP_S)) return;
  s.tooFast = { lateBar: Math.max(0, lateBar), rateBarPerS: m.rate, mostBarPerS: mostRate(s, ctx) ?? 0 };
}

/** How far past the ceiling a hand would stop it, bar; null where there is nothing to say. */
function lateOf(s: GuardState, ctx: GuardContext, level: number): number | null {
  const limits = ctx.limits;
  const m = s.motion;
  const most = mostRate(s, ctx);
  if (limits === null || m === null || most === null || m.rate < KNOWN_SD * m.sd) return null;
  if (level >= limits.workingBar) return null;
  // What slows down already (a hand, a hose that has filled) is not spoken to; what was is heard until it is slow.
  if (s.tooFast === null && s.slowSince !== null) return null;
  // A regulator that is known to end the fill under the ceiling needs no hand.
  const b = s.belief;
  if (b !== null && b.reduced < 3 && b.high < limits.ceilingBar) return null;
  const lateBar = (m.rate - m.sd - most) * reachS(s, ctx);
  const stays = s.tooFast !== null && lateBar > -EASE * (limits.ceilingBar - limits.workingBar);
  return stays || lateBar >= LATE_BAR ? lateBar : null;
}
