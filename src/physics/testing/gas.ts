import { R_MOLAR } from '../gas.ts';

/** Gas in a closed volume, by the laws that a leak is held against. Pa absolute and K, unless a name says otherwise. */

/**
 * Absolute pressure of a closed, rigid volume after its gas went from t1 to t2: p2 = p1 · t2 / t1. Good for air from
 * 250 to 400 K and up to 20 bar to better than 0.5 %.
 */
function closedVolume(p1: number, t1: number, t2: number): number {
  return (p1 * t2) / t1;
}

/** The same in gauge bar and °C: the air pressure outside is `airBar` absolute. */
export function closedVolumeGauge(bar: number, c1: number, c2: number, airBar: number): number {
  return closedVolume(bar + airBar, c1 + 273.15, c2 + 273.15) - airBar;
}

/**
 * Amount of gas gained (leak into the volume positive) in mol/s between two states of a known volume:
 * n = (V / R) · (p2/T2 − p1/T1) / (t2 − t1), the vacuum-decay form of 40 CFR 1065.644. V in m³, dt in s.
 */
export function leakRateMol(
  volume: number,
  p1: number,
  t1: number,
  p2: number,
  t2: number,
  dt: number,
  r = R_MOLAR,
): number {
  return ((volume / r) * (p2 / t2 - p1 / t1)) / dt;
}
