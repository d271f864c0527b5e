import { fitLine } from '../estimate/line.ts';
import type { RefusedLine } from '../job/bench-codes.ts';
import { type SampleFrame, STATUS, type StrayReason, TICK_S } from '../link/frames.ts';
import { type FindingOf, found } from './findings.ts';
import {
  CLOCK_LISTENED_S,
  CLOCK_PPM,
  LEAST_LINES,
  RATE_HZ,
  RATE_KEPT,
  RATE_LISTENED_S,
  RESTART_LISTENED_S,
  SHARE,
} from './limits.ts';

/** What came over the line, counted. */
export interface Traffic {
  frames: number;
  /** Refused lines that are faults of the line; half a line at the opening is none. */
  faults: number;
  readonly refused: Map<RefusedLine, { lines: number; bytes: Uint8Array }>;
  samples: number;
  lost: number;
  /** Samples that say that lines were dropped before them. */
  dropped: number;
  restarts: number;
  /** Time listened with samples coming, µs, without the stretch that goes on. */
  listenedUs: number;
  /** Of the stretch that goes on, which begins anew where lines were not looked at: samples and their arrivals, µs. */
  stretch: { fromUs: number; toUs: number; samples: number } | null;
  /** Samples in all stretches that are over, less one of each: the periods between them. */
  periods: number;
  /** Device's clock since it was tied, in ticks, and the least lateness of each piece of time: seconds on both clocks. */
  clock: { tick: number; ticks: number; tiedUs: number; least: { s: number; lateS: number }[] } | null;
}

/** Arrivals come in bunches: of each piece of so many seconds the earliest counts. */
const PIECE_S = 5;
/** An hour of them. */
const MOST_PIECES = 720;

export const createTraffic = (): Traffic => ({
  frames: 0,
  faults: 0,
  refused: new Map(),
  samples: 0,
  lost: 0,
  dropped: 0,
  restarts: 0,
  listenedUs: 0,
  stretch: null,
  periods: 0,
  clock: null,
});

export function takeRefused(t: Traffic, reason: StrayReason, bytes: Uint8Array, isFault: boolean): void {
  t.refused.set(reason, { lines: (t.refused.get(reason)?.lines ?? 0) + 1, bytes });
  // Before the first frame the speed was looked for: nothing is the device's fault yet.
  if (isFault && t.frames > 0) t.faults++;
}

/** Samples were not looked at, or the device started anew: what comes next continues nothing. */
export function breakTraffic(t: Traffic): void {
  if (t.stretch !== null) {
    t.listenedUs += t.stretch.toUs - t.stretch.fromUs;
    t.periods += t.stretch.samples - 1;
  }
  t.stretch = null;
  t.clock = null;
}

/** @param lost samples missing before it */
export function takeSampleTraffic(t: Traffic, frame: SampleFrame, tUs: number, lost: number): void {
  t.samples++;
  t.lost += lost;
  if ((frame.status & STATUS.dropped) !== 0) t.dropped++;
  t.stretch ??= { fromUs: tUs, toUs: tUs, samples: 0 };
  t.stretch.toUs = tUs;
  t.stretch.samples++;
  const c = t.clock;
  if (c === null) {
    t.clock = { tick: frame.tick, ticks: 0, tiedUs: tUs, least: [{ s: 0, lateS: 0 }] };
    return;
  }
  c.ticks += (frame.tick - c.tick) >>> 0;
  c.tick = frame.tick;
  const s = (tUs - c.tiedUs) / 1e6;
  const lateS = s - c.ticks * TICK_S;
  const last = c.least.at(-1)!;
  if (s >= c.least.length * PIECE_S) {
    if (c.least.length < MOST_PIECES) c.least.push({ s, lateS });
  } else if (lateS < last.lateS) c.least[c.least.length - 1] = { s, lateS };
}

/** Seconds listened with samples coming. */
export function listenedS(t: Traffic): number {
  const now = t.stretch === null ? 0 : t.stretch.toUs - t.stretch.fromUs;
  return (t.listenedUs + now) / 1e6;
}

const byShare = (part: number, whole: number): 'none' | 'some' | 'many' =>
  part === 0 ? 'none' : part / whole <= SHARE.bad ? 'some' : 'many';

export function judgeLines(t: Traffic): FindingOf<'lines'> {
  const all = t.frames + t.faults;
  const few = all < LEAST_LINES && t.faults === 0;
  const share = byShare(t.faults, all);
  return found('lines', few ? 'few' : share === 'none' ? 'clean' : share, t.faults, all);
}

export function judgeLost(t: Traffic): FindingOf<'lost'> {
  const sent = t.samples + t.lost;
  const dropped = Math.max(t.lost, t.dropped);
  const few = sent < LEAST_LINES && dropped === 0;
  return found('lost', few ? 'few' : byShare(dropped, sent), t.lost, sent, t.dropped);
}

/** @param keptHz the rate that the device said it keeps; null: it said none */
export function judgeRate(t: Traffic, keptHz: number | null): FindingOf<'rate'> {
  const s = listenedS(t);
  if (s < RATE_LISTENED_S) return found('rate', 'few', null, keptHz);
  const hz = (t.periods + (t.stretch === null ? 0 : t.stretch.samples - 1)) / s;
  const share = keptHz === null ? 1 : hz / keptHz;
  const reason =
    share >= RATE_KEPT.good && hz >= RATE_HZ.good
      ? 'kept'
      : share >= RATE_KEPT.doubtful && hz >= RATE_HZ.doubtful
        ? 'slow'
        : 'too-slow';
  return found('rate', reason, hz, keptHz);
}

/** The device's clock against the computer's: the slope of the least lateness. */
export function judgeClock(t: Traffic): FindingOf<'clock'> {
  const least = t.clock?.least ?? [];
  const s = least.at(-1)?.s ?? 0;
  if (s < CLOCK_LISTENED_S) return found('clock', 'few', null, null, s);
  const fit = fitLine(
    least.map((p) => p.s),
    least.map((p) => p.lateS),
  );
  if (fit === null) return found('clock', 'few', null, null, s);
  const ppm = -fit.slope * 1e6;
  const off = Math.abs(ppm);
  const reason = off <= CLOCK_PPM.good ? 'close' : off <= CLOCK_PPM.doubtful ? 'off' : 'far-off';
  return found('clock', reason, ppm, 2 * fit.sdSlope * 1e6, s);
}

export function judgeRestarts(t: Traffic): FindingOf<'restarts'> {
  const s = listenedS(t);
  const few = t.restarts === 0 && s < RESTART_LISTENED_S;
  return found('restarts', few ? 'few' : t.restarts > 0 ? 'restarted' : 'none', t.restarts, s);
}
