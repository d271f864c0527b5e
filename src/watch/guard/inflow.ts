/**
 * Does air come in, whatever was announced? A vent that was said open and a packer that was said down make the guard
 * quiet, since behind a hose the reading jumps when a vent is shut. A rise that goes on contradicts the words.
 */

import { isDown } from '../stages/stages.ts';
import type { GuardContext, GuardState } from './types.ts';

/** A rise begins where its slope is so many standard deviations over the least one, and ends under so many, bar/s. */
const BEGINS = 4;
const ENDS = 2;
const LEAST_RATE = 0.0015;
/** It goes on when it has lasted so long and gone so far: a hose has evened out by then, s and bar. */
const LASTS_S = 1.5;
const RISEN_BAR = 0.05;

export function followInflow(s: GuardState): void {
  const m = s.motion;
  if (m === null || m.rate - ENDS * m.sd <= LEAST_RATE) s.inflow = null;
  else if (s.inflow === null && m.rate - BEGINS * m.sd > LEAST_RATE)
    s.inflow = { sinceS: m.atS, fromBar: m.bar };
}

/** Air comes in and goes on coming. */
export function airComesIn(s: GuardState): boolean {
  const m = s.motion;
  if (m === null || s.inflow === null) return false;
  return m.atS - s.inflow.sinceS >= LASTS_S && m.bar - s.inflow.fromBar >= RISEN_BAR;
}

/** The crew has said that air goes out and none comes in, and nothing contradicts it. */
export function saidDown(s: GuardState, ctx: GuardContext): boolean {
  return (ctx.ventOpen || isDown(ctx.stage)) && !airComesIn(s);
}
