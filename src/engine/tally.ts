import type { SensorCheck } from '../job/sensor-check.ts';
import type { Setup } from '../job/setup.ts';
import { takeCheck } from '../record/sensor-checks.ts';
import type { RunSummary } from '../record/types.ts';
import { FLAG, type Reading } from '../sensing/reading.ts';
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
  /** The line was under pressure, and nothing has shown since that the packer is empty. */
  pressed: boolean;
  /** What showed last that the line holds no air, and when on the run clock. */
  proof: { how: 'zero' | 'vent'; tUs: number } | null;
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
  pressed: false,
  proof: null,
});

export function tallyReading(tally: Tally, reading: Reading): void {
  tally.firstUs ??= reading.tUs;
  tally.lastUs = reading.tUs;
  tally.readings++;
  const { bar, flags, tUs } = reading;
  if (bar === null || (flags & DOUBTFUL) !== 0) return;
  tally.peakBar = Math.max(tally.peakBar ?? bar, bar);
  tally.last = { bar, tUs };
  if (bar > Math.max(PRESSED_BAR, reading.uBar)) tally.pressed = true;
}

/** From here on a line is under pressure, bar; more where the reading itself is less sure (common practice, no source). */
export const PRESSED_BAR = 0.1;

/** What of an event shows that the line holds no air. A vent's test shows it where the sensor sees the packer. */
function proofIn(event: WatchEvent, setup: Setup | null): 'zero' | 'vent' | null {
  if (event.e === 'zero') return event.taken ? 'zero' : null;
  const seen = event.e === 'rebound' && event.what === 'stayed' && setup !== null;
  return seen && (setup.tap === 'packer' || setup.tap === 'hose') ? 'vent' : null;
}

/** @param setup in force at the event */
export function tallyEvent(tally: Tally, event: WatchEvent, setup: Setup | null): void {
  takeCheck(tally.sensorChecks, event, setup);
  const how = proofIn(event, setup);
  if (how !== null) {
    tally.proof = { how, tUs: event.tUs };
    tally.pressed = false;
  }
  if (event.e === 'rebound' && event.what === 'came-back') tally.pressed = true;
  if (event.e === 'gap') tally.gaps++;
  if (event.e === 'alarm' && event.to === 'unacknowledged' && event.why === 'condition') tally.alarms++;
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
