/**
 * What a timed drop says. It is the difference of two readings of one sensor: zero and offset cancel, resolution, its own warmth, its
 * slope, noise and the air's temperature do not. Passed and failed are said only where the drop lies off the allowed one by more than
 * its uncertainty; in between nothing is said.
 */
import { U_SHARE } from '../../job/air-test.ts';
import type { AirTestVerdict } from '../codes.ts';
import { type Course, levelAt, levelSd } from './course.ts';

/**
 * Of the expanded uncertainty (k = 2), so that a drop at the limit is called right or wrong at most once in 200 (one-sided, normal;
 * the guard band of JCGM 106).
 */
export const GUARD = 1.3;
/** Air that no probe is in may have grown so much warmer or colder within the test, ±K (common practice, no source). */
const UNSEEN_K = 0.5;
/** A probe in it reads a change to this, and of the change of all the air so much, standard uncertainties, K and share (common practice, no source). */
const SEEN_K = 0.1;
const SEEN_SHARE = 0.3;
/** The weather moves the air pressure by so much in minutes, ±bar (common practice, no source). */
const WEATHER_BAR = 0.0001;
/** Rising by more than this share of the allowed drop is no tight pipe: warmth, or a supply that is not shut. */
const RISE_SHARE = 0.2;
const ZERO_C = 273.15;
const R3 = Math.sqrt(3);

export interface Drop {
  /** At constant temperature of the air where that was measured, bar; positive: fallen. */
  readonly dropBar: number;
  /** Expanded uncertainty (k = 2), bar. */
  readonly uBar: number;
  /** By how much the air grew warmer, K; null: no probe was in it. */
  readonly warmedK: number | null;
}

export interface DropContext {
  /** The sensor's own part, expanded (k = 2), bar. */
  readonly sensorUBar: number;
  /** Absolute pressure of the air in the pipe, bar. */
  readonly absoluteBar: number;
  /** Its temperature where no probe is in it, °C. */
  readonly aboutC: number;
}

/** The drop between two times; null: levels or their noise are not known. */
export function dropBetween(course: Course, fromS: number, toS: number, ctx: DropContext): Drop | null {
  const start = levelAt(course, fromS);
  const end = levelAt(course, toS);
  const sd = levelSd(course, fromS);
  if (start === null || end === null || sd === null) return null;
  const isSeen = start.c !== null && end.c !== null;
  const warmedK = isSeen ? end.c! - start.c! : null;
  const perK = ctx.absoluteBar / (ZERO_C + (start.c ?? ctx.aboutC));
  const uK = warmedK === null ? UNSEEN_K / R3 : Math.hypot(SEEN_K, SEEN_SHARE * warmedK);
  return {
    dropBar: start.bar - end.bar + perK * (warmedK ?? 0),
    uBar: 2 * Math.hypot(ctx.sensorUBar / 2, Math.SQRT2 * sd, perK * uK, WEATHER_BAR / R3),
    warmedK,
  };
}

export interface Judged {
  readonly verdict: AirTestVerdict;
  readonly reason: 'near' | 'rose' | null;
}

export function judgeDrop({ dropBar, uBar }: Drop, allowedBar: number): Judged {
  const most = GUARD * uBar;
  if (dropBar - most > allowedBar) return { verdict: 'failed', reason: null };
  if (dropBar < -Math.max(most, RISE_SHARE * allowedBar)) return { verdict: 'cannot-say', reason: 'rose' };
  return dropBar + most <= allowedBar
    ? { verdict: 'passed', reason: null }
    : { verdict: 'cannot-say', reason: 'near' };
}

/** The sensor can tell the allowed drop: its own part of the uncertainty is at most a tenth of it. */
export const isFineEnough = (sensorUBar: number, allowedBar: number): boolean =>
  sensorUBar <= U_SHARE * allowedBar;
