/** Standard acceleration of free fall, m/s² (exact by definition). */
export const G = 9.806_65;

/**
 * Density of air-free water at one atmosphere, kg/m³, 0-40 °C, else a RangeError: the formula that the CIPM
 * recommends (Tanaka et al., Metrologia 38 (2001) 301), good to 0.001 kg/m³.
 */
export function waterDensity(c: number): number {
  if (!(c >= 0 && c <= 40)) throw new RangeError('water density is given for 0-40 °C');
  const a = c - 3.983_035;
  return 999.974_95 * (1 - (a * a * (c + 301.797)) / (522_528.9 * (c + 69.348_81)));
}

/** Critical point of water: K, Pa. */
const CRITICAL_K = 647.096;
const CRITICAL_PA = 22.064e6;

/**
 * Pressure of saturated water vapour over liquid water, Pa, 0-200 °C, else a RangeError: IAPWS, Revised Supplementary Release
 * on Saturation Properties of Ordinary Water Substance (1992), after Wagner & Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783.
 */
export function vapourPressure(c: number): number {
  if (!(c >= 0 && c <= 200)) throw new RangeError('vapour pressure is given for 0-200 °C');
  const t = c + 273.15;
  const x = 1 - t / CRITICAL_K;
  const sum =
    -7.859_517_83 * x +
    1.844_082_59 * x ** 1.5 -
    11.786_649_7 * x ** 3 +
    22.680_741_1 * x ** 3.5 -
    15.961_871_9 * x ** 4 +
    1.801_225_02 * x ** 7.5;
  return CRITICAL_PA * Math.exp((CRITICAL_K / t) * sum);
}

/** Pressure of a column of water, Pa: height in m, temperature in °C. Waste water may be denser by up to 2 %. */
export function head(height: number, c: number): number {
  return waterDensity(c) * G * height;
}
