import type { WatchEvent } from '../events.ts';
import { bar3, s1 } from '../round.ts';
import { isAtZero, zeroBelow } from '../signal/zero.ts';

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
  /** Level at which the line stood empty since air was let out, the lowest mean of a second, bar; null: it did not yet. */
  emptyBar: number | null;
  /** Begin of the last test that stayed at zero, µs; null: none did, or it was taken back. */
  stayedUs: number | null;
  /** The line that was empty holds air again, however slowly it came. */
  refilled: boolean;
}

/** How long the reading must stay at zero, s. */
export const REBOUND_S = 25;
/**
 * A line that was empty and stands so far over that level holds air, bar (common practice, no source): far over what noise
 * and hysteresis leave in the mean of a second, and no more than an eye takes for zero on a dial.
 */
const REFILLED_BAR = 0.05;
/** And so much warmer a sensor may grow in a long 'done' than it was when the line stood empty, K (a day's sun, common practice). */
const WARMER_K = 20;
/** So much of a lower mean is taken into the level of an empty line, each time. */
const LOWER = 0.1;
/** Rise over the start that is no noise, bar; two counts are added to it. */
const RISE_BAR = 0.01;

export function createRebound(): Rebound {
  return { test: null, cameBack: false, backBar: 0, emptyBar: null, stayedUs: null, refilled: false };
}

type Emit = (event: WatchEvent) => void;

/** Over this an emptied line holds air, bar; null: it was not seen empty. */
export function refilledOver(r: Rebound, warmthBarPerK: number): number | null {
  return r.emptyBar === null ? null : r.emptyBar + Math.max(REFILLED_BAR, WARMER_K * warmthBarPerK);
}

/**
 * The level while air is let out, and after. Air that seeps back has no slope that noise does not hide: its level tells it.
 * What was said of a test that had stayed at zero is taken back with it.
 * @param meanBar mean of the last second, bar
 * @param nowBar the reading, or the median of three where that is lower: a mean remembers for a second what is over
 * @param shut nothing is said to flow: the vent is shut, or the work over
 * @param warmthBarPerK what a kelvin of the sensor's own warmth moves it by
 */
export function reboundFollow(
  r: Rebound,
  meanBar: number,
  nowBar: number,
  uBar: number,
  shut: boolean,
  warmthBarPerK: number,
  tUs: number,
  emit: Emit,
): void {
  // Towards the lowest level by shares: one low mean among thousands is noise.
  if (isAtZero(meanBar, uBar))
    r.emptyBar = r.emptyBar === null ? meanBar : r.emptyBar + LOWER * Math.min(0, meanBar - r.emptyBar);
  const over = refilledOver(r, warmthBarPerK);
  const levelBar = Math.min(meanBar, nowBar);
  // It is told as soon as it is no noise; how far it comes back shows later.
  if (r.cameBack) r.backBar = Math.max(r.backBar, nowBar);
  if (over === null || !shut) r.refilled = false;
  else if (levelBar < over - REFILLED_BAR / 2) r.refilled = false;
  // A test that runs has its own, finer measure.
  else if (levelBar >= over && !r.refilled && !r.cameBack && r.test === null) {
    r.refilled = true;
    tell(tUs, 'came-back', meanBar, r.stayedUs === null ? 0 : (tUs - r.stayedUs) / 1e6, emit);
    r.stayedUs = null;
  }
}

/** Air is let in: whatever was seen of an empty line is over. */
export function reboundFilled(r: Rebound): void {
  r.cameBack = false;
  r.emptyBar = null;
  r.stayedUs = null;
  r.refilled = false;
}

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
  if (meanBar === null || !isAtZero(meanBar, uBar)) {
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
  if (rise > RISE_BAR + 2 * stepBar || meanBar > zeroBelow(uBar) + RISE_BAR) {
    r.test = null;
    r.cameBack = true;
    r.backBar = meanBar;
    tell(tUs, 'came-back', meanBar, seconds, emit);
  } else if (seconds >= REBOUND_S) {
    r.stayedUs = r.test.sinceUs;
    r.test = null;
    r.cameBack = false;
    tell(tUs, 'stayed', meanBar, seconds, emit);
  }
}
