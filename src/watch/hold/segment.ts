import type { Levels } from '../signal/levels.ts';
import { levelAgo, levelNow, levelSpan } from '../signal/levels.ts';

/** A closed segment: a stretch of the hold in which no air came or went through a valve. */
export interface Segment {
  open: boolean;
  /** Times of top-ups in this hold, s. */
  topUpsS: number[];
}

/** A rise of this much in three seconds is air let in: warmth lifts a hundred times slower, bar. */
const TOP_UP_BAR = 0.012;
const TOP_UP_S = 3;
/** A fall of this much in three seconds is air let out, bar. */
const FLOW_BAR = 0.03;
/** Means within this over the still time: no flow, bar. */
const STILL_BAR = 0.008;
const STILL_S = 5;

export type SegmentStep =
  | { readonly what: 'opened'; readonly why: 'still' }
  | { readonly what: 'closed'; readonly why: 'top-up' | 'flow' }
  | null;

export function createSegment(): Segment {
  return { open: false, topUpsS: [] };
}

/** Judged at each new mean of the levels. */
export function segmentStep(
  s: Segment,
  l: Levels,
  noiseBar: number,
  ventOpen: boolean,
  tS: number,
): SegmentStep {
  const now = levelNow(l);
  if (now === null) return null;
  const slack = 4 * noiseBar;
  if (s.open) {
    const before = levelAgo(l, TOP_UP_S);
    if (ventOpen) return close(s, 'flow');
    if (before === null) return null;
    if (now - before > TOP_UP_BAR + slack) {
      s.topUpsS.push(tS);
      if (s.topUpsS.length > 20) s.topUpsS.shift();
      return close(s, 'top-up');
    }
    return before - now > FLOW_BAR + slack ? close(s, 'flow') : null;
  }
  if (ventOpen) return null;
  const span = levelSpan(l, STILL_S);
  if (span === null || span > STILL_BAR + 2 * slack) return null;
  s.open = true;
  return { what: 'opened', why: 'still' };
}

function close(s: Segment, why: 'top-up' | 'flow'): SegmentStep {
  s.open = false;
  return { what: 'closed', why };
}
