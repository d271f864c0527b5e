/**
 * From where on a point is doubtful or bad. They are held against the record that the device is to keep: a fill that
 * is stopped by a forecast, a hold whose leak is told in mbar/min.
 */

/** Shares of lines refused and of samples missing; none at all is good. An odd click happens, one in a hundred is a fault (common practice, no source). */
export const SHARE = { doubtful: 0, bad: 0.01 } as const;
/** Lines that must have come before that is judged. */
export const LEAST_LINES = 200;

/** Share of the rate that the device said it keeps. */
export const RATE_KEPT = { good: 0.98, doubtful: 0.9 } as const;
/** Samples a second: a reading is grey after half a second (docs/alarms.md, silence), a forecast wants ten (common practice, no source). */
export const RATE_HZ = { good: 10, doubtful: 2 } as const;
export const RATE_LISTENED_S = 10;

/**
 * The device's clock against the computer's, ppm. 200: two crystals apart, as sensing/clock.ts allows. 10 000: a ceramic or RC
 * oscillator; rates and times are off by a hundredth (common practice, no source).
 */
export const CLOCK_PPM = { good: 200, doubtful: 10_000 } as const;
export const CLOCK_LISTENED_S = 60;

/** Without a restart for so long, s (common practice, no source). */
export const RESTART_LISTENED_S = 60;

/** The smallest step, mbar: a hold's leak is told from a few mbar on (docs/science.md). */
export const STEP_MBAR = { good: 2, doubtful: 10 } as const;

/** Standard deviation of a reading at rest, mbar (common practice, no source). */
export const NOISE_MBAR = { good: 2, doubtful: 10 } as const;
export const NOISE_LISTENED_S = 10;

/** At rest, mbar/min: a drift as big as a small leak is taken for one, and 1 mbar/min is told as a leak in the hold (common practice, no source). */
export const DRIFT_MBAR_MIN = { good: 0.3, doubtful: 1 } as const;
export const DRIFT_LISTENED_S = 180;

/** Of the furthest that a zero may be taken from (sensing/zero.ts); beyond half of it the sensor is watched (common practice, no source). */
export const ZERO_SHARE = 0.5;

/** A reference under this share of the span tells little of the span (common practice, no source). */
export const SPAN_SHARE = 0.1;
/** Reading and reference agree within their uncertainties (k = 2) together (GUM, 7.2); up to twice that they may. */
export const SPAN_JUST = 2;

/** How far the lowest sensor power lies under its nominal value, share: a supply for sensors keeps a few per cent (common practice, no source). */
export const SAG = { good: 0.03, doubtful: 0.1 } as const;
export const SUPPLY_LISTENED_S = 10;

/** A palm has 30 to 34 °C (value from memory), so a room at 20 °C leaves ten kelvin; a tip of 6 s lag shows them in half a minute, K. */
export const WARM_K = { rises: 3, little: 1, falls: -1 } as const;
export const WARM_HELD_S = 60;
/** Of the readings before, s. */
export const WARM_BEFORE_S = 5;

/** The device's limit in its test, bar: over the small pressure of 0.10 bar, at which it may be taken away again. */
export const GUARD_BAR = 0.3;
/** A trip by so much over it is late: a hand at the pump makes 0.1 bar/s, and a few samples pass (common practice, no source). */
export const GUARD_LATE_BAR = 0.05;
/** Over limit and that for so long without a trip: it guards nothing, s. */
export const GUARD_SILENT_S = 1;
