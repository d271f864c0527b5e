/**
 * Mean and scatter of the last second, at a fixed cost a reading: ten tenths of a second, each a count, a sum
 * and a sum of squares. A spike counts as what the readings around it say: one of 0.5 bar would move the mean of twenty
 * readings by more than air that seeps back does. For slow devices the last three readings stand in.
 */
export interface Recent {
  /** Number of the tenth that each place holds, or -1. */
  slot: number[];
  n: number[];
  sum: number[];
  sq: number[];
  /** The last three usable values and their times, oldest first. */
  last: { tUs: number; bar: number }[];
}

export interface RecentStats {
  readonly n: number;
  /** bar */
  readonly mean: number;
  /** Standard deviation of one reading, bar. */
  readonly sd: number;
}

const TENTHS = 10;
const TENTH_US = 100_000;
/**
 * What lies further off the median of three is a spike or the first reading of a fast move, bar: its noise stays in the means, and a
 * move comes into them one reading later.
 */
const SPIKE_BAR = 0.05;

export function createRecent(): Recent {
  return {
    slot: new Array<number>(TENTHS).fill(-1),
    n: new Array<number>(TENTHS).fill(0),
    sum: new Array<number>(TENTHS).fill(0),
    sq: new Array<number>(TENTHS).fill(0),
    last: [],
  };
}

/** Takes a usable reading; gives the level that it stands for: itself, or the median of three where it may be a spike, bar. */
export function recentAdd(r: Recent, tUs: number, bar: number): number {
  keepLast(r, tUs, bar);
  const middle = median3(r) ?? bar;
  const level = Math.abs(bar - middle) > SPIKE_BAR ? middle : bar;
  const tenth = Math.floor(tUs / TENTH_US);
  const i = tenth % TENTHS;
  if (r.slot[i] !== tenth) {
    r.slot[i] = tenth;
    r.n[i] = 0;
    r.sum[i] = 0;
    r.sq[i] = 0;
  }
  r.n[i]!++;
  r.sum[i]! += level;
  r.sq[i]! += level * level;
  return level;
}

function keepLast(r: Recent, tUs: number, bar: number): void {
  if (r.last.length < 3) r.last.push({ tUs, bar });
  else {
    const oldest = r.last[0]!;
    r.last[0] = r.last[1]!;
    r.last[1] = r.last[2]!;
    oldest.tUs = tUs;
    oldest.bar = bar;
    r.last[2] = oldest;
  }
}

/** Forget everything, as after a gap. */
export function recentClear(r: Recent): void {
  r.slot.fill(-1);
  r.last.length = 0;
}

/** Readings that a mean must have, lest one that is none counts for a level. */
export const LEAST_MEAN = 3;

/** Statistics of the second before tUs, or of the last three readings not older than oldestUs; null: none. */
export function recentStats(r: Recent, tUs: number, oldestUs: number): RecentStats | null {
  const now = Math.floor(tUs / TENTH_US);
  let n = 0;
  let sum = 0;
  let sq = 0;
  for (let i = 0; i < TENTHS; i++) {
    const tenth = r.slot[i]!;
    if (tenth < 0 || tenth > now || tenth <= now - TENTHS) continue;
    n += r.n[i]!;
    sum += r.sum[i]!;
    sq += r.sq[i]!;
  }
  if (n < 3) {
    n = 0;
    sum = 0;
    sq = 0;
    for (const one of r.last) {
      if (one.tUs < oldestUs) continue;
      n++;
      sum += one.bar;
      sq += one.bar * one.bar;
    }
  }
  if (n === 0) return null;
  const mean = sum / n;
  return { n, mean, sd: n < 2 ? 0 : Math.sqrt(Math.max(0, (sq - n * mean * mean) / (n - 1))) };
}

/**
 * Median of the last three usable values: one spike cannot move it. Of two it is the lower one, so that a
 * spike at the start cannot raise an alarm; of one there is none.
 */
export function median3(r: Recent): number | null {
  const a = r.last[0]?.bar;
  const b = r.last[1]?.bar;
  const c = r.last[2]?.bar;
  if (a === undefined || b === undefined) return null;
  if (c === undefined) return Math.min(a, b);
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
