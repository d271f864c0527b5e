/**
 * The pressure's recent course, thinned: means over a quarter of a second (or single readings of a slow
 * device), the last 48 of them, about 12 s. Stages, top-ups and fast falls are read off it.
 */
export interface Levels {
  /** Middle of each mean, s on the run clock (sampling time), oldest first. */
  t: number[];
  /** bar */
  p: number[];
  sum: number;
  n: number;
  fromS: number;
  /** Scatter of one mean, bar, from their second differences. */
  noiseBar: number;
}

const KEEP = 48;
const SPACING_S = 0.25;

export function createLevels(): Levels {
  return { t: [], p: [], sum: 0, n: 0, fromS: 0, noiseBar: 0 };
}

/** Takes a usable pressure; true when a new mean was added. */
export function levelsAdd(l: Levels, tS: number, bar: number): boolean {
  if (l.n > 0 && tS - l.fromS >= SPACING_S) {
    if (l.t.length === KEEP) {
      l.t.shift();
      l.p.shift();
    }
    l.t.push(l.fromS);
    l.p.push(l.sum / l.n);
    learnNoise(l);
    l.sum = bar;
    l.n = 1;
    l.fromS = tS;
    return true;
  }
  if (l.n === 0) l.fromS = tS;
  l.sum += bar;
  l.n++;
  return false;
}

/**
 * White noise of s.d. σ has a mean absolute second difference of √6·√(2/π)·σ = 1.954 σ. One of them counts at most
 * four times what is known, so that a stop or a spike does not pass for noise.
 */
function learnNoise(l: Levels): void {
  const n = l.p.length;
  if (n < 3) return;
  const one = Math.abs(l.p[n - 1]! - 2 * l.p[n - 2]! + l.p[n - 3]!) / 1.954;
  l.noiseBar += 0.05 * (Math.min(one, 4 * l.noiseBar + 1e-4) - l.noiseBar);
}

export function levelsClear(l: Levels): void {
  l.t.length = 0;
  l.p.length = 0;
  l.sum = 0;
  l.n = 0;
}

/** Newest mean, bar. */
export function levelNow(l: Levels): number | null {
  return l.p[l.p.length - 1] ?? null;
}

/** Newest mean that is at least `s` seconds older than the newest one; null where the course is shorter. */
export function levelAgo(l: Levels, s: number): number | null {
  const last = l.t.length - 1;
  if (last < 0) return null;
  const at = l.t[last]! - s + 1e-9;
  // Means lie a spacing apart at least: the one that is meant is there or newer.
  let i = Math.max(0, last - Math.floor(s / SPACING_S));
  while (i > 0 && l.t[i]! > at) i--;
  while (i < last && l.t[i + 1]! <= at) i++;
  return l.t[i]! <= at ? l.p[i]! : null;
}

/** Highest mean of the last `s` seconds (what there is of them); null: no mean yet. */
export function levelMax(l: Levels, s: number): number | null {
  const last = l.t.length - 1;
  if (last < 0) return null;
  const at = l.t[last]! - s;
  let max = Number.NEGATIVE_INFINITY;
  for (let i = last; i >= 0 && l.t[i]! >= at; i--) if (l.p[i]! > max) max = l.p[i]!;
  return max;
}

/** Lowest mean of the last `s` seconds, bar; null where the course is shorter. */
export function levelMin(l: Levels, s: number): number | null {
  const last = l.t.length - 1;
  if (last < 0 || l.t[last]! - l.t[0]! < s - 1e-9) return null;
  const at = l.t[last]! - s;
  let min = Number.POSITIVE_INFINITY;
  for (let i = last; i >= 0 && l.t[i]! >= at - 1e-9; i--) if (l.p[i]! < min) min = l.p[i]!;
  return min;
}

/**
 * Highest less lowest mean over the last `s` seconds, or over the last four means where a device is slow; null
 * where the course is shorter.
 */
export function levelSpan(l: Levels, s: number): number | null {
  const last = l.t.length - 1;
  if (last < 3 || l.t[last]! - l.t[0]! < s - 1e-9) return null;
  const at = Math.min(l.t[last]! - s, l.t[last - 3]!);
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (let i = last; i >= 0 && l.t[i]! >= at - 1e-9; i--) {
    const p = l.p[i]!;
    if (p < min) min = p;
    if (p > max) max = p;
  }
  return max - min;
}
