import type { WatchView } from '../watch/view.ts';
import type { Sound } from './patterns.ts';

/** Seconds left at which the hand is called to the valve, and from which each second ticks. */
const CALL_S = 8;
const TICK_S = 5;
/** A count that rises by this much is another one, once in a fill; less is the guard's own grain, s. */
const JUMP_S = 3;
/** A count that was not seen for so long is another one, s. */
const GONE_S = 5;

export type CountSeen = Pick<WatchView, 'tUs' | 'stageSinceUs'> & { readonly closeInS: number | null };

export interface CountdownSound {
  /** What is to sound now, of this moment; null: nothing. */
  next(seen: CountSeen): Sound | null;
}

/**
 * The count of a fill for a hand that does not look: two notes at eight seconds, a tick each second from five, one long
 * note at the end. A second that was told is not told again, whatever the guard's next estimate is.
 */
export function createCountdownSound(): CountdownSound {
  let toldS = Number.POSITIVE_INFINITY;
  let jumped = false;
  let fillUs = Number.NaN;
  let seenUs = 0;
  return {
    next({ tUs, stageSinceUs, closeInS }) {
      if (stageSinceUs !== fillUs || tUs < seenUs) {
        toldS = Number.POSITIVE_INFINITY;
        jumped = false;
        fillUs = stageSinceUs;
        seenUs = tUs;
      }
      if (closeInS === null) return null;
      const leftS = Math.max(0, Math.floor(closeInS));
      const another = tUs - seenUs > GONE_S * 1e6 || (!jumped && leftS >= toldS + JUMP_S);
      if (another && toldS !== Number.POSITIVE_INFINITY) {
        jumped = true;
        toldS = Number.POSITIVE_INFINITY;
      }
      seenUs = tUs;
      if (leftS > CALL_S || leftS >= toldS) return null;
      const isFirst = toldS === Number.POSITIVE_INFINITY;
      toldS = leftS;
      if (leftS === 0) return 'now';
      if (leftS <= TICK_S) return 'tick';
      return isFirst ? 'cue' : null;
    },
  };
}
