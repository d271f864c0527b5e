/** Ideal gas in a packer. Pressures are absolute, in Pa, and temperatures in K, unless a name says otherwise. */

import { vapourPressure } from './water.ts';

/** Molar gas constant, J/(mol·K) (exact since 2019). */
export const R_MOLAR = 8.314_462_618;

/**
 * By how much shut-in air of that absolute pressure is lifted when it is warmed from c °C by riseK, bar: the air by its gas
 * law (8.9 mbar/K at 1.5 bar gauge, 10 °C), and over liquid water (wet) the vapour at its own saturation besides.
 */
export function liftByWarmth(absBar: number, c: number, riseK: number, wet: boolean): number {
  const vapour = (x: number): number => (wet ? vapourPressure(Math.min(200, Math.max(0, x))) / 1e5 : 0);
  const before = vapour(c);
  return (Math.max(0, absBar - before) * riseK) / (c + 273.15) + vapour(c + riseK) - before;
}

/** The rise that takes shut-in air of c °C from one absolute pressure to another, K; negative: it has cooled. */
export function riseBetween(fromBar: number, toBar: number, c: number, wet: boolean): number {
  const dry = ((toBar - fromBar) / fromBar) * (c + 273.15);
  if (!wet) return dry;
  // The pressure grows with the temperature, and steeper than dry air's: halving between nothing and the dry answer.
  let a = Math.min(0, dry);
  let b = Math.max(0, dry);
  for (let i = 0; i < 40; i++) {
    const mid = (a + b) / 2;
    if (fromBar + liftByWarmth(fromBar, c, mid, true) < toBar) a = mid;
    else b = mid;
  }
  return (a + b) / 2;
}

/**
 * Leak rate in Pa·m³/s (pV flow at temperature t, K) of a rate of pressure change at constant temperature: bar/min in,
 * volume in litres. 1 mbar/min in 10 L is 0.0167 Pa·m³/s.
 */
export function leakPaM3(barPerMin: number, litres: number): number {
  return ((barPerMin * 1e5) / 60) * (litres / 1000);
}
