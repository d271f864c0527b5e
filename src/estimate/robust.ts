/** Medians and what is built on them: spike-proof levels and scales. Small windows, no allocation on the way. */

/** Median of three numbers. */
export function median3(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

/** Factor from the median absolute value of normal noise to its standard deviation. */
export const MAD_TO_SD = 1.482602218505602;

/** Median of a short list; NaN for none. The list is left as it is. */
export function median(values: readonly number[]): number {
  const n = values.length;
  if (n === 0) return Number.NaN;
  const sorted = [...values].sort((a, b) => a - b);
  const m = n >> 1;
  return n % 2 === 1 ? sorted[m]! : (sorted[m - 1]! + sorted[m]!) / 2;
}

/**
 * Is the middle one of three neighbours a spike? It is when it lies outside its neighbours' span by more than
 * `tolerance`: a steep but steady slope never does, however fast. Hampel's rule (Hampel, J. Am. Stat. Assoc. 69,
 * 1974) with the window's own spread replaced by a noise figure known from before, as three points have none.
 */
export function isSpike(before: number, value: number, after: number, tolerance: number): boolean {
  const lo = Math.min(before, after);
  const hi = Math.max(before, after);
  return value < lo - tolerance || value > hi + tolerance;
}

/**
 * Running scale: steps the estimate up or down by a share so that it settles at the median of |x| (stochastic
 * approximation of a quantile, Robbins and Monro 1951). Constant time and space, deaf to spikes.
 */
export function stepMedian(estimate: number, magnitude: number, gain: number): number {
  if (magnitude > estimate) return estimate * (1 + gain);
  return magnitude < estimate ? estimate * (1 - gain) : estimate;
}
