/**
 * Does the line's level creep up while nobody lets air in? A supply that leaks by a millibar a second has no slope that the
 * noise of two seconds shows, and fills a packer in minutes. Means of some seconds show it, one after the other.
 */
export interface Seep {
  /** Means that were taken, bar, oldest first. */
  means: number[];
  /** The mean that is being made: since when, s, its sum, bar, and its readings. */
  sinceS: number | null;
  sum: number;
  n: number;
  /** Lowest mean since the level was last announced to move, bar; null: there is none yet. */
  lowBar: number | null;
}

/** A mean is of so many seconds. */
const MEAN_S = 5;
/** So many means one over the other are a rise: half a minute. */
const STEPS = 6;
/**
 * Each is over the one before by at least this, bar: 18 mbar/min. A line in the sun rises by a third of that where it warms by 2 K a
 * minute; means of five seconds differ by less where the noise is of 4 mbar.
 */
const STEP_BAR = 0.0015;

export function createSeep(): Seep {
  return { means: [], sinceS: null, sum: 0, n: 0, lowBar: null };
}

/** What follows has nothing to do with what was before: another stage, another zero, another sensor. */
export function seepRestart(s: Seep): void {
  seepBreak(s);
  s.lowBar = null;
}

/** A gap: the means begin anew, the level from before it is still known. */
export function seepBreak(s: Seep): void {
  s.means.length = 0;
  s.sinceS = null;
  s.sum = 0;
  s.n = 0;
}

export function seepReading(s: Seep, tS: number, bar: number): void {
  if (s.sinceS === null) s.sinceS = tS;
  if (tS - s.sinceS >= MEAN_S && s.n > 0) {
    const mean = s.sum / s.n;
    s.means.push(mean);
    if (s.means.length > STEPS + 1) s.means.shift();
    s.lowBar = Math.min(s.lowBar ?? mean, mean);
    s.sinceS = tS;
    s.sum = 0;
    s.n = 0;
  }
  s.sum += bar;
  s.n++;
}

/** It has risen for half a minute on end. */
export function creepsUp({ means }: Seep): boolean {
  return means.length > STEPS && means.every((m, i) => i === 0 || m - means[i - 1]! >= STEP_BAR);
}

/** So far over the lowest mean, bar; null: none is known. */
export function risenBy({ lowBar }: Seep, bar: number): number | null {
  return lowBar === null ? null : bar - lowBar;
}
