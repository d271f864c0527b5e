import type { Setup } from '../../job/setup.ts';
import { type Coldest, coldest, type Least, type ProbeNow, type Watched, watchOn } from './coldest.ts';

/**
 * The coldest likely spot from moment to moment. What the cure counts by, what the live page shows and what a record is
 * told to have been at least are this one function of probes and Setup. Plain data, as the cure keeps it.
 */
export interface ColdestState {
  /** Models behind the probes, and when they last went on. */
  watched: Watched[];
  watchedUs: number;
  /** Coldest that the present kind of probe has said since it settled; the largest number before. */
  least: Least;
}

/** The models behind the probes go on in steps of at least this, µs: a reading costs nothing more. */
const WATCH_US = 10e6;
/** Model and sleeve have left their start behind after this, µs. */
const SETTLE_US = 600e6;

export function anew(source: Least['source'], tUs: number): Least {
  return { source, sinceUs: tUs, c: Number.MAX_VALUE };
}

export const createColdest = (tUs: number): ColdestState => ({
  watched: [],
  watchedUs: tUs,
  least: anew('none', tUs),
});

/**
 * @param gap nothing was read for a while before this moment
 * @param probes with a fresh usable value
 */
export function coldestNow(
  s: ColdestState,
  tUs: number,
  gap: boolean,
  probes: readonly ProbeNow[],
  setup: Setup | null,
): Coldest {
  if (gap) s.watched = [];
  if (tUs - s.watchedUs >= WATCH_US || s.watched.length === 0) {
    s.watched = watchOn(s.watched, probes, setup, (tUs - s.watchedUs) / 1e6);
    s.watchedUs = tUs;
  }
  const now = coldest(s.watched, probes, setup, s.least);
  // A model that begins anew begins too cold: a rise over that would be none.
  if (gap || now.source !== s.least.source) s.least = anew(now.source, tUs);
  if (now.dry !== null && tUs - s.least.sinceUs >= SETTLE_US) s.least.c = Math.min(s.least.c, now.dry.c);
  return now;
}
