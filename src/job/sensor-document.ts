import * as z from 'zod/mini';
import { GAUGE_KINDS, QUANTITIES, SIGNALS, THERMOCOUPLE_CLASSES, THERMOCOUPLES } from './codes.ts';
import { block, date, deviceId, int, line, name, num, rows } from './fields.ts';
import type { StepsTo } from './migrations.ts';

/** A transducer or thermocouple with its calibration. A calibration belongs to device + channel + serial. */

/** bar or °C: indicated with the nominal scale, beside the reference. */
const point = z.strictObject({ indicated: num(-300, 2000), reference: num(-300, 2000) });
export const calibrationPoints = () => rows(point, 11);

const calibration = z.strictObject({
  date: date(),
  /** None is allowed: nothing was noted as found, or no adjustment made (as left is as found). */
  asFound: calibrationPoints(),
  asLeft: calibrationPoints(),
  /** Standard uncertainty of the reference, bar or K. */
  uReference: num(0, 10),
  /** Instrument used as reference, and its own certificate. */
  reference: line(120),
  by: line(80),
});
export type SensorCalibration = z.infer<typeof calibration>;

/** One point makes no line: a pressure needs two, where there are any. A temperature is corrected by an offset. */
const isPaired =
  (series: 'asFound' | 'asLeft') =>
  (sensor: { readonly quantity: string; readonly calibration: SensorCalibration | null }): boolean =>
    sensor.quantity === 'temperature' || sensor.calibration?.[series].length !== 1;

/** Version 1 did not ask what a transducer's own warmth does to it: nobody stated it. */
export const sensorMigrations: StepsTo<SensorDocument['version']> = [(old) => ({ ...old, perKelvin: null })];

export const sensorSchema = z
  .strictObject({
    version: z.literal(2),
    name: name(120),
    serial: name(60),
    quantity: z.enum(QUANTITIES),
    deviceId: z.nullable(deviceId()),
    channel: z.nullable(int(0, 6)),
    signal: z.enum(SIGNALS),
    thermocouple: z.nullable(z.enum(THERMOCOUPLES)),
    /** IEC 60584-1 tolerance class. */
    thermocoupleClass: z.nullable(z.literal([...THERMOCOUPLE_CLASSES])),
    gaugeKind: z.nullable(z.enum(GAUGE_KINDS)),
    /** Span: bar or °C. */
    range: z
      .strictObject({ lo: num(-300, 2000), hi: num(-300, 2000) })
      .check(z.refine((r) => r.hi > r.lo, { params: { code: 'pair' }, path: ['hi'] })),
    /** Signal at the ends of the span: µA, ppm of the supply, or µV; null for digital and thermocouples. */
    span: z.nullable(
      z
        .strictObject({ elLo: num(-1e8, 1e8), elHi: num(-1e8, 1e8) })
        .check(z.refine((s) => s.elHi !== s.elLo, { params: { code: 'pair' }, path: ['elHi'] })),
    ),
    /** Expanded accuracy of its sheet (k = 2) where there is no calibration, bar or K; null: not stated. */
    accuracy: z.nullable(num(0, 50)),
    /** Pressure: zero and span together by the sensor's own warmth, % of the span a kelvin; null: not stated. */
    perKelvin: z.nullable(num(0, 1, '%/K')),
    calibration: z.nullable(calibration),
    /** Earlier calibrations, newest first, for drift. */
    earlier: rows(calibration, 40),
    /** Days after which a calibration is due. */
    dueDays: z.nullable(int(1, 5000)),
    retired: z.boolean(),
    notes: block(2000),
  })
  .check(
    z.refine(isPaired('asFound'), { params: { code: 'pair' }, path: ['calibration', 'asFound'] }),
    z.refine(isPaired('asLeft'), { params: { code: 'pair' }, path: ['calibration', 'asLeft'] }),
  );

export type SensorDocument = z.infer<typeof sensorSchema>;

/** A 4-20 mA gauge transducer, 0-4 bar, to be edited. */
export function blankSensor(name: string, serial: string): SensorDocument {
  return {
    version: 2,
    name,
    serial,
    quantity: 'pressure',
    deviceId: null,
    channel: null,
    signal: 'current',
    thermocouple: null,
    thermocoupleClass: null,
    gaugeKind: 'gauge',
    range: { lo: 0, hi: 4 },
    span: { elLo: 4000, elHi: 20_000 },
    accuracy: null,
    perKelvin: null,
    calibration: null,
    earlier: [],
    dueDays: 365,
    retired: false,
    notes: '',
  };
}
