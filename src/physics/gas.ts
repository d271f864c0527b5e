/** Ideal gas in a packer. Pressures are absolute, in Pa, and temperatures in K, unless a name says otherwise. */

/** Molar gas constant, J/(mol·K) (exact since 2019). */
export const R_MOLAR = 8.314_462_618;
/** Specific gas constant of dry air, J/(kg·K) (US Standard Atmosphere 1976: 8.31432 / 0.0289644). */
export const R_AIR = 287.053;
/** Ratio of specific heats of air near room temperature. */
export const GAMMA_AIR = 1.4;

/**
 * Absolute pressure of a closed, rigid volume after its gas went from t1 to t2: p2 = p1 · t2 / t1. Good for air from
 * 250 to 400 K and up to 20 bar to better than 0.5 %.
 */
export function closedVolume(p1: number, t1: number, t2: number): number {
  return (p1 * t2) / t1;
}

/** The same in gauge bar and °C: the air pressure outside is `airBar` absolute. */
export function closedVolumeGauge(bar: number, c1: number, c2: number, airBar: number): number {
  return closedVolume(bar + airBar, c1 + 273.15, c2 + 273.15) - airBar;
}

/** Lift of a closed line in bar a kelvin: absolute pressure over absolute temperature. 8.9 mbar/K at 1.5 bar, 10 °C. */
export function liftPerKelvin(bar: number, c: number, airBar: number): number {
  return (bar + airBar) / (c + 273.15);
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

/**
 * Leak rate in Pa·m³/s (pV flow at temperature t, K) of a rate of pressure change at constant temperature: bar/min in,
 * volume in litres. 1 mbar/min in 10 L is 0.0167 Pa·m³/s.
 */
export function leakPaM3(barPerMin: number, litres: number): number {
  return ((barPerMin * 1e5) / 60) * (litres / 1000);
}

/** Critical pressure ratio p2/p1 of isentropic flow: (2 / (γ + 1))^(γ / (γ − 1)). */
export function criticalRatio(gamma = GAMMA_AIR): number {
  return (2 / (gamma + 1)) ** (gamma / (gamma - 1));
}

/** Reference state of ISO 6358 (ISO 8778): 20 °C, 1 bar, 65 % humidity. */
export const ISO_T0 = 293.15;
export const ISO_RHO0 = 1.185;

/**
 * Mass flow in kg/s through a restriction of sonic conductance c (m³/(s·Pa)) and critical pressure ratio b, in the
 * form of ISO 6358: choked up to p2/p1 = b, then an ellipse. p1, p2 in Pa absolute, t1 in K upstream. Zero, not
 * negative, when p2 is at or over p1; b from 0 up to below 1.
 */
export function iso6358(c: number, b: number, p1: number, t1: number, p2: number): number {
  if (!(b >= 0 && b < 1)) throw new RangeError('critical pressure ratio out of [0, 1)');
  if (p2 >= p1) return 0;
  const choked = c * p1 * ISO_RHO0 * Math.sqrt(ISO_T0 / t1);
  const u = (p2 / p1 - b) / (1 - b);
  return u <= 0 ? choked : choked * Math.sqrt(1 - u * u);
}
