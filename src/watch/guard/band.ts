/**
 * Has the pressure left the working band upwards, without slowing? A hand that shuts the valve at the working
 * pressure still lets it rise by v · (time to close) and by what the hose has stored; earlier stops of the same
 * fill show how much. An open supply under a hand and one that is stuck open are the same signal until there.
 */

import { sampleSd } from './clean.ts';
import type { GuardContext, GuardState } from './state.ts';

/** After-rise of a stop as seconds of the slope before it, until stops of this fill have shown it. */
const AFTER_S = 0.2;
/** Time from working pressure to the hand's first move, where the rest is learnt from stops, s. */
const NOTICE_S = 0.35;

/** Seconds of slope that a stop at working pressure may still add. */
export function reachS(s: GuardState, ctx: GuardContext): number {
  let learnt = 0;
  for (const stop of s.stops) learnt = Math.max(learnt, stop.reachS);
  const plain = ctx.reaction.closeS + (ctx.tap === 'packer' ? AFTER_S : 0.5 * AFTER_S);
  if (s.stops.length === 0) return plain;
  return Math.max(0.7 * plain, Math.min(plain + 1.2, NOTICE_S + 1.15 * learnt));
}

/** Upper edge of the working band for the present slope, bar; null where no working pressure is known. */
export function bandEdge(s: GuardState, ctx: GuardContext): number | null {
  const limits = ctx.limits;
  const m = s.motion;
  if (limits === null || !limits.cue || m === null) return null;
  const v = Math.max(0, m.rate, Math.min(m.before, 1.5 * m.rate));
  return limits.workingBar + v * reachS(s, ctx) + 0.004 + 2 * sampleSd(s.clean, s.stepBar);
}

/** Is the rise slower than before by more than noise explains? Then a hand, or the end of the fill, may be at work. */
export function slowing(s: GuardState): boolean {
  const m = s.motion;
  if (m === null) return true;
  return m.rate < 0.78 * m.before - 1.5 * m.sd;
}

/** Smallest slope worth an alarm: the ceiling then lies within about this many seconds. */
const FAR_S = 90;

/** null: no; else seconds to the ceiling at the present slope. */
export function leftBand(s: GuardState, ctx: GuardContext, level: number): number | null {
  const m = s.motion;
  const limits = ctx.limits;
  if (limits === null || m === null) return null;
  if (m.rate - 2.5 * m.sd <= 0.0015 || slowing(s)) return null;
  const inS = (limits.ceilingBar - level) / m.rate;
  if (inS > FAR_S) return null;
  const edge = bandEdge(s, ctx);
  if (edge === null) return null;
  if (level < edge) return null;
  const b = s.belief;
  // Near the ceiling the slope alone decides; further off the bank must rule out that it settles under it.
  const settlesUnder = b !== null && b.bar < limits.ceilingBar && b.underExcess < 1;
  if (inS < ctx.reaction.handS) {
    if (settlesUnder && b.openExcess > 6) return null;
    return inS;
  }
  return b !== null && b.underExcess > 9 ? inS : null;
}

/** Without a working pressure there is no band: within a hand's reach of the ceiling, and near it, is what is left. */
export function handTime(s: GuardState, ctx: GuardContext, level: number): number | null {
  const m = s.motion;
  const limits = ctx.limits;
  if (limits === null || m === null || limits.cue) return null;
  if (m.rate - 2.5 * m.sd <= 0.0015 || slowing(s)) return null;
  if (level < 0.9 * limits.ceilingBar) return null;
  const inS = (limits.ceilingBar - level) / m.rate;
  if (inS > ctx.reaction.handS) return null;
  const b = s.belief;
  if (b !== null && b.bar < limits.ceilingBar && b.underExcess < 1 && b.openExcess > 6) return null;
  return inS;
}
