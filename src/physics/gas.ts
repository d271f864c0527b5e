/** Ideal gas in a packer. Pressures are absolute, in Pa, and temperatures in K, unless a name says otherwise. */

/** Molar gas constant, J/(mol·K) (exact since 2019). */
export const R_MOLAR = 8.314_462_618;

/** Lift of a closed line in bar a kelvin: absolute pressure over absolute temperature. 8.9 mbar/K at 1.5 bar, 10 °C. */
export function liftPerKelvin(bar: number, c: number, airBar: number): number {
  return (bar + airBar) / (c + 273.15);
}

/**
 * Leak rate in Pa·m³/s (pV flow at temperature t, K) of a rate of pressure change at constant temperature: bar/min in,
 * volume in litres. 1 mbar/min in 10 L is 0.0167 Pa·m³/s.
 */
export function leakPaM3(barPerMin: number, litres: number): number {
  return ((barPerMin * 1e5) / 60) * (litres / 1000);
}
