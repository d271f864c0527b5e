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

/** Pressure of a column of water, Pa: height in m, temperature in °C. Waste water may be denser by up to 2 %. */
export function head(height: number, c: number): number {
  return waterDensity(c) * G * height;
}
