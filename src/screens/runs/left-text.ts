import { clockTime, type DisplayUnits, dateTime, pressure } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import type { PackerLeft } from '../packers-left.ts';

/** A line that reads this or less is at zero for the eye, bar. */
const ZERO_BAR = 0.05;
/** Older than this its day is named too, ms. */
const TODAY_MS = 12 * 3_600_000;

/** What was last seen of a packer that nobody saw empty, in one sentence. */
export function leftText({ bar, utcMs }: PackerLeft, units: DisplayUnits, nowMs = Date.now()): string {
  if (bar === null || utcMs === null) return JOBS.maybeFull;
  const when = Math.abs(nowMs - utcMs) < TODAY_MS ? clockTime(utcMs) : dateTime(utcMs);
  return bar > ZERO_BAR
    ? JOBS.maybeFullAt(pressure(bar, units), when)
    : JOBS.notSeenEmpty(pressure(Math.max(0, bar), units), when);
}
