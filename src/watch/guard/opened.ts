/**
 * A supply valve that was said to be shut lets air in: in a hold, or behind a vent. Nothing else makes such a rise. The air
 * of a closed packer follows its warmth, p/T or 12 mbar/K at 2.5 bar: an exotherm of 5 K a minute, which is steep, makes
 * 1 mbar/s of it, the sun less. So neither the ceiling nor a forecast is waited for.
 */

import { isDown } from '../stages/stages.ts';
import { sampleSd } from './clean.ts';
import { airComesIn } from './inflow.ts';
import type { GuardContext, GuardState } from './types.ts';

/** Slope that the rise has for certain, bar/s: eighty times what warmth makes; a top-up by a slow hand stays under it. */
const RATE = 0.08;
const SURE = 2.5;
/** And so far it has gone, bar, or so many standard deviations of a reading. */
const RISEN_BAR = 0.05;
const RISEN_SD = 6;
/** A fill that was still ending when the hold began has ended by then, s. */
const HAND_S = 2;
/** A rise is known for one so much later than it begins, s. */
const LATE_S = 0.5;
/** Before a hose the reading jumps back when a vent is shut: it had fallen by more than this within so long, bar and s. */
const FALLEN_BAR = 0.03;
const FALLEN_S = 10;
/** The rise is one of the last moments, s. */
const GOES_ON_S = 0.5;

/** Was air let out shortly before the rise? */
function fellBefore(s: GuardState, sinceS: number, fromBar: number): boolean {
  const { t, p } = s.long;
  for (let i = t.length - 1; i >= 0 && t[i]! >= sinceS - FALLEN_S; i--)
    if (t[i]! < sinceS && p[i]! > fromBar + FALLEN_BAR) return true;
  return false;
}

/** The slope's own window may still hold a rise that is over: what the last half second itself has risen by. */
function goesOn(s: GuardState, atS: number, level: number): boolean {
  const { t, p } = s.long;
  for (let i = t.length - 1; i >= 0; i--)
    if (t[i]! <= atS - GOES_ON_S) return level - p[i]! >= RATE * GOES_ON_S;
  return false;
}

/** Is no air to come in now, as far as the crew has said? */
function saidShut(s: GuardState, ctx: GuardContext, level: number): boolean {
  // Behind a hose a vent that is shut makes the same jump, and from the full packer's pressure it may be a long one.
  if (isDown(ctx.stage)) return ctx.tap === 'packer';
  const holdS = ctx.holdS ?? null;
  if (holdS === null || ctx.stage !== 'hold') return false;
  // A line that is supplied is not shut.
  if (ctx.line !== 'closed' && ctx.line !== 'unknown') return false;
  const begunS = (s.motion?.atS ?? 0) - (s.inflow?.sinceS ?? 0);
  if (holdS < HAND_S && begunS > holdS - LATE_S) return false;
  // What an alarm asks for is no fault, up to the working pressure.
  return !(ctx.topUpAsked === true && ctx.limits !== null && level < ctx.limits.workingBar);
}

/** Air comes in fast through a valve that was said to be shut. */
export function valveOpened(s: GuardState, ctx: GuardContext, level: number): boolean {
  const m = s.motion;
  if (m === null || s.inflow === null || m.rate - SURE * m.sd < RATE) return false;
  if (level - s.inflow.fromBar < Math.max(RISEN_BAR, RISEN_SD * sampleSd(s.clean, s.stepBar))) return false;
  if (!saidShut(s, ctx, level)) return false;
  if (!goesOn(s, m.atS, level)) return false;
  const vented = ctx.tap !== 'packer' && fellBefore(s, s.inflow.sinceS, s.inflow.fromBar);
  return !vented || airComesIn(s);
}
