import { expect, it } from 'vitest';
import type { SensorDocument } from '../job/sensor-document.ts';
import { DEMO } from '../words/testing/demo.ts';
import { reviewCalibration } from './sensor-review.ts';

const sensor = DEMO.sensors[0]!.document;

it('shows line, residuals, drift and the day it is due', () => {
  const r = reviewCalibration(sensor, '2026-02-21')!;
  expect(r.refusal).toBeNull();
  expect(r.points).toEqual(sensor.calibration!.asLeft);
  expect(r.fit!.residuals).toHaveLength(5);
  expect(r.fit!.residuals.reduce((s, x) => s + x, 0)).toBeCloseTo(0, 12);
  expect(r.drift!.worstFound).toBeCloseTo(0.009, 9);
  expect(r.daysLeft).toBe(355);
  expect(r.series).toMatchObject([{ date: '2026-02-11', sinceBefore: null }]);
  expect(r.series[0]!.worstFound).toBeCloseTo(0.009, 9);
});

it('compares with what the calibration before had left', () => {
  const before = { ...sensor.calibration!, date: '2025-02-01', asLeft: sensor.calibration!.asLeft };
  const r = reviewCalibration({ ...sensor, earlier: [before] } as SensorDocument, '2027-03-01')!;
  expect(r.series.map((c) => c.date)).toEqual(['2026-02-11', '2025-02-01']);
  expect(r.series[0]!.sinceBefore).toBeCloseTo(0.008, 2);
  expect(r.series[1]!.sinceBefore).toBeNull();
  expect(r.daysLeft).toBeLessThan(0);
});

it('says why points are no calibration, and that there is none', () => {
  const one = { ...sensor.calibration!, asLeft: [], asFound: [] };
  expect(reviewCalibration({ ...sensor, calibration: one }, null)).toMatchObject({
    fit: null,
    refusal: 'too-few',
  });
  expect(reviewCalibration({ ...sensor, calibration: null }, null)).toBeNull();
});
