import type { SensorDocument } from '../job/sensor-document.ts';
import {
  type CalibrationDrift,
  type CalibrationRefusal,
  calibrationDrift,
  fitCalibration,
} from '../sensing/calibration.ts';
import { type EarlierZero, type ZeroDrift, zeroDrift } from '../sensing/opinion.ts';
import { zeroLimitBar } from '../sensing/zero.ts';

/**
 * Drift of a sensor's zero over its jobs, oldest first, against how far a zero may be taken. null without any.
 */
export function reviewZeros(sensor: SensorDocument, zeros: readonly EarlierZero[]): ZeroDrift | null {
  const { lo, hi } = sensor.range;
  return zeroDrift(zeros, zeroLimitBar({ rangeLo: lo, rangeHi: hi, gaugeKind: sensor.gaugeKind }));
}

/** What a sensor's calibration amounts to, for its sheet: line, residuals, what had moved. */
export interface CalibrationReview {
  /** Points that the line runs through: as left, or as found where nothing was adjusted. */
  readonly points: SensorDocument['earlier'][number]['asLeft'];
  readonly fit: {
    readonly offset: number;
    readonly gain: number;
    readonly residuals: readonly number[];
    /** Standard uncertainty by the residuals, bar or K; assumed where two points leave no residual. */
    readonly uResidual: number;
    readonly assumed: boolean;
  } | null;
  /** Why the points make no calibration. */
  readonly refusal: CalibrationRefusal | null;
  readonly drift: CalibrationDrift | null;
  /** Largest move from what the calibration before left to what this one found, bar or K; null without both. */
  readonly sinceLast: number | null;
  /** Days left until it is due on that date; negative when overdue; null without a date or interval. */
  readonly daysLeft: number | null;
}

const DAY_MS = 86_400_000;

/** Reviews a sensor's calibration as of an ISO date. null for a sensor without one. */
export function reviewCalibration(sensor: SensorDocument, today: string | null): CalibrationReview | null {
  const c = sensor.calibration;
  if (c === null) return null;
  const { lo, hi } = sensor.range;
  const points = c.asLeft.length > 0 ? c.asLeft : c.asFound;
  const fit = fitCalibration(points, hi - lo);
  const before = sensor.earlier[0];
  const left = before === undefined ? [] : before.asLeft.length > 0 ? before.asLeft : before.asFound;
  const age = today === null ? null : (Date.parse(today) - Date.parse(c.date)) / DAY_MS;
  return {
    points,
    fit: fit.ok
      ? {
          offset: fit.offset,
          gain: fit.gain,
          residuals: fit.residuals,
          uResidual: fit.uResidual,
          assumed: fit.uResidualAssumed,
        }
      : null,
    refusal: fit.ok ? null : fit.reason,
    drift: calibrationDrift(c.asFound, c.asLeft, lo, hi),
    sinceLast: left.length < 2 ? null : (calibrationDrift(c.asFound, left, lo, hi)?.drift ?? null),
    daysLeft: age === null || sensor.dueDays === null ? null : sensor.dueDays - Math.floor(age),
  };
}
