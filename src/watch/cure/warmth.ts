import type { Bounded } from '../events.ts';
import type { CureState } from './cure.ts';
import { course } from './forecast.ts';
import { sketchesOf } from './sketches.ts';

/** Hottest resin within the hour to come, °C, and when, s from now: likely, and between the cool and the hot sketch. */
export interface Warmth {
  readonly peakC: Bounded;
  readonly peakInS: Bounded;
}

const AHEAD_S = 3600;

/**
 * What the cure's sketches say of the warmth still to come, for the hold. Made anew from the state each time it is asked
 * (some milliseconds), so that it does not depend on who looked before. null without a sheet, and without a probe that
 * steers the model: from the ground alone a sketch does not know where in its course the resin is.
 */
export function cureWarmth(s: CureState): Warmth | null {
  const { fit, now } = s;
  const { watched, pipe, groundC, exotherm, heating, progress, low } = s;
  // Of what a heater does to the packer's air the resin's sketches know nothing.
  if (heating !== 'none') return null;
  if (s.ended || fit === null || now === null || watched.length === 0) return null;
  const input = { fit, now, watched, pipe, groundC, exotherm, heating, progress, low };
  const [likely, hot, cool] = sketchesOf(exotherm, fit).map((sketch) => course(input, sketch, AHEAD_S));
  const bounded = (of: (one: NonNullable<typeof likely>) => number): Bounded => {
    const all = [of(likely!), of(hot!), of(cool!)];
    return { value: all[0]!, low: Math.min(...all), high: Math.max(...all) };
  };
  return { peakC: bounded((c) => c.peakC), peakInS: bounded((c) => c.peakInS) };
}
