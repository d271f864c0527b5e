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
  /** The wall clock jumped, or the run was taken up again, at this time (µs), and no sample has told what passed; null. */
  askedUs: number | null;
  /** Numbers that were missing before the last sample, unwrapped, both ends of the hole left out; null: none were. */
  hole: { readonly from: number; readonly to: number } | null;
  /** Arrival of the last sample that came too late, µs; null: none did. */
  lateUs: number | null;
  /** Arrival of the last sample before which it was told that the device's clock jumped, µs; null: it was not. */
  clockUs: number | null;
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
  /** What to do with the sample: use it, or leave it out as a repeat of the last one, or as one that came too late. */
  readonly use: boolean;
  /** The device's counters went back without a hello: it started anew. */
  readonly restarted: boolean;
  readonly gap: SampleGap | null;
  readonly witness: Witness | null;
}

/** What the first sample behind missing ones says of time that only a wall clock spoke of. */
export interface Witness {
  /** Time since the sample before it by the device's clock, s; null: that did not run on. */
  readonly deviceS: number | null;
  /** The same by the run clock, s. */
  readonly runS: number;
}

/** Samples that go on for so long after a jump of the wall clock had nothing missing: it was set, µs. */
const ASKED_US = 10e6;
/** Lines that were swapped lie near each other: more missing than this are not waited for. */
const SWAPPED_MOST = 16;
/** After a late line missing ones are taken for late ones, and the disorder is told once, µs. */
const DISORDER_US = 10e6;
/** The device's clock went on by so much more than time did, s. */
const CLOCK_JUMP_S = 1;

/** Longest step of the device clock between two consecutive samples that is no gap: 1 s or five periods. */
const STILL_S = 1;
const PERIODS = 5;
const longestS = (rateHz: number): number => Math.max(STILL_S, PERIODS / rateHz);

export function createTrack(): SampleTrack {
  return {
    seq: null,
    tick: 0,
    lastUs: null,
    reset: false,
    portLost: false,
    stray: false,
    askedUs: null,
    hole: null,
    lateUs: null,
    clockUs: null,
    told: false,
  };
}

/** The device started anew: its counters say nothing about the ones before. */
export function restartTrack(track: SampleTrack): void {
  track.seq = null;
  track.reset = true;
  track.hole = null;
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
  if (step.order === 'repeat') return { use: false, restarted: false, gap: null, witness: null };
  if (last !== null && isLate(track, step.seq)) return late(track, tUs);
  // The numbers go on and the clock does not: it jumped, and nothing started anew.
  const clockBack = step.order === 'back' && last !== null && step.seq > last.seq;
  const back = step.order === 'back' && !clockBack;
  const restarted = back && !track.reset;
  if (back) track.reset = true;
  const missed = clockBack ? step.seq - last.seq - 1 : step.missed;
  const disorder = track.lateUs !== null && tUs - track.lateUs < DISORDER_US;
  const stillS = last === null || back ? 0 : (step.tick - last.tick) * TICK_S;
  track.seq = back ? frame.seq : step.seq;
  track.tick = back ? frame.tick : step.tick;
  const fromUs = track.lastUs;
  const waitedS = fromUs === null ? 0 : (tUs - fromUs) / 1e6;
  const clockJumped = clockBack || (fromUs !== null && stillS - waitedS > CLOCK_JUMP_S);
  const swapped = disorder && missed <= SWAPPED_MOST && !track.stray;
  const found = reasonOf(track, swapped ? 0 : missed, stillS, rateHz, clockJumped);
  // A clock that stands still, or jumps with every sample, is told once in a while.
  const again = found === 'device-clock' && track.clockUs !== null && tUs - track.clockUs < DISORDER_US;
  const reason = again && missed === 0 ? null : found;
  if (reason === 'device-clock') track.clockUs = tUs;
  const deviceS = last === null || back || clockBack ? null : stillS;
  const holed = deviceS === null || missed > 0 || stillS > longestS(rateHz) || track.told;
  const witness = track.askedUs !== null && holed ? { deviceS, runS: waitedS } : null;
  if (holed || tUs - (track.askedUs ?? tUs) > ASKED_US) track.askedUs = null;
  track.hole =
    missed > 0 && missed <= SWAPPED_MOST && !back ? { from: track.seq - missed - 1, to: track.seq } : null;
  track.lastUs = tUs;
  track.reset = false;
  track.portLost = false;
  track.stray = false;
  track.told = false;
  const gap = reason === null || fromUs === null ? null : { reason, fromUs, toUs: tUs, lost: missed };
  return { use: true, restarted, gap, witness };
}

/** Its number was missing before the last sample: it was sampled in between, and came after it. */
function isLate({ hole }: SampleTrack, seq: number): boolean {
  return hole !== null && seq > hole.from && seq < hole.to;
}

/** A late line is not judged: what came after it was. A disorder that lasts is told once in a while. */
function late(track: SampleTrack, tUs: number): SampleStepResult {
  const told = track.lateUs !== null && tUs - track.lateUs < DISORDER_US;
  track.lateUs = tUs;
  const gap =
    told || track.lastUs === null
      ? null
      : ({ reason: 'out-of-order', fromUs: track.lastUs, toUs: tUs, lost: 0 } as const);
  return { use: false, restarted: false, gap, witness: null };
}

function reasonOf(
  track: SampleTrack,
  missed: number,
  stillS: number,
  rateHz: number,
  clockJumped: boolean,
): GapReason | null {
  if (track.told) return null;
  // A device that lost its cable often starts anew too: the cable is the cause.
  if (track.portLost) return 'port';
  if (track.reset) return 'reset';
  // The device's clock ran on by more than time did: the wall clock too, or it alone.
  if (clockJumped) return track.askedUs !== null && stillS > 0 ? 'clock' : 'device-clock';
  if (missed > 0 && track.stray) return 'garbage';
  if (stillS > longestS(rateHz)) return 'silence';
  return missed > 0 ? 'dropped' : null;
}
