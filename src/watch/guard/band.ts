/**
 * Has the pressure left the working band upwards, without slowing? A hand that shuts the valve at the working
 * pressure still lets it rise by v · (time to close) and by what the hose has stored; earlier stops of the same
 * fill show how much. An open supply under a hand and one that is stuck open are the same signal until there.
 */

import { sampleSd } from './clean.ts';
import { bandEdge } from './edge.ts';
import { handStops, slowing } from './slowing.ts';
import type { GuardContext, GuardState } from './types.ts';

/** Forecasts kept, and how old the one must be that the present is held against, s. */
const FORECASTS = 24;
const CREEP_S = 2.4;

/** Remembers where the line was going to settle; a new stretch begins a new memory. */
export function followForecast(s: GuardState): void {
  const b = s.belief;
  if (b === null) {
    // A stretch that ended because the line rose over what was foreseen is remembered for a while: it may creep.
    const m = s.motion;
    while (s.forecasts.length > 0 && (m === null || m.atS - s.forecasts[0]!.atS > PASSED_S))
      s.forecasts.shift();
    return;
  }
  s.forecasts.push({ atS: b.atS, low: b.low, high: b.high });
  if (s.forecasts.length > FORECASTS) s.forecasts.shift();
}

/** The settling point moves up as fast as the pressure: the regulator creeps. */
function creeping(s: GuardState, ctx: GuardContext): boolean {
  const b = s.belief;
  const limits = ctx.limits;
  if (b === null || limits === null) return false;
  const least = Math.max(0.016, 0.08 * (limits.ceilingBar - limits.workingBar));
  for (let i = s.forecasts.length - 1; i >= 0; i--) {
    const f = s.forecasts[i]!;
    if (b.atS - f.atS >= CREEP_S) return b.low > f.high + least;
  }
  return false;
}

/** How long a forecast stands against the level, how long it must have stood, s, and how many of them must agree. */
const PASSED_S = 4;
const STOOD_S = 0.6;
const PASSED_TIMES = 3;
/** A forecast is held to its word when its interval is no wider than this share of the way from working to ceiling. */
const TIGHT = 0.4;

/** The level has passed where the line was sure to settle: what was to end does not. */
function passedForecast(s: GuardState, ctx: GuardContext, level: number): boolean {
  const m = s.motion;
  const limits = ctx.limits;
  if (m === null || limits === null) return false;
  const way = limits.ceilingBar - limits.workingBar;
  const margin = Math.max(0.008, 0.08 * way) + 1.5 * sampleSd(s.clean, s.stepBar);
  let times = 0;
  for (const f of s.forecasts) {
    const age = m.atS - f.atS;
    if (age >= STOOD_S && age <= PASSED_S && f.high - f.low < TIGHT * way && level > f.high + margin) times++;
  }
  return times >= PASSED_TIMES;
}

/** A line that lay still at the working pressure and rises again is not being filled. */
export function followRest(s: GuardState, ctx: GuardContext): void {
  const limits = ctx.limits;
  const m = s.motion;
  if (limits === null || m === null || !limits.cue) return;
  if (s.stillSince !== null && m.atS - s.stillSince > 2) {
    const over = m.bar > limits.workingBar - RESTED_BAR;
    s.rested = !over ? null : s.rested === null ? m.bar : Math.max(m.bar, s.rested - 0.001);
  } else if (m.bar < limits.workingBar - 3 * RESTED_BAR) s.rested = null;
}

/** So far under working a settled line still counts as at it, bar. */
const RESTED_BAR = 0.02;
/** And so far it must have risen from there before that counts alone, bar. */
const RISEN_BAR = 0.02;

/** Chi-square that rules out a settling near the present level. */
const NEAR_EXCESS = 9;
/** A slope over no more than this is of now, s. */
const WINDOW_S = 0.34;
/** Past this share of the way from working to ceiling, and so far, a rise is urgent wherever it may settle. */
const FAR_OVER = 0.3;
const FAR_LEAST_BAR = 0.04;
/** A jump by a hose's drop is over after this, s. */
const JUMP_S = 0.35;
/** Smallest slope worth an alarm: the ceiling then lies within about this many seconds. */
const FAR_S = 90;

/** null: no; else seconds to the ceiling at the present slope. */
export function leftBand(s: GuardState, ctx: GuardContext, level: number): number | null {
  const m = s.motion;
  const limits = ctx.limits;
  if (limits === null || m === null) return null;
  if (m.rate - 2.5 * m.sd <= 0.0015) return null;
  // A regulator that creeps slows too, down to its creep: only a hand is waited for then.
  const passed = passedForecast(s, ctx, level);
  if (passed ? handStops(s) : slowing(s)) return null;
  const inS = (limits.ceilingBar - level) / m.rate;
  if (inS > FAR_S) return null;
  const edge = bandEdge(s, ctx);
  if (edge === null || level < edge) {
    s.overSince = null;
    return null;
  }
  if (s.overSince === null) s.overSince = m.atS;
  // A slope that took long to know is old news: wait until it speaks of the time past the edge.
  if (m.atS - s.overSince < 0.8 * (2 * (m.atS - m.midS) - WINDOW_S)) return null;
  // Opening a valve before a hose lifts the reading at once by the hose's drop: wait for the slope after it.
  if (ctx.tap !== 'packer' && m.ago < 0.3 * m.rate && m.atS - s.overSince < JUMP_S) return null;
  // Does it settle under the ceiling by itself? Asked of the whole stretch, and of its last seconds.
  const b = s.belief;
  const r = s.recent;
  if (
    (r !== null && r.nearExcess > NEAR_EXCESS) ||
    (b !== null && b.reduced < 3 && b.nearExcess > NEAR_EXCESS)
  )
    return inS;
  if (passed || creeping(s, ctx)) return inS;
  if (
    s.rested !== null &&
    level > s.rested + RISEN_BAR + 3 * sampleSd(s.clean, s.stepBar) &&
    m.atS - s.overSince > 1
  )
    return inS;
  if (level > edge + Math.max(FAR_LEAST_BAR, FAR_OVER * (limits.ceilingBar - limits.workingBar))) return inS;
  if (inS >= ctx.reaction.handS) return null;
  if (r !== null) return r.bar < limits.ceilingBar && r.openExcess > 6 ? null : inS;
  return b !== null && b.bar < limits.ceilingBar && b.underExcess < 1 && b.openExcess > 6 ? null : inS;
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
