import type { WatchView } from '../../watch/view.ts';

/**
 * The cue as it is shown: a count that a hand can follow. The guard makes a new estimate with every sample, and has none
 * where it is not sure; what is shown runs from its first second to its last. Under twenty seconds it counts down or
 * holds still, and jumps up once at most, by three seconds or more. Where it has to stop it says why.
 */

/** Why a count that ran is not there any more. */
export type CueStop =
  | 'still' // the rise has ended: the valve is shut, or nearly
  | 'reading' // there is no usable reading
  | 'unsure'; // the rise is not steady enough to count by

export interface CueCount {
  /** Whole seconds left, rounded down; 0: now; null: no count runs. */
  readonly leftS: number | null;
  /** Seconds at its begin, as many as it has rungs. */
  readonly ofS: number;
  readonly stopped: CueStop | null;
  /** It has jumped up once. */
  readonly jumped: boolean;
  /** When the shown second began; when the guard was last sure; when the count stopped, run clock, µs. */
  readonly stepUs: number;
  readonly sureUs: number;
  readonly stoppedUs: number;
}

/** As many rungs as an eye can count, and seconds from which the count is steady. */
export const STEADY_S = 20;
/** A jump upwards is at least this, s: less is no news. */
const JUMP_S = 3;
/** So long the count goes on by its own clock while the guard is not sure, s. */
const ON_ITS_OWN_S = 2;
/** So long it is said why it stopped, s. */
const TOLD_S = 8;
/** Slower than this there is no rise to count by, bar/s (watch/guard/cue.ts). */
const STILL_BAR_S = 0.002;

export const NO_CUE: CueCount = {
  leftS: null,
  ofS: 0,
  stopped: null,
  jumped: false,
  stepUs: 0,
  sureUs: 0,
  stoppedUs: 0,
};

export type CueSeen = Pick<WatchView, 'tUs' | 'bar' | 'stale' | 'stage'> & {
  readonly closeInS: number | null;
  readonly rateBarPerS: number | null;
};

const seconds = (fromUs: number, toUs: number) => (toUs - fromUs) / 1e6;

function whyStopped({ bar, stale, rateBarPerS }: CueSeen): CueStop {
  if (bar === null || stale) return 'reading';
  return rateBarPerS === null || rateBarPerS < STILL_BAR_S ? 'still' : 'unsure';
}

/** The next picture of the count, from the one before and what the guard says now. */
export function nextCue(before: CueCount, seen: CueSeen): CueCount {
  const { tUs, closeInS } = seen;
  // A count belongs to a fill, and to one clock.
  if ((seen.stage !== 'inflate' && seen.stage !== 'seat') || tUs < before.sureUs) return NO_CUE;
  if (closeInS === null) return withoutEstimate(before, seen);
  const raw = Math.max(0, Math.floor(closeInS));
  const sure = { ...before, sureUs: tUs, stopped: null };
  if (before.leftS === null || before.leftS >= STEADY_S)
    return { ...sure, leftS: raw, ofS: Math.min(STEADY_S, raw), jumped: false, stepUs: tUs };
  if (raw < before.leftS) return { ...sure, leftS: raw, stepUs: tUs };
  if (!before.jumped && raw >= before.leftS + JUMP_S && before.leftS > 0) {
    const leftS = Math.min(STEADY_S, raw);
    return { ...sure, leftS, ofS: Math.max(before.ofS, leftS), jumped: true, stepUs: tUs };
  }
  return sure;
}

function withoutEstimate(before: CueCount, seen: CueSeen): CueCount {
  const { tUs } = seen;
  if (before.leftS === null)
    return before.stopped !== null && seconds(before.stoppedUs, tUs) > TOLD_S ? NO_CUE : before;
  const why = whyStopped(seen);
  if (why === 'unsure' && seconds(before.sureUs, tUs) < ON_ITS_OWN_S) {
    const gone = Math.floor(seconds(before.stepUs, tUs));
    return gone < 1
      ? before
      : { ...before, leftS: Math.max(0, before.leftS - gone), stepUs: before.stepUs + gone * 1e6 };
  }
  // A count that came to its end and a rise that ended with it need no reason.
  if (why === 'still' && before.leftS <= 1) return NO_CUE;
  return { ...before, leftS: null, stopped: why, stoppedUs: tUs };
}
