/**
 * The last moment before the ceiling: it is passed within a few samples unless the rise is at its end. A line that slows
 * down has no other alarm before the ceiling's own, and on a quick line that one comes when rated is passed, too.
 */

import { lastS } from './edge.ts';
import type { GuardContext, GuardState } from './types.ts';

/** A slowing is seen so long after its beginning, s: half of the window of a slope and a sample. */
const SEEN_S = 0.2;

/** Rise still to come of what slows down at the pace that it has shown, bar; Infinity where nothing slows. */
function restOfStop(s: GuardState): number {
  const m = s.motion;
  if (m === null || s.slowSince === null || m.rate >= m.before) return Number.POSITIVE_INFINITY;
  const deceleration = (m.before - m.rate) / (m.atS - s.slowSince + SEEN_S);
  return (m.rate * m.rate) / (2 * deceleration);
}

/** null: no; else seconds to the ceiling at the present slope. */
export function lastMoment(s: GuardState, ctx: GuardContext, level: number): number | null {
  const m = s.motion;
  const limits = ctx.limits;
  if (limits === null || m === null || m.rate - 2.5 * m.sd <= 0.0015) return null;
  const left = limits.ceilingBar - level;
  const inS = left / m.rate;
  if (inS > lastS(s)) return null;
  return restOfStop(s) < left ? null : inS;
}
