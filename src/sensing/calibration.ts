import type { CalibrationPoint } from '../job/setup.ts';

/**
 * Calibration: corrected = offset + gain · indicated, least squares of the reference on the indicated value (the
 * line is used in that direction, and the reference is the better of the two).
 */

/** Why points make no calibration: each is a mistake that would otherwise hide in a plausible line. */
export type CalibrationRefusal =
  | 'too-few' // fewer than two points
  | 'too-many' // more than eleven
  | 'not-finite'
  | 'narrow' // the points span less than half of the sensor's range
  | 'gain' // more than a tenth off: wrong range, or psi taken for bar
  | 'offset' // more than a twentieth of the span off
  | 'residual'; // a point lies more than a hundredth of the span off the line

export interface CalibrationFit {
  readonly ok: true;
  readonly offset: number;
  readonly gain: number;
  /** reference − corrected, in the points' order, bar or K. */
  readonly residuals: readonly number[];
  /**
   * Standard deviation of the residuals with n − 2 degrees of freedom; for two points, which leave none, a
   * non-linearity of 0.1 % of the span, rectangular, is assumed instead.
   */
  readonly uResidual: number;
  readonly uResidualAssumed: boolean;
}

export type CalibrationResult = CalibrationFit | { readonly ok: false; readonly reason: CalibrationRefusal };

const CALIBRATION_LIMITS = {
  points: 11,
  /** Share of the span that the points must cover. */
  cover: 0.5,
  gain: 0.1,
  /** Shares of the span. */
  offset: 0.05,
  residual: 0.01,
  assumedNonLinearity: 0.001,
} as const;

/** Fits two to eleven points. `span` is the sensor's range, high minus low, bar or K. */
export function fitCalibration(points: readonly CalibrationPoint[], span: number): CalibrationResult {
  const n = points.length;
  if (n < 2) return { ok: false, reason: 'too-few' };
  if (n > CALIBRATION_LIMITS.points) return { ok: false, reason: 'too-many' };
  const finite = points.every((p) => Number.isFinite(p.indicated) && Number.isFinite(p.reference));
  if (!finite || !(span > 0) || !Number.isFinite(span)) return { ok: false, reason: 'not-finite' };
  const lo = Math.min(...points.map((p) => p.reference));
  const hi = Math.max(...points.map((p) => p.reference));
  if (hi - lo < CALIBRATION_LIMITS.cover * span) return { ok: false, reason: 'narrow' };

  const mx = points.reduce((s, p) => s + p.indicated, 0) / n;
  const my = points.reduce((s, p) => s + p.reference, 0) / n;
  let sxx = 0;
  let sxy = 0;
  for (const p of points) {
    sxx += (p.indicated - mx) ** 2;
    sxy += (p.indicated - mx) * (p.reference - my);
  }
  if (!(sxx > 0)) return { ok: false, reason: 'gain' };
  const gain = sxy / sxx;
  const offset = my - gain * mx;
  if (Math.abs(gain - 1) > CALIBRATION_LIMITS.gain) return { ok: false, reason: 'gain' };
  // The error at the low end of the points: an offset at zero would punish a sensor whose range is far from it.
  const atLow = points.reduce((a, b) => (b.reference < a.reference ? b : a));
  if (Math.abs(atLow.reference - atLow.indicated) > CALIBRATION_LIMITS.offset * span)
    return { ok: false, reason: 'offset' };
  const residuals = points.map((p) => p.reference - (offset + gain * p.indicated));
  if (residuals.some((r) => Math.abs(r) > CALIBRATION_LIMITS.residual * span))
    return { ok: false, reason: 'residual' };
  const sum = residuals.reduce((s, r) => s + r * r, 0);
  const assumed = n === 2;
  const uResidual = assumed
    ? (CALIBRATION_LIMITS.assumedNonLinearity * span) / Math.sqrt(3)
    : Math.sqrt(sum / (n - 2));
  return { ok: true, offset, gain, residuals, uResidual, uResidualAssumed: assumed };
}

export interface CalibrationDrift {
  /** Largest |indicated − reference| before and after adjustment, bar or K. */
  readonly worstFound: number;
  readonly worstLeft: number;
  /** Largest difference between the two lines over the range: what the adjustment took away. */
  readonly drift: number;
  /** Where the drift is largest, bar or °C. */
  readonly at: number;
}

const worst = (points: readonly CalibrationPoint[]): number =>
  points.reduce((w, p) => Math.max(w, Math.abs(p.indicated - p.reference)), 0);

/**
 * As found against as left. `lo`..`hi` is the sensor's range. An empty as-left series means that nothing was
 * adjusted: no drift is taken away. null where the as-found points make no line.
 */
export function calibrationDrift(
  asFound: readonly CalibrationPoint[],
  asLeft: readonly CalibrationPoint[],
  lo: number,
  hi: number,
): CalibrationDrift | null {
  const line = (points: readonly CalibrationPoint[]) => {
    const n = points.length;
    const mx = points.reduce((s, p) => s + p.reference, 0) / n;
    const my = points.reduce((s, p) => s + p.indicated, 0) / n;
    let sxx = 0;
    let sxy = 0;
    for (const p of points) {
      sxx += (p.reference - mx) ** 2;
      sxy += (p.reference - mx) * (p.indicated - my);
    }
    const slope = sxy / sxx;
    return n >= 2 && sxx > 0 ? (x: number) => my + slope * (x - mx) : null;
  };
  const found = line(asFound);
  if (found === null) return null;
  const left = asLeft.length === 0 ? found : line(asLeft);
  if (left === null) return null;
  const atLo = Math.abs(found(lo) - left(lo));
  const atHi = Math.abs(found(hi) - left(hi));
  return {
    worstFound: worst(asFound),
    worstLeft: worst(asLeft.length === 0 ? asFound : asLeft),
    drift: Math.max(atLo, atHi),
    at: atHi >= atLo ? hi : lo,
  };
}
