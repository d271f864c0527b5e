/**
 * Whether a temperature stands still enough to be compared: the mean of its last fifteen seconds beside that of the fifteen before. What
 * goes by a time constant τ has τ times its slope still to go; probes in a sheath take up to a minute in a stirred bath.
 */

export interface Stillness {
  readonly c: number;
  /** Stood still all through both stretches. */
  readonly still: boolean;
}

export interface TimedReading {
  readonly tS: number;
  readonly c: number;
}

const STRETCH_S = 15;
/** Slowest probe that is waited for, s, and what may be left of its way when it is taken, K (common practice, no source). */
const SLOWEST_S = 60;
const LEFT_K = 0.2;
/** Two means apart by this are still on their way, K: less is noise. */
const APART_K = (LEFT_K * STRETCH_S) / SLOWEST_S;
/** A single reading may be so far off its mean: a stirred bath's own unrest and a converter's steps, K. */
const SPREAD_K = 0.6;

/** What is kept of the readings: older than two stretches says nothing any more. A step back in time begins anew. */
export function withReading(kept: readonly TimedReading[], next: TimedReading): readonly TimedReading[] {
  const last = kept.at(-1);
  if (last !== undefined && next.tS < last.tS) return [next];
  if (last !== undefined && next.tS === last.tS) return kept;
  return [...kept.filter((r) => next.tS - r.tS <= 2 * STRETCH_S), next];
}

/** null before there is a reading. */
export function stillnessOf(kept: readonly TimedReading[]): Stillness | null {
  const last = kept.at(-1);
  const first = kept[0];
  if (last === undefined || first === undefined) return null;
  const mean = (rs: readonly TimedReading[]) => rs.reduce((sum, r) => sum + r.c, 0) / rs.length;
  const newer = kept.filter((r) => last.tS - r.tS < STRETCH_S);
  const older = kept.filter((r) => last.tS - r.tS >= STRETCH_S);
  const c = mean(newer);
  // Both stretches are full: the first reading is nearly two of them old.
  const isFull = older.length >= 3 && newer.length >= 3 && last.tS - first.tS >= 1.9 * STRETCH_S;
  const isQuiet = kept.every((r) => Math.abs(r.c - c) <= SPREAD_K);
  return { c, still: isFull && isQuiet && Math.abs(c - mean(older)) <= APART_K };
}
