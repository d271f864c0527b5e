import type { LinkState } from '../../link/status.ts';
import type { Reading } from '../../sensing/reading.ts';
import { FLAG } from '../../sensing/reading.ts';
import type { GapReason, LossCause } from '../codes.ts';
import { type Cadence, cadenceAdd, createCadence } from './cadence.ts';
import { createLate, type Late, lateReading } from './late.ts';
import type { Period } from './period.ts';
import { createPeriod, periodAdd } from './period.ts';
import type { Recent } from './recent.ts';
import { createRecent, median3, recentAdd, recentClear } from './recent.ts';

/** What is known of the pressure reading and of the way it comes. Plain data. */
export interface Signal {
  /** Arrival of the first sample; results count seconds from it, µs. */
  firstUs: number | null;
  lastFrameUs: number | null;
  /** Arrival of the last usable pressure, µs. */
  lastUsableUs: number | null;
  /** Sampling time of the last frame, s, and its number. */
  lastTS: number | null;
  lastSeq: number;
  /** Since when frames come without a usable pressure, µs, and how many. */
  badSinceUs: number | null;
  badFrames: number;
  badCause: LossCause;
  /** Frames in a row that read over the sensor's span, with the faults that followed them; 0: none. */
  overFrames: number;
  /** Arrival of the last of them, µs. */
  overUs: number | null;
  period: Period;
  cadence: Cadence;
  late: Late;
  recent: Recent;
  /** Last usable pressure, bar, and what came with it. */
  bar: number | null;
  median: number | null;
  /** The pressure without spikes, bar: what levels and means are made of. */
  level: number | null;
  uBar: number | null;
  stepBar: number;
  flags: number;
  status: number;
  peakBar: number | null;
  link: LinkState | null;
  /** The port went away and no usable pressure has come since. */
  portLost: boolean;
  /** What answers is not what the readings were of, and why; null: it is. */
  stranger: 'other-device' | 'rescaled' | null;
  resetUs: number | null;
  jumpUs: number | null;
  strayUs: number | null;
  /** Stray bytes of the present run of strays. */
  strayRun: number;
  /** End of the last gap that was reported from outside, µs. */
  gapToUs: number;
}

export function createSignal(): Signal {
  return {
    firstUs: null,
    lastFrameUs: null,
    lastUsableUs: null,
    lastTS: null,
    lastSeq: 0,
    badSinceUs: null,
    badFrames: 0,
    badCause: 'fault',
    overFrames: 0,
    overUs: null,
    period: createPeriod(null),
    cadence: createCadence(),
    late: createLate(),
    recent: createRecent(),
    bar: null,
    median: null,
    level: null,
    uBar: null,
    stepBar: 0,
    flags: 0,
    status: 0,
    peakBar: null,
    link: null,
    portLost: false,
    stranger: null,
    resetUs: null,
    jumpUs: null,
    strayUs: null,
    strayRun: 0,
    gapToUs: -1,
  };
}

/** Under the span by more than this a reading is no pressure; less is a zero that has moved, bar. */
const BELOW_ZERO_BAR = 0.1;

/**
 * Whether the reading's pressure may be used, or why not. Held values are neither: nothing new was converted.
 * A value over the span is at least that high, which the guard must know; for everything else it is none.
 */
export function usability(reading: Reading): 'usable' | 'held' | 'over' | LossCause {
  if ((reading.flags & FLAG.held) !== 0) return 'held';
  if (reading.bar === null) return (reading.flags & FLAG.outOfRange) !== 0 ? 'range' : 'fault';
  if ((reading.flags & (FLAG.fault | FLAG.open)) !== 0) return 'fault';
  if ((reading.flags & FLAG.outOfRange) !== 0) {
    const nearZero = Math.abs(reading.bar) <= Math.max(BELOW_ZERO_BAR, 2 * reading.uBar);
    if (nearZero) return 'usable';
    return reading.bar > 0 ? 'over' : 'range';
  }
  return 'usable';
}

/** As far as the last readings say: over the sensor's span. One of them may be a spike. */
export function isOver(s: Signal): boolean {
  return s.overFrames >= 2;
}

/** A hole in the readings, as seen when the first reading after it arrives. */
export interface Hole {
  readonly reason: GapReason;
  readonly fromUs: number;
  readonly toUs: number;
  /** Nobody has reported it yet. */
  readonly unreported: boolean;
}

/** Longest spacing of two samples that is no hole, µs. */
export function longestSpacingUs(s: Signal): number {
  return Math.max(1, 5 * s.period.periodS) * 1e6;
}

/** Strays further apart than this belong to different runs, µs. */
export const STRAY_RUN_US = 10e6;

export function signalStray(s: Signal, bytes: number, tUs: number): void {
  if (s.strayUs !== null && tUs - s.strayUs > STRAY_RUN_US) s.strayRun = 0;
  s.strayUs = tUs;
  s.strayRun += bytes;
}

/**
 * Takes a frame; returns the hole before it, if there was one.
 * @param inHose the pressure is a hose's alone: no peak of a packer
 */
export function signalFrame(s: Signal, reading: Reading, inHose = false): Hole | null {
  s.firstUs ??= reading.tUs;
  let hole: Hole | null = null;
  const last = s.lastFrameUs;
  // By the times of sampling: frames that come late in a bunch leave no hole.
  if (last !== null && s.lastTS !== null && (reading.tS - s.lastTS) * 1e6 > longestSpacingUs(s)) {
    hole = {
      reason: holeReason(s, last),
      fromUs: last,
      toUs: reading.tUs,
      unreported: s.gapToUs <= last,
    };
    // Old and new values must not share a median or a mean.
    recentClear(s.recent);
    s.median = null;
  }
  // A hole is a spacing, too: a slow device would never be known as slow, and the median bears one hole.
  if (s.lastTS !== null) periodAdd(s.period, (reading.tS - s.lastTS) / samplesSince(s, reading.seq));
  lateReading(s.late, reading.tS, reading.tUs / 1e6);
  s.lastSeq = reading.seq;
  s.lastFrameUs = reading.tUs;
  s.lastTS = reading.tS;
  s.status = reading.status;
  takeValue(s, reading, inHose);
  return hole;
}

/**
 * Samples taken since the last one that came, by their numbers modulo 2^32: a line that loses most of its frames is
 * not a slow device. One where the numbers say nothing (they went back, as after a reset).
 */
function samplesSince(s: Signal, seq: number): number {
  const ahead = (seq - s.lastSeq) >>> 0;
  return ahead > 0 && ahead < 0x8000_0000 ? ahead : 1;
}

function holeReason(s: Signal, fromUs: number): GapReason {
  if (s.jumpUs !== null && s.jumpUs >= fromUs) return 'clock';
  if (s.portLost) return 'port';
  if (s.resetUs !== null && s.resetUs >= fromUs) return 'reset';
  return 'silence';
}

function takeValue(s: Signal, reading: Reading, inHose: boolean): void {
  const use = usability(reading);
  if (use === 'held') return;
  cadenceAdd(s.cadence, reading.tS);
  s.flags = reading.flags;
  // A signal that rises through the span and on leaves its measuring band as a fault: it is still over.
  const beyond = use === 'over' || (use === 'fault' && isOver(s));
  if (use === 'usable' || beyond) {
    s.badSinceUs = null;
    s.badFrames = 0;
    s.portLost = false;
  } else {
    s.badSinceUs ??= reading.tUs;
    s.badFrames++;
    s.badCause = use;
  }
  if (use === 'usable') s.lastUsableUs = reading.tUs;
  if (beyond) {
    s.overFrames++;
    s.overUs = reading.tUs;
  } else if (use === 'usable') s.overFrames = 0;
  const { bar } = reading;
  if (bar === null) return;
  s.bar = bar;
  s.uBar = reading.uBar;
  s.stepBar = reading.stepBar;
  s.level = recentAdd(s.recent, reading.tUs, bar);
  s.median = median3(s.recent);
  if (!inHose && s.median !== null && (s.peakBar === null || s.median > s.peakBar)) s.peakBar = s.median;
}
