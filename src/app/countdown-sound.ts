import { type CueSeen, NO_CUE, nextCue } from '../screens/live/cue-count.ts';
import type { Sound } from './patterns.ts';

/** Seconds left at which the hand is called to the valve, and from which each second ticks. */
const CALL_S = 8;
const TICK_S = 5;

export interface CountdownSound {
  /** What is to sound now, of this moment; null: nothing. */
  next(seen: CueSeen): Sound | null;
}

/**
 * The count of a fill for a hand that does not look: two notes at eight seconds, a tick each second from five, one long
 * note at the end. It is the very count that the live page shows, made here from the engine's moments and not from the
 * picture: an eye and an ear are told the same second.
 */
export function createCountdownSound(): CountdownSound {
  let count = NO_CUE;
  let toldS = Number.POSITIVE_INFINITY;
  return {
    next(seen) {
      count = nextCue(count, seen);
      const { leftS } = count;
      // One that ended, and one that jumped up, is told anew.
      if (leftS === null || leftS > toldS) toldS = Number.POSITIVE_INFINITY;
      if (leftS === null || leftS > CALL_S || leftS >= toldS) return null;
      const isFirst = toldS === Number.POSITIVE_INFINITY;
      toldS = leftS;
      if (leftS === 0) return 'now';
      if (leftS <= TICK_S) return 'tick';
      return isFirst ? 'cue' : null;
    },
  };
}
