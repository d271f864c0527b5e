import type { SensorDocument } from '../job/sensor-document.ts';
import type { CalibrationPoint } from '../job/setup.ts';
import {
  type CalibrationDrift,
  type CalibrationRefusal,
  calibrationDrift,
  carriesLine,
  fitCalibration,
  leftOf,
} from '../sensing/calibration.ts';

/** One calibration in the row of a sensor's calibrations. */
export interface CalibrationStep {
  readonly date: string;
  readonly by: string;
  /** Largest error as found, bar or K; null: not noted. */
  readonly worstFound: number | null;
  /** Largest move from what the calibration before left to what this one found; null without both. */
  readonly sinceBefore: number | null;
}

/** What a sensor's calibration amounts to, for its sheet: line, residuals, what had moved. */
export interface CalibrationReview {
  /** Points that the line runs through: as left, or as found where nothing was adjusted. */
  readonly points: readonly CalibrationPoint[];
  readonly fit: {
    readonly offset: number;
    readonly gain: number;
    readonly residuals: readonly number[];
    /** Standard uncertainty by the residuals, bar or K; assumed where two points leave no residual. */
    readonly uResidual: number;
    readonly assumed: boolean;
    /** One correction everywhere: the points carry no slope. */
    readonly byOffset: boolean;
    /** A temperature is off by more than thermocouples are: it is asked what was compared. */
    readonly isFar: boolean;
  } | null;
  /** Why the points make no calibration. */
  readonly refusal: CalibrationRefusal | null;
  readonly drift: CalibrationDrift | null;
  /** Every calibration that is known, newest first. */
  readonly series: readonly CalibrationStep[];
  /** Days left until it is due on that date; negative when overdue; null without a date or interval. */
  readonly daysLeft: number | null;
}

const DAY_MS = 86_400_000;
/** A class 2 thermocouple is off by 2.5 K at the most near 0 °C (IEC 60584-1), its cold junction by some tenths, K. */
const ASKED_K = 3;

const offBy = (p: CalibrationPoint): number => Math.abs(p.indicated - p.reference);

/** Reviews a sensor's calibration as of an ISO date. null for a sensor without one. */
export function reviewCalibration(sensor: SensorDocument, today: string | null): CalibrationReview | null {
  const c = sensor.calibration;
  if (c === null) return null;
  const { lo, hi } = sensor.range;
  const points = leftOf(c);
  const fit = fitCalibration(points, hi - lo, sensor.quantity);
  const all = [c, ...sensor.earlier];
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
          byOffset: !carriesLine(points, hi - lo),
          isFar: sensor.quantity === 'temperature' && points.some((p) => offBy(p) > ASKED_K),
        }
      : null,
    refusal: fit.ok ? null : fit.reason,
    drift: calibrationDrift(c.asFound, c.asLeft, lo, hi),
    series: all.map((now, i) => {
      const before = all[i + 1];
      const found = calibrationDrift(now.asFound, now.asLeft, lo, hi);
      const left = before === undefined ? [] : leftOf(before);
      return {
        date: now.date,
        by: now.by,
        worstFound: found?.worstFound ?? null,
        sinceBefore: left.length === 0 ? null : (calibrationDrift(now.asFound, left, lo, hi)?.drift ?? null),
      };
    }),
    daysLeft: age === null || sensor.dueDays === null ? null : sensor.dueDays - Math.floor(age),
  };
}
