import type { Quantity } from '../job/codes.ts';
import type { CalibrationPoint } from '../job/setup.ts';

/**
 * Calibration: corrected = offset + gain · indicated, least squares of the reference on the indicated value (the
 * line is used in that direction, and the reference is the better of the two). A temperature whose points lie close
 * together, or that was compared at one point alone, is corrected by an offset: points so near say nothing of a slope.
 */

/** Why points make no calibration: each is a mistake that would otherwise hide in a plausible line. */
export type CalibrationRefusal =
  | 'too-few' // no point; of a pressure fewer than two
  | 'too-many' // more than eleven
  | 'not-finite'
  | 'narrow' // a pressure's points span less than half of the sensor's range
  | 'gain' // more than a tenth off: wrong range, or psi taken for bar
  | 'offset' // more than a twentieth of the span off
  | 'residual' // a point lies more than a hundredth of the span off the line
  | 'far-off' // a temperature more than ten kelvin off: another type, crossed wires, or no stirred ice
  | 'scattered'; // temperatures near each other that are off by differences of over two kelvin

export interface CalibrationFit {
  readonly ok: true;
  readonly offset: number;
  readonly gain: number;
  /** reference − corrected, in the points' order, bar or K. */
  readonly residuals: readonly number[];
  /**
   * Standard deviation of the residuals with n − 2 degrees of freedom; for two points, which leave none, a
   * non-linearity of 0.1 % of the span, rectangular, is assumed instead. Of an offset: n − 1 degrees, and what one
   * comparison repeats to is assumed for a single one.
   */
  readonly uResidual: number;
  readonly uResidualAssumed: boolean;
}

export type CalibrationResult = CalibrationFit | { readonly ok: false; readonly reason: CalibrationRefusal };

/** What one reading in a stirred bath repeats to, 1 s, K (common practice, no source). */
export const POINT_REPEATS_K = 0.1;

const CALIBRATION_LIMITS = {
  points: 11,
  /** Share of the span that the points must cover. */
  cover: 0.5,
  gain: 0.1,
  /** Shares of the span. */
  offset: 0.05,
  residual: 0.01,
  assumedNonLinearity: 0.001,
  /**
   * Temperatures by an offset: a class 2 thermocouple and its cold junction are off by 5 K together at the very worst.
   * (Common practice, no source.)
   */
  offsetK: 10,
  scatterK: 2,
} as const;

/** Points that a calibration is made of: as left, or as found where nothing was adjusted. */
export const leftOf = <P extends CalibrationPoint>(c: {
  readonly asFound: readonly P[];
  readonly asLeft: readonly P[];
}): readonly P[] => (c.asLeft.length > 0 ? c.asLeft : c.asFound);

/** Points that carry a line over the sensor's range, not an offset alone. `span`: high minus low, bar or K. */
export function carriesLine(points: readonly CalibrationPoint[], span: number): boolean {
  const at = points.map((p) => p.reference);
  return points.length >= 2 && Math.max(...at) - Math.min(...at) >= CALIBRATION_LIMITS.cover * span;
}

function fitOffset(points: readonly CalibrationPoint[]): CalibrationResult {
  const n = points.length;
  const offset = points.reduce((sum, p) => sum + p.reference - p.indicated, 0) / n;
  const residuals = points.map((p) => p.reference - p.indicated - offset);
  if (Math.abs(offset) > CALIBRATION_LIMITS.offsetK) return { ok: false, reason: 'far-off' };
  if (residuals.some((r) => Math.abs(r) > CALIBRATION_LIMITS.scatterK))
    return { ok: false, reason: 'scattered' };
  const sum = residuals.reduce((s, r) => s + r * r, 0);
  const assumed = n === 1;
  const uResidual = assumed ? POINT_REPEATS_K : Math.sqrt(sum / (n - 1));
  return { ok: true, offset, gain: 1, residuals, uResidual, uResidualAssumed: assumed };
}

/**
 * Fits two to eleven points; of a temperature one will do. `span` is the sensor's range, high minus low, bar or K.
 */
export function fitCalibration(
  points: readonly CalibrationPoint[],
  span: number,
  quantity: Quantity = 'pressure',
): CalibrationResult {
  const n = points.length;
  if (n < (quantity === 'temperature' ? 1 : 2)) return { ok: false, reason: 'too-few' };
  if (n > CALIBRATION_LIMITS.points) return { ok: false, reason: 'too-many' };
  const finite = points.every((p) => Number.isFinite(p.indicated) && Number.isFinite(p.reference));
  if (!finite || !(span > 0) || !Number.isFinite(span)) return { ok: false, reason: 'not-finite' };
  if (!carriesLine(points, span))
    return quantity === 'temperature' ? fitOffset(points) : { ok: false, reason: 'narrow' };

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
 * adjusted: no drift is taken away. Points that carry no line count as an offset. null where nothing was found.
 */
export function calibrationDrift(
  asFound: readonly CalibrationPoint[],
  asLeft: readonly CalibrationPoint[],
  lo: number,
  hi: number,
): CalibrationDrift | null {
  const line = (points: readonly CalibrationPoint[]) => {
    const n = points.length;
    if (n === 0) return null;
    const mx = points.reduce((s, p) => s + p.reference, 0) / n;
    const my = points.reduce((s, p) => s + p.indicated, 0) / n;
    let sxx = 0;
    let sxy = 0;
    for (const p of points) {
      sxx += (p.reference - mx) ** 2;
      sxy += (p.reference - mx) * (p.indicated - my);
    }
    const slope = carriesLine(points, hi - lo) ? sxy / sxx : 1;
    return (x: number) => my + slope * (x - mx);
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
