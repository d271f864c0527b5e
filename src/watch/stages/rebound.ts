import type { WatchEvent } from '../events.ts';
import { bar3, s1 } from '../round.ts';

/**
 * A line at zero is not an empty packer: a thin hose vents long before the packer does. So the vent is closed
 * and the reading must stay at zero. The test can fail or not fail; it never says that it is safe to pull.
 */
export interface Rebound {
  test: { sinceUs: number; startBar: number } | null;
  /** The pressure came back, and no later test has stayed at zero. */
  cameBack: boolean;
  /** Highest reading of the test that came back, and since then, bar. */
  backBar: number;
  /** The line has stood at zero since air was let out: what comes after comes back. */
  emptied: boolean;
}

/** How long the reading must stay at zero, s. */
export const REBOUND_S = 25;
/** Line counts as at zero up to this or its U, whichever is larger, bar. */
const ZERO_BAR = 0.02;
/** Rise over the start that is no noise, bar; two counts are added to it. */
const RISE_BAR = 0.01;

export function createRebound(): Rebound {
  return { test: null, cameBack: false, backBar: 0, emptied: false };
}

const atZero = (bar: number, uBar: number): boolean => Math.abs(bar) <= Math.max(ZERO_BAR, uBar);

/** A reading while air is let out. */
export function reboundFollow(r: Rebound, medianBar: number, uBar: number): void {
  if (atZero(medianBar, uBar)) r.emptied = true;
  // It is told as soon as it is no noise; how far it comes back shows later.
  if (r.cameBack) r.backBar = Math.max(r.backBar, medianBar);
}

/** Air is let in: whatever was seen of an empty line is over. */
export function reboundFilled(r: Rebound): void {
  r.cameBack = false;
  r.emptied = false;
}

type Emit = (event: WatchEvent) => void;

function tell(
  tUs: number,
  what: 'started' | 'stayed' | 'came-back' | 'broken-off',
  bar: number | null,
  seconds: number,
  emit: Emit,
): void {
  emit({ tUs, e: 'rebound', what, bar: bar === null ? null : bar3(bar), seconds: s1(seconds) });
}

/** The vent was closed: the test begins if the line is at zero, else it is broken off at once. */
export function reboundStart(
  r: Rebound,
  meanBar: number | null,
  uBar: number,
  tUs: number,
  emit: Emit,
): void {
  if (r.test !== null) return;
  if (meanBar === null || !atZero(meanBar, uBar)) {
    tell(tUs, 'broken-off', meanBar, 0, emit);
    return;
  }
  r.test = { sinceUs: tUs, startBar: meanBar };
  tell(tUs, 'started', meanBar, 0, emit);
}

/** Vent opened, another stage, or no reading: no verdict. */
export function reboundBreak(r: Rebound, tUs: number, emit: Emit): void {
  if (r.test === null) return;
  const seconds = (tUs - r.test.sinceUs) / 1e6;
  r.test = null;
  tell(tUs, 'broken-off', null, seconds, emit);
}

/** Goes on with the test; meanBar is the mean of the last second. */
export function reboundStep(
  r: Rebound,
  meanBar: number,
  uBar: number,
  stepBar: number,
  tUs: number,
  emit: Emit,
): void {
  if (r.test === null) return;
  const seconds = (tUs - r.test.sinceUs) / 1e6;
  const rise = meanBar - r.test.startBar;
  if (rise > RISE_BAR + 2 * stepBar || meanBar > Math.max(ZERO_BAR, uBar) + RISE_BAR) {
    r.test = null;
    r.cameBack = true;
    r.backBar = meanBar;
    tell(tUs, 'came-back', meanBar, seconds, emit);
  } else if (seconds >= REBOUND_S) {
    r.test = null;
    r.cameBack = false;
    tell(tUs, 'stayed', meanBar, seconds, emit);
  }
}
