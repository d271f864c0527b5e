/**
 * The upper edge of the working band: how far the pressure may go on over the working pressure while a hand shuts the
 * valve. An open supply under a hand and one that is stuck open are the same signal until there.
 */

import { sampleSd } from './clean.ts';
import { learntReach } from './stop.ts';
import type { GuardContext, GuardState } from './types.ts';

/** After-rise of a stop as seconds of the slope before it, until stops of this fill have shown it. */
const AFTER_S = 0.1;
/** Share of the closing time that a closing valve still passes in full. */
const LATE_SHARE = 0.9;
/** Time from working pressure to the hand's first move, where the rest is learnt from stops, s. */
const NOTICE_S = 0.45;

/** Where more time than this is left to the ceiling a slower hand is waited for: by this share of it, and no more, s. */
const HURRY_S = 0.8;
const PATIENCE = 0.05;
const PATIENCE_S = 0.05;

/** So long after the closing time a hand that moves shows in the slope, s. */
const SIGN_S = 0.05;
/** The last moment: what is told later than so long before the ceiling may come after it, s and sample periods. */
const LAST_S = 0.15;
const LAST_PERIODS = 1.5;

/** Shortest time before the ceiling at which an alarm still comes before it, s. */
export function lastS(s: GuardState): number {
  return LAST_S + LAST_PERIODS * s.clean.period;
}

/** Seconds of slope that a stop at working pressure may still add. */
export function reachS(s: GuardState, ctx: GuardContext): number {
  const learnt = learntReach(s);
  // Sparse samples show a hand's stop later: one period more is waited for it.
  const sparse = Math.min(0.1, s.clean.period);
  const plain = ctx.reaction.closeS + (ctx.tap === 'packer' ? AFTER_S + sparse : 0.5 * AFTER_S);
  if (learnt === null) return plain;
  return Math.max(0.85 * plain, Math.min(plain + 1.2, NOTICE_S + 1.15 * learnt));
}

/** Upper edge of the working band for the present slope, bar; null where no working pressure is known. */
export function bandEdge(s: GuardState, ctx: GuardContext): number | null {
  const limits = ctx.limits;
  const m = s.motion;
  if (limits === null || !limits.cue || m === null) return null;
  const noise = 0.003 + sampleSd(s.clean, s.stepBar);
  const v = Math.max(0, m.rate, m.before);
  if (v === 0) return limits.workingBar + noise;
  const reach = reachS(s, ctx);
  const { closeS } = ctx.reaction;
  const wayS = (limits.ceilingBar - limits.workingBar) / v;
  const spare = Math.max(0, Math.min(PATIENCE_S, PATIENCE * (wayS - reach - HURRY_S)));
  // Past the point where a hand that moves now would be too late, waiting longer helps nobody; but where even a hand that
  // moved at the working pressure is hardly in time, the alarm cannot help it either, and a quick hand is still looked for.
  const lateS = Math.max(wayS - LATE_SHARE * closeS, Math.min(closeS + SIGN_S, wayS - lastS(s)));
  return limits.workingBar + Math.max(noise, Math.min(v * (reach + spare) + noise, v * lateS));
}
