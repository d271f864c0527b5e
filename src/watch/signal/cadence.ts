/**
 * How often a pressure is read anew, beside how often it was before. A fall to a few readings a second takes nothing from
 * the number on the screen, but the guard sees a fill later by as many tenths of a second.
 */

/** Plain data. */
export interface Cadence {
  /** Sampling times of the last fresh pressures, s, oldest first; at most KEPT. */
  at: number[];
  /** Shortest mean spacing over KEPT of them so far, s; null: not so many came. */
  usualS: number | null;
}

/** Of so many readings a spacing is known. */
const KEPT = 9;
/** The present spacing is that of the last so many. */
const NOW = 5;

export function createCadence(): Cadence {
  return { at: [], usualS: null };
}

/** @param tS sampling time of a pressure that was converted anew, s */
export function cadenceAdd(c: Cadence, tS: number): void {
  const last = c.at[c.at.length - 1];
  // The device's clock went back: its start anew, or another device.
  if (last !== undefined && tS <= last) c.at.length = 0;
  c.at.push(tS);
  if (c.at.length > KEPT) c.at.shift();
  if (c.at.length < KEPT) return;
  const spacing = (tS - c.at[0]!) / (KEPT - 1);
  c.usualS = Math.min(c.usualS ?? spacing, spacing);
}

/** Rarer than this a fill is seen late, s: ten a second are enough (guard.test.ts: 50, 10 and 5 a second). */
const RARE_S = 0.11;
/** A fall to this share is told, and to that one it is over. */
const FALLEN = 2.5;
const BACK = 2;

/**
 * Spacing of the readings now and before, s, where they come clearly rarer; 'between' where it cannot be said.
 * @param askedS spacing that the Setup asks for: what was quicker before it is no measure
 */
export function fallen(
  c: Cadence,
  askedS: number,
): { readonly nowS: number; readonly usualS: number } | 'between' | null {
  const n = c.at.length;
  if (c.usualS === null || n < NOW) return null;
  const nowS = (c.at[n - 1]! - c.at[n - NOW]!) / (NOW - 1);
  const usualS = Math.max(c.usualS, askedS);
  if (nowS > RARE_S && nowS > FALLEN * usualS) return { nowS, usualS };
  return nowS > RARE_S && nowS > BACK * usualS ? 'between' : null;
}
