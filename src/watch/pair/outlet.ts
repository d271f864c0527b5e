/**
 * What the regulator's outlet shows. Before the supply valve is opened it stands at the regulator's closed-end pressure: over the
 * ceiling it is told before any air is let in. While air flows it lies under that (droop), so whatever is over it then is a
 * regulator that has moved, and it shows there while the packer is still low. Plain data.
 */
import type { Limits } from '../../job/setup.ts';
import { HOLD_BEGINS } from '../codes.ts';
import { type Course, courseAdd, courseLine, courseMean, createCourse } from '../supply/course.ts';
import { movedFromBar } from '../supply/moved-from.ts';

export interface Outlet {
  course: Course;
  /** Level at which it stood before the fill, with its reading's U then, bar; null: it was not seen to stand. */
  stood: { readonly bar: number; readonly uBar: number } | null;
  /** It has stood under the ceiling in this run. */
  stoodUnder: boolean;
}

export const createOutlet = (): Outlet => ({ course: createCourse(), stood: null, stoodUnder: false });

/** It stands where its means over so long climb and fall by no more than this, s and bar/s. */
const STANDS_S = 3;
const STANDS_BAR_S = 0.003;
/** A supply that stands under this share of the working pressure is not set yet. */
const SET_SHARE = 0.25;

/**
 * Highest level of the outlet that may be let onto the packer, bar: rated less the uncertainty of this reading, as the ceiling is for
 * the packer's own; rated itself where working at it was chosen with a reason.
 */
export const outletCeiling = (limits: Limits, uBar: number): number =>
  limits.noMargin === null ? limits.ratedBar - uBar : limits.ratedBar;

export interface OutletContext {
  readonly limits: Limits | null;
  readonly uBar: number;
  /** No air is let in: where it stands now it was set to. */
  readonly preparing: boolean;
  /** The packer's pressure does not move. */
  readonly still: boolean;
}

/** Takes a median. Gives the level at which it stands, where that is news; null: it does not, or it is known. */
export function outletReading(o: Outlet, tS: number, bar: number, ctx: OutletContext): number | null {
  if (!courseAdd(o.course, tS, bar) || ctx.limits === null) return null;
  const line = courseLine(o.course, STANDS_S);
  const level = courseMean(o.course, STANDS_S);
  if (line === null || level === null || Math.abs(line.slope) > STANDS_BAR_S) return null;
  const { workingBar } = ctx.limits;
  const under = level < outletCeiling(ctx.limits, ctx.uBar);
  // What droops under it while air flows has not stood there.
  if (under && ctx.still && level > SET_SHARE * workingBar) o.stoodUnder = true;
  // Once air was let in it is never raised: what creeps would carry it along. Under the working pressure a hand has to turn it up.
  const takes = ctx.still && (ctx.preparing || o.stood === null);
  if (!takes) return null;
  if (!under || level < HOLD_BEGINS.share * workingBar) {
    if (ctx.preparing) o.stood = null;
    return null;
  }
  const news = o.stood === null || Math.abs(level - o.stood.bar) > NEWS_BAR;
  o.stood = { bar: level, uBar: ctx.uBar };
  return news ? level : null;
}

/** A level of the outlet that is told anew, bar. */
const NEWS_BAR = 0.02;

/** Readings are missing: what stood, stood. */
export function outletBreak(o: Outlet): void {
  o.course = createCourse();
}

export function outletZeroed(o: Outlet, offsetBar: number): void {
  o.course = createCourse();
  if (o.stood !== null) o.stood = { ...o.stood, bar: o.stood.bar - offsetBar };
}

/** Somebody has turned the regulator. */
export function outletTurned(o: Outlet): void {
  o.course = createCourse();
  o.stood = null;
  o.stoodUnder = false;
}

/** By how much the outlet is over where it stood before the fill, and what that is known to, bar; null: it was not seen to stand. */
export function outletMovedBy(o: Outlet, bar: number): number | null {
  if (o.stood === null) return null;
  const at = { value: o.stood.bar, low: o.stood.bar, high: o.stood.bar };
  return bar - movedFromBar({ lockUp: at, uBar: o.stood.uBar });
}
