import type { Setup } from '../../job/setup.ts';
import { FLAG, type TemperatureReading } from '../../sensing/reading.ts';

/**
 * What speaks against a probe though it gives a number. A count of time at temperature that goes by such a number is one of a
 * temperature that nobody has measured, and it ends too early.
 */
export type ProbeDoubt =
  | 'stands-still' // the same counts for minutes where noise was seen before: an old value, sent again and again
  | 'leapt' // warmer at once as no pipe becomes: a converter's value after its own start, a plug, a probe pulled out
  | 'over-ground'; // a ground far warmer than the job sheet's: it lies in the sun or in the hand

/** Plain data, for one probe. */
export interface DoubtState {
  /** Since when its counts have stood still, µs; null: they move. */
  stillUs: number | null;
  /** Warmest that was believed lately, °C, and when the newest value came, µs; null: none yet. */
  warmC: number | null;
  seenUs: number;
  /** What it read before it leapt, °C; null: it did not, or is back. */
  leaptFromC: number | null;
  overGround: boolean;
}

export const createDoubt = (): DoubtState => ({
  stillUs: null,
  warmC: null,
  seenUs: 0,
  leaptFromC: null,
  overGround: false,
});

/**
 * So long a coarse converter may give one count at rest though it scattered before (a compressor that was switched off), µs
 * (common practice, no source). What was counted until then is five minutes at most.
 */
const STILL_US = 300e6;
/**
 * Nothing on a sleeve, a pipe or in the ground warms by more than this from one value to the next, K and K/s: the strongest reaction and
 * steam behind the packer's wall make some K a minute (common practice, no source).
 */
const LEAP_K = 5;
const LEAP_K_S = 1;
/** A longer way between two values counts as this, s, and over that one nothing is known of what was between. */
const GAP_S = 10;
const UNKNOWN_S = 60;
/** A plug that rattles shows the old warmth again after a colder moment: so slowly it is forgotten, K/s. */
const FADE_K_S = 0.01;

/** Over the job sheet's ground with both uncertainties by more than this, K: as two places contradict each other (sensing/plausibility.ts). */
const OVER_GROUND_K = 8;

/** The air in the packer warms at once by each filling, and a cup is put from hand to hand. */
const LEAPS: Readonly<Partial<Record<string, true>>> = { sleeve: true, pipe: true, ground: true };

/** What is known of the work beside the probe. */
export interface DoubtContext {
  /** The sleeve is at its place: no hand moves its probes. */
  readonly isUp: boolean;
  readonly ground: Setup['ground'];
}

/** Takes a value that was converted anew. */
export function doubtValue(d: DoubtState, temp: TemperatureReading, ctx: DoubtContext, tUs: number): void {
  if ((temp.flags & FLAG.stuck) === 0) d.stillUs = null;
  else d.stillUs ??= tUs;
  const { c } = temp;
  if (c === null) return;
  d.overGround = isOverGround(temp, c, ctx.ground);
  const passedS = (tUs - d.seenUs) / 1e6;
  d.seenUs = tUs;
  if (ctx.isUp && temp.place !== null && LEAPS[temp.place] === true) followLeap(d, c, passedS);
  else {
    d.leaptFromC = null;
    d.warmC = c;
  }
}

/** One that is colder than the sheet's ground is believed: it earns less. */
function isOverGround({ place, uC }: TemperatureReading, c: number, ground: Setup['ground']): boolean {
  return place === 'ground' && ground !== null && c - uC > ground.c + ground.uC + OVER_GROUND_K;
}

function followLeap(d: DoubtState, c: number, passedS: number): void {
  // A leap outlasts a gap; what came over one slowly is none.
  if (d.leaptFromC !== null && c > d.leaptFromC + LEAP_K) return;
  d.leaptFromC = null;
  if (d.warmC === null || passedS > UNKNOWN_S) d.warmC = c;
  else if (c > d.warmC + LEAP_K + LEAP_K_S * Math.min(passedS, GAP_S)) d.leaptFromC = d.warmC;
  else d.warmC = Math.max(c, d.warmC - FADE_K_S * passedS);
}

/** It was compared with a thermometer: what it reads is so. */
export function doubtSettled(d: DoubtState): void {
  d.leaptFromC = null;
  d.warmC = null;
}

/** null: nothing speaks against it. */
export function doubtOf(d: DoubtState, tUs: number): ProbeDoubt | null {
  if (d.leaptFromC !== null) return 'leapt';
  if (d.stillUs !== null && tUs - d.stillUs >= STILL_US) return 'stands-still';
  return d.overGround ? 'over-ground' : null;
}
