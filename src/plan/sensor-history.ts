import type { Named } from '../job/bundle.ts';
import { DEMO_DEVICE } from '../job/demo.ts';
import type { JobDocument } from '../job/job-document.ts';
import type { SensorCheck, SensorRun } from '../job/sensor-check.ts';
import type { SensorDocument } from '../job/sensor-document.ts';
import { type Drift, driftOver } from '../sensing/opinion.ts';
import { zeroLimitBar } from '../sensing/zero.ts';
import { input, type Notes } from './notes.ts';

/** One job of a sensor: what was checked in it. A check that was not made is null. */
export interface HistoryRow {
  readonly runId: string;
  readonly title: string;
  readonly utcMs: number;
  readonly zero: SensorCheck | null;
  readonly gauge: SensorCheck | null;
  readonly warm: SensorCheck | null;
  /** Made before the calibration in force: shown, but of another line, so that it counts for no drift. */
  readonly beforeCalibration: boolean;
}

/** What earlier jobs say of a sensor. Drifts are null where no job since the calibration made that check. */
export interface SensorHistory {
  /** Oldest first. */
  readonly rows: readonly HistoryRow[];
  readonly zero: Drift | null;
  /** How far a zero of this sensor may be taken, bar. */
  readonly zeroLimitBar: number;
  /** Reading less dial gauge. */
  readonly gauge: Drift | null;
  /** Reading less thermometer, of a probe in the warm hand. */
  readonly warm: Drift | null;
}

const DAY_MS = 86_400_000;
/** Steps that are never called a jump: a zero moves so far with the weather, a gauge and a hand are read no better. */
const LEAST_STEP = { zero: 0.005, gauge: 0.04, warm: 1.5 } as const;
/** A probe in the hand: agreement within this much (common practice, no source). */
const WARM_LIMIT_K = 3;

/**
 * The jobs of a sensor, told by its serial. Practice counts for the practice rig's own sensors only: what a
 * simulated rig reads says nothing of a sensor that is to guard a packer.
 * @param gaugeUBar expanded uncertainty of the dial gauge, bar
 */
export function reviewHistory(
  sensor: SensorDocument,
  runs: readonly SensorRun[],
  gaugeUBar: number,
): SensorHistory {
  const rig = sensor.deviceId === DEMO_DEVICE;
  const since = sensor.calibration === null ? Number.NEGATIVE_INFINITY : Date.parse(sensor.calibration.date);
  const rows = runs
    .filter((r) => !r.practice || rig)
    .map((r): HistoryRow => {
      const of = (what: SensorCheck['what']) =>
        r.checks.findLast((c) => c.what === what && c.serial === sensor.serial) ?? null;
      const pressure = sensor.quantity === 'pressure';
      return {
        runId: r.runId,
        title: r.title,
        utcMs: r.utcMs,
        zero: pressure ? of('zero') : null,
        gauge: pressure ? of('gauge') : null,
        warm: pressure ? null : of('warm'),
        beforeCalibration: r.utcMs < since,
      };
    })
    .filter((r) => r.zero !== null || r.gauge !== null || r.warm !== null)
    .sort((a, b) => a.utcMs - b.utcMs);
  const { lo, hi } = sensor.range;
  const zeroLimit = zeroLimitBar({ rangeLo: lo, rangeHi: hi, gaugeKind: sensor.gaugeKind });
  const drift = (what: 'zero' | 'gauge' | 'warm', limit: number) =>
    driftOver(
      rows.flatMap((r) => {
        const check = r[what];
        return check === null || r.beforeCalibration ? [] : [{ day: r.utcMs / DAY_MS, off: check.off }];
      }),
      limit,
      LEAST_STEP[what],
    );
  return {
    rows,
    zero: drift('zero', zeroLimit),
    zeroLimitBar: zeroLimit,
    gauge: drift('gauge', gaugeUBar),
    warm: drift('warm', WARM_LIMIT_K),
  };
}

/** A drift that meets its limit within this many days is worth a word at planning. */
const SOON_DAYS = 60;

/** What the sensors of a job showed in earlier jobs, where it should be known before mixing. */
export function planSensorHistory(
  job: JobDocument,
  sensors: readonly Named<SensorDocument>[],
  runs: readonly SensorRun[],
  gaugeUBar: number,
  notes: Notes,
): void {
  const used = new Set(job.device.channels.map((c) => c.sensorId));
  for (const { id, document: sensor } of sensors) {
    if (!used.has(id)) continue;
    const { rows, zero, gauge } = reviewHistory(sensor, runs, gaugeUBar);
    const last = (what: 'zero' | 'gauge' | 'warm') =>
      rows.findLast((r) => r[what] !== null && !r.beforeCalibration)?.[what] ?? null;
    const [lastZero, lastGauge, lastWarm] = [last('zero'), last('gauge'), last('warm')];
    if (lastZero?.agrees === false)
      notes.warn('zero-refused', [input('zero', lastZero.off * 1000, 'mbar')], sensor.serial);
    else if (zero?.jumped === true)
      notes.warn('zero-jumped', [input('zero', zero.now * 1000, 'mbar')], sensor.serial);
    else if (zero !== null && zero.daysToLimit !== null && zero.daysToLimit < SOON_DAYS)
      notes.warn(
        'zero-drifting',
        [input('zero', zero.now * 1000, 'mbar'), input('days', Math.floor(zero.daysToLimit), '1')],
        sensor.serial,
      );
    if (lastGauge?.agrees === false)
      notes.warn('gauge-differed', [input('off-gauge', lastGauge.off * 1000, 'mbar')], sensor.serial);
    else if (gauge !== null && (gauge.jumped || (gauge.daysToLimit ?? SOON_DAYS) < SOON_DAYS))
      notes.warn('gauge-drifting', [input('off-gauge', gauge.now * 1000, 'mbar')], sensor.serial);
    if (lastWarm?.agrees === false)
      notes.warn('probe-differed', [input('off-thermometer', lastWarm.off, 'K')], sensor.serial);
  }
}
