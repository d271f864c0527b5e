import { describe, expect, it } from 'vitest';
import { USUAL_GAUGE_U_BAR } from '../job/dial-gauge.ts';
import type { SensorCheck, SensorRun } from '../job/sensor-check.ts';
import type { SensorDocument } from '../job/sensor-document.ts';
import { DEMO } from '../words/testing/demo.ts';
import { Notes } from './notes.ts';
import { planSensorHistory, reviewHistory } from './sensor-history.ts';

const DAY = 86_400_000;
const START = Date.parse('2026-03-01');
const rig = DEMO.sensors[0]!.document;
const sensor: SensorDocument = { ...rig, deviceId: 'D-1' };
const probe: SensorDocument = { ...DEMO.sensors[1]!.document, deviceId: 'D-1' };

const check = (what: SensorCheck['what'], off: number, agrees = true, of = sensor): SensorCheck => ({
  what,
  serial: of.serial,
  channel: 0,
  off,
  agrees,
});
const run = (days: number, checks: readonly SensorCheck[], practice = false): SensorRun => ({
  runId: `r${days}`,
  title: `Job ${days}`,
  practice,
  utcMs: START + days * DAY,
  checks,
});
const warnings = (runs: readonly SensorRun[], of: SensorDocument = sensor) => {
  const notes = new Notes();
  const named = [{ id: DEMO.sensors[of === probe ? 1 : 0]!.id, document: of }];
  planSensorHistory(DEMO.job, named, runs, USUAL_GAUGE_U_BAR, notes);
  return notes.warnings;
};
const creep = (bar: readonly number[]) => bar.map((off, i) => run(10 * i, [check('zero', off)]));

describe('a sensor over its jobs', () => {
  it('gathers its own checks, oldest first, and nobody else’s', () => {
    const h = reviewHistory(
      sensor,
      [
        run(20, [check('zero', 0.004), check('gauge', 0.03)]),
        run(10, [check('zero', 0.002), check('zero', 0.5, true, { ...sensor, serial: 'other' })]),
        run(30, []),
      ],
      0.08,
    );
    expect(h.rows.map((r) => r.runId)).toEqual(['r10', 'r20']);
    expect(h.zero).toMatchObject({ jobs: 2, now: 0.004 });
    expect(h.gauge).toMatchObject({ jobs: 1 });
    expect(h.zeroLimitBar).toBeCloseTo(0.04, 12);
  });

  it('jobs before the calibration in force are shown and count for no drift', () => {
    const h = reviewHistory(sensor, [run(-60, [check('zero', 0.03)]), run(5, [check('zero', 0.001)])], 0.08);
    expect(h.rows.map((r) => r.beforeCalibration)).toEqual([true, false]);
    expect(h.zero).toMatchObject({ jobs: 1, since: 0 });
  });

  it('practice says nothing of a real sensor, and everything of the practice rig’s', () => {
    const practised = [run(1, [check('zero', 0.002)], true)];
    expect(reviewHistory(sensor, practised, 0.08).rows).toEqual([]);
    expect(reviewHistory(rig, practised, 0.08).rows).toHaveLength(1);
  });
});

describe('at planning', () => {
  it('a zero that creeps is told with its days left, and a steady one is not', () => {
    const [warning] = warnings(creep([0.002, 0.01, 0.018, 0.026]));
    // 0.8 mbar a day, 14 mbar left to 40 mbar.
    expect(warning).toMatchObject({ code: 'zero-drifting', about: 'T-2207' });
    expect(warning!.numbers.map((n) => n.value)).toEqual([26, 17]);
    expect(warnings(creep([0.002, 0.003, 0.001, 0.002]))).toEqual([]);
  });

  it('a jump, a refused zero and a gauge that differed are told', () => {
    expect(warnings(creep([0.001, 0.002, 0.001, 0.002, 0.02]))).toMatchObject([{ code: 'zero-jumped' }]);
    expect(warnings([run(1, [check('zero', 0.07, false)])])).toMatchObject([{ code: 'zero-refused' }]);
    expect(warnings([run(1, [check('gauge', 0.12, false)])])).toMatchObject([{ code: 'gauge-differed' }]);
    // Made good since: nothing is left to say.
    expect(warnings([run(1, [check('gauge', 0.12, false)]), run(2, [check('gauge', 0.01)])])).toEqual([]);
  });

  it('sensor and gauge that move apart are told before they disagree', () => {
    const apart = [0, 0.02, 0.04, 0.06].map((off, i) => run(10 * i, [check('gauge', off)]));
    expect(warnings(apart)).toMatchObject([{ code: 'gauge-drifting' }]);
  });

  it('a probe that failed in the hand is told', () => {
    expect(warnings([run(1, [check('warm', 8, false, probe)])], probe)).toMatchObject([
      { code: 'probe-differed', about: 'K-01' },
    ]);
  });
});
