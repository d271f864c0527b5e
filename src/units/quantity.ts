/**
 * Factors between units. The project counts in bar (gauge unless a name says abs), °C, mm, litres and seconds; physics
 * in SI. A unit stands in the name of what has it.
 */

/** Pa in one bar (exact, SI brochure). */
export const PA_PER_BAR = 100_000;
/** Pa in one psi: one pound-force (0.45359237 kg · 9.80665 m/s²) on a square inch (0.0254 m)², all exact. */
export const PA_PER_PSI = (0.453_592_37 * 9.806_65) / (0.0254 * 0.0254);
/** mm in one inch (exact since 1959). */
export const MM_PER_INCH = 25.4;
