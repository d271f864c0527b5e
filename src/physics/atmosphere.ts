/** Layers of the US Standard Atmosphere 1976 up to 20 km: geopotential height m', base temperature K, lapse K/m'. */
const G0 = 9.806_65;
const EARTH_R = 6_356_766;
const R_STAR = 8.314_32;
const M0 = 0.028_964_4;
const SEA_LEVEL_PA = 101_325;
const SEA_LEVEL_K = 288.15;
const LAPSE = -0.0065;
const TROPOPAUSE = 11_000;

/**
 * Air pressure in Pa at a geometric altitude in m after the US Standard Atmosphere 1976; −5 000 to 11 000 m, else a
 * RangeError. Real weather lies within about ±30 hPa of it.
 */
export function standardAirPressure(altitude: number): number {
  if (!(altitude >= -5000 && altitude <= 11_019)) throw new RangeError('altitude out of the troposphere');
  const h = (EARTH_R * altitude) / (EARTH_R + altitude);
  const t = SEA_LEVEL_K + LAPSE * Math.min(h, TROPOPAUSE);
  return SEA_LEVEL_PA * (SEA_LEVEL_K / t) ** ((G0 * M0) / (R_STAR * LAPSE));
}
