/**
 * Does the pressure stand although a hand is to let air in? A shut tap or a blocked line before the sensor keeps its noise
 * and loses the packer: whoever goes by such a reading feeds until it bursts.
 */
export interface Stand {
  /** The level that it stands at, bar; null: nothing was read yet. */
  bar: number | null;
  /** Since when on the run clock, µs. */
  sinceUs: number;
}

export function createStand(): Stand {
  return { bar: null, sinceUs: 0 };
}

/** What moves by less stands, bar: several standard deviations of a level where the noise is of 6 mbar. */
const MOVES_BAR = 0.02;
/** So long a big packer may unfold without a pressure, and so long a crew may wait with the valve shut, s (common practice, no source). */
export const STANDS_S = 60;

/** Somebody has looked, or what follows has nothing to do with what was before. */
export function standRestart(s: Stand): void {
  s.bar = null;
}

/** Takes a new mean of the levels while a hand fills. */
export function standFollow(s: Stand, bar: number, tUs: number): void {
  if (s.bar !== null && Math.abs(bar - s.bar) < MOVES_BAR) return;
  s.bar = bar;
  s.sinceUs = tUs;
}

export const stands = (s: Stand, tUs: number): boolean => s.bar !== null && tUs - s.sinceUs >= STANDS_S * 1e6;
