import { sampleStep } from '../link/clock.ts';
import type { SampleFrame } from '../link/frames.ts';
import { TICK_S } from '../link/frames.ts';
import type { GapReason } from '../watch/codes.ts';

/** What happened since the last sample that explains why samples are missing. Plain data, snapshotted. */
export interface SampleTrack {
  /** Unwrapped sequence number and device clock of the last sample; null before the first and after a reset. */
  seq: number | null;
  tick: number;
  /** Arrival of the last sample, µs on the run clock; null before the first. */
  lastUs: number | null;
  reset: boolean;
  portLost: boolean;
  stray: boolean;
  clock: boolean;
  /** The gap was already told by a notice of its own. */
  told: boolean;
}

export interface SampleGap {
  readonly reason: GapReason;
  readonly fromUs: number;
  readonly toUs: number;
  /** Samples known to be missing; 0 where that cannot be known. */
  readonly lost: number;
}

export interface SampleStepResult {
  /** What to do with the sample: use it, or leave it out as a repeat of the last one. */
  readonly use: boolean;
  /** The device's counters went back without a hello: it started anew. */
  readonly restarted: boolean;
  readonly gap: SampleGap | null;
}

/** Longest step of the device clock between two consecutive samples that is no gap: 1 s or five periods. */
const STILL_S = 1;
const PERIODS = 5;

export function createTrack(): SampleTrack {
  return {
    seq: null,
    tick: 0,
    lastUs: null,
    reset: false,
    portLost: false,
    stray: false,
    clock: false,
    told: false,
  };
}

/** The device started anew: its counters say nothing about the ones before. */
export function restartTrack(track: SampleTrack): void {
  track.seq = null;
  track.reset = true;
}

/**
 * Takes a sample's counters and says whether samples are missing before it and why. One gap has one reason:
 * the gravest that was seen since the last sample.
 */
export function trackSample(
  track: SampleTrack,
  frame: SampleFrame,
  tUs: number,
  rateHz: number,
): SampleStepResult {
  const last = track.seq === null ? null : { seq: track.seq, tick: track.tick };
  const step = sampleStep(last, frame);
  if (step.order === 'repeat') return { use: false, restarted: false, gap: null };
  const back = step.order === 'back';
  const restarted = back && !track.reset;
  if (back) track.reset = true;
  const { missed } = step;
  const stillS = last === null || back ? 0 : (step.tick - last.tick) * TICK_S;
  track.seq = back ? frame.seq : step.seq;
  track.tick = back ? frame.tick : step.tick;
  const fromUs = track.lastUs;
  const reason = reasonOf(track, missed, stillS, rateHz);
  track.lastUs = tUs;
  track.reset = false;
  track.portLost = false;
  track.stray = false;
  track.clock = false;
  track.told = false;
  const gap = reason === null || fromUs === null ? null : { reason, fromUs, toUs: tUs, lost: missed };
  return { use: true, restarted, gap };
}

function reasonOf(track: SampleTrack, missed: number, stillS: number, rateHz: number): GapReason | null {
  if (track.told) return null;
  // A device that lost its cable often starts anew too: the cable is the cause.
  if (track.portLost) return 'port';
  if (track.reset) return 'reset';
  if (track.clock && stillS > STILL_S) return 'clock';
  if (missed > 0 && track.stray) return 'garbage';
  if (stillS > Math.max(STILL_S, PERIODS / rateHz)) return 'silence';
  return missed > 0 ? 'dropped' : null;
}
