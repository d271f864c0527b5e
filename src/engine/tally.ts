import type { SensorCheck } from '../job/sensor-check.ts';
import type { Setup } from '../job/setup.ts';
import { takeCheck } from '../record/sensor-checks.ts';
import type { RunSummary } from '../record/types.ts';
import { FLAG, type Reading } from '../sensing/reading.ts';
import type { Stage } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';

/** The figures of a run that its line in the list shows, counted as the run goes. */
export interface Tally {
  firstUs: number | null;
  lastUs: number;
  readings: number;
  peakBar: number | null;
  gaps: number;
  alarms: number;
  sensorChecks: SensorCheck[];
  /** The last pressure that could be trusted, bar and run clock. */
  last: { bar: number; tUs: number } | null;
  /** The packer is in a stage in which air is in it, or may be. */
  up: boolean;
  /** The supply is being proved behind a closed end, or a pipe tested between plugs: what the line reads is in no packer. */
  proving: boolean;
  /** From when on the run clock it may hold air that nothing has shown to be gone; null: it holds none. */
  pressedUs: number | null;
  /** What showed last that it holds none: the run's own vent test, or somebody's word, and when on the run clock. */
  proof: { how: 'said' | 'vent'; tUs: number } | null;
  /** The line read this when it was said to hold no air, or has fallen to it since, bar: only what is above it counts. */
  restBar: number;
}

export const createTally = (): Tally => ({
  firstUs: null,
  lastUs: 0,
  readings: 0,
  peakBar: null,
  gaps: 0,
  alarms: 0,
  sensorChecks: [],
  last: null,
  up: false,
  proving: false,
  pressedUs: null,
  proof: null,
  restBar: 0,
});

export function tallyReading(tally: Tally, reading: Reading): void {
  tally.firstUs ??= reading.tUs;
  tally.lastUs = reading.tUs;
  tally.readings++;
  const { bar, flags, tUs } = reading;
  if (bar === null || (flags & DOUBTFUL) !== 0) return;
  tally.peakBar = Math.max(tally.peakBar ?? bar, bar);
  tally.last = { bar, tUs };
  tally.restBar = Math.max(0, Math.min(tally.restBar, bar));
  if (!tally.proving && bar > Math.max(tally.restBar + PRESSED_BAR, reading.uBar)) tally.pressedUs ??= tUs;
}

/** From here on a line is under pressure, bar; more where the reading itself is less sure (common practice, no source). */
const PRESSED_BAR = 0.1;

/** From the seating on air is let in, whether or not a reading shows it; until the end of the let-down it is not out. */
const UP: Readonly<Record<Stage, boolean>> = {
  prepare: false,
  seat: true,
  inflate: true,
  hold: true,
  'let-down': true,
  done: false,
  'air-test': false,
  abandoned: false,
};

/** A rise that was asked about may be a packer's. */
const PROVING: Readonly<Partial<Record<Extract<WatchEvent, { e: 'supply' }>['what'], boolean>>> = {
  begun: true,
  asked: false,
  proved: false,
  'broken-off': false,
  vented: false,
};

/** The vent's test stayed at zero, where the sensor sees the packer. A zero is none: a shut valve or coupling reads so too. */
const isVentProof = (event: WatchEvent, setup: Setup | null): boolean =>
  event.e === 'rebound' && event.what === 'stayed' && (setup?.tap === 'packer' || setup?.tap === 'hose');

function press(tally: Tally, tUs: number): void {
  tally.pressedUs ??= tUs;
  tally.restBar = 0;
}

/** Ends of a proof after which what stands in the line is known to be in the hose: what comes on top of it may be in a packer. */
const leavesHose = ({ what, reason }: Extract<WatchEvent, { e: 'supply' }>): boolean =>
  what === 'proved' || (what === 'broken-off' && (reason === 'stopped' || reason === 'end-leaks'));

function tallySupply(tally: Tally, event: Extract<WatchEvent, { e: 'supply' }>): void {
  if (tally.proving && leavesHose(event)) tally.restBar = Math.max(0, tally.last?.bar ?? 0);
  tally.proving = PROVING[event.what] ?? tally.proving;
}

/** @param setup in force at the event */
export function tallyEvent(tally: Tally, event: WatchEvent, setup: Setup | null): void {
  takeCheck(tally.sensorChecks, event, setup);
  if (isVentProof(event, setup)) {
    tally.proof = { how: 'vent', tUs: event.tUs };
    tally.pressedUs = null;
    tally.restBar = 0;
  }
  if (event.e === 'rebound' && event.what === 'came-back') press(tally, event.tUs);
  // The dial gauge shows air that the reading does not.
  if (event.e === 'gauge' && event.agrees === false && event.gaugeBar > PRESSED_BAR && !tally.proving)
    press(tally, event.tUs);
  if (event.e === 'supply') tallySupply(tally, event);
  if (event.e === 'stage') {
    // Between plugs no packer holds it.
    tally.proving = event.stage === 'air-test';
    tally.up = UP[event.stage];
    if (tally.up) press(tally, event.tUs);
  }
  if (event.e === 'gap') tally.gaps++;
  if (event.e === 'alarm' && event.to === 'unacknowledged' && event.why === 'condition') tally.alarms++;
}

/**
 * Somebody has seen the packer empty. It stands against what the line reads, until that rises; in a stage that lets air in it
 * holds for nothing that comes after.
 * @param bar the newest reading that the word stands against; null: none
 */
export function tallySaidEmpty(tally: Tally, tUs: number, bar: number | null): void {
  if (tally.up) return;
  tally.proof = { how: 'said', tUs };
  tally.pressedUs = null;
  tally.restBar = Math.max(0, bar ?? 0);
}

/**
 * What is known of a run's packer when its run has ended, on the clock of what is fed after it.
 * @param endUs the end on the run's own clock, where that clock begins
 */
export function tallyAfter({ last, pressedUs, restBar, proving }: Tally, endUs: number): Tally {
  return {
    ...createTally(),
    last: last === null ? null : { bar: last.bar, tUs: last.tUs - endUs },
    pressedUs: pressedUs === null ? null : pressedUs - endUs,
    // What stands in a hose whose supply was being proved is in no packer.
    restBar: proving ? Math.max(restBar, last?.bar ?? 0) : restBar,
  };
}

/** A spike or a broken sensor is no peak; a missing zero or calibration is no reason to hide one. */
const DOUBTFUL = FLAG.fault | FLAG.outOfRange | FLAG.rate | FLAG.stuck;

/** What is the same all through a run. */
export interface RunTitle {
  readonly runId: string;
  readonly jobId: string | null;
  readonly title: string;
  readonly practice: boolean;
  readonly openedUtcMs: number;
}

export function summarise(
  title: RunTitle,
  tally: Tally,
  state: RunSummary['state'],
  endedUtcMs: number | null,
  bytes: number,
): RunSummary {
  return {
    ...title,
    endedUtcMs,
    state,
    seconds: tally.firstUs === null ? 0 : (tally.lastUs - tally.firstUs) / 1e6,
    readings: tally.readings,
    peakBar: tally.peakBar === null ? null : Math.round(tally.peakBar * 1000) / 1000,
    gaps: tally.gaps,
    alarms: tally.alarms,
    bytes,
    sensorChecks: [...tally.sensorChecks],
  };
}
