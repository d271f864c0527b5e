import { isPressureRole } from '../job/pressure-roles.ts';
import { warmthBarPerK } from '../job/sensor-warmth.ts';
import type { ChannelSetup, Setup } from '../job/setup.ts';
import { calibrationDrift, carriesLine, leftOf } from './calibration.ts';
import { seebeck } from './its90/reference.ts';
import { countsAStep, electrical, nominal } from './signal.ts';
import { junctionWeight, tolerance } from './thermocouple.ts';

/**
 * Uncertainty of a single reading after the GUM (JCGM 100): every component as a standard uncertainty, combined as
 * root of the sum of squares (they are taken as independent), expanded with k = 2.
 */

export type BudgetCode =
  | 'reference' // standard uncertainty of the reference used in the calibration
  | 'residual' // scatter of the calibration points about the line
  | 'drift' // what may have moved since the calibration
  | 'environment' // the sensor's own warmth away from the calibration's
  | 'sensor' // no calibration: the sensor's sheet
  | 'resolution' // one step of the converter
  | 'zero' // zero taken for this job, or how far it may have moved
  | 'supply' // supply of a ratiometric sensor
  | 'noise' // scatter of the readings
  | 'class' // tolerance class of the thermocouple
  | 'away' // corrected by an offset: away from the temperature at which it was compared
  | 'junction'; // cold junction

export interface BudgetRow {
  readonly code: BudgetCode;
  /** Standard uncertainty, bar or K. */
  readonly u: number;
  readonly distribution: 'normal' | 'rectangular';
  /** A statistical evaluation of this very calibration or stream (type A), else judgement or a sheet (type B). */
  readonly type: 'A' | 'B';
}

export interface Budget {
  readonly rows: readonly BudgetRow[];
  /** Combined standard uncertainty, bar or K. */
  readonly combined: number;
  readonly k: 2;
  readonly expanded: number;
}

export interface BudgetOptions {
  /** Standard deviation of a single reading's noise, bar or K; 0 where nothing has been read yet. */
  readonly noise?: number;
  /** Zero taken for this job with the coupling open. */
  readonly zeroed?: boolean;
  /** Expanded uncertainty of the air pressure, bar: it counts for absolute and sealed sensors. */
  readonly airU?: number;
  /** How much warmer or colder the sensor may be than at its zero, K; for the difference of two readings: between them. */
  readonly warmthK?: number;
  /** Temperature of the cold junction, °C; 20 where nothing has been read yet. */
  readonly junctionC?: number;
}

const R3 = Math.sqrt(3);
const R12 = Math.sqrt(12);

/** Half-widths as shares of the span (common practice where a sheet says nothing). */
const SHARES = {
  /** Long-term drift in a calibration interval, when as-found and as-left say no more. */
  drift: 0.001,
  /** Zero not taken for this job. */
  openZero: 0.0025,
  /** Zero taken: hysteresis after a load. */
  zero: 0.0005,
} as const;

/** A sensor is so much warmer or colder than when its zero was taken or it was calibrated, K (common practice). */
const ENVIRONMENT_K = 10;

/** Supply of a ratiometric sensor: measured by the device's own converter, or unknown (4.5-5.5 V of 5). */
export const SUPPLY_MEASURED = 0.002;
export const SUPPLY_UNKNOWN = 0.1;
const THERMOCOUPLE_DRIFT_K = 0.3;

/**
 * A class's share of the temperature (IEC 60584-1: 0.4 and 0.75 %) is what a thermocouple's slope may be off; a sensor
 * without a class is granted the worse one.
 */
const SLOPE_SHARE = { 1: 0.004, 2: 0.0075 } as const;
/** The cold junction of a comparison may have been so much warmer or colder than the job's, K (common practice, no source). */
const JUNCTION_APART_K = 15;
/**
 * A comparison is made with the device that reads the probe (a calibration belongs to both), so that the junction's own
 * error is in it. What is left of it when the device is warmer or colder, ±K (common practice, no source).
 */
const JUNCTION_LEFT_K = 0.5;

const square = (x: number): number => x * x;

export function combine(rows: readonly BudgetRow[]): Budget {
  const combined = Math.sqrt(rows.reduce((s, r) => s + square(r.u), 0));
  return { rows, combined, k: 2, expanded: 2 * combined };
}

/** Value of one converter step in bar, °C or V. */
export function stepValue(ch: ChannelSetup): number {
  const el = electrical(ch);
  const line = nominal(ch);
  if (el === null || line === null) return 0;
  return Math.abs(el.b * line.b * (ch.calibration?.gain ?? 1)) * countsAStep(ch);
}

/** Relative supply uncertainty × the part of the indicated value that scales with it, at that pressure: bar. */
export function supplySensitivity(ch: ChannelSetup, bar: number): number {
  const line = nominal(ch);
  if (ch.signal !== 'ratio' || line === null) return 0;
  // indicated = a + b · ratio: only b · ratio scales with the supply.
  return Math.abs((bar - line.a) * (ch.calibration?.gain ?? 1));
}

/** What the weather may move the air pressure within a job after the zero, standard uncertainty, bar. */
const WEATHER_U = 0.003;
/** Air pressure of which nothing is known: off by a weather front and a thousand metres, expanded, bar. */
export const UNKNOWN_AIR_U = 0.15;

/**
 * Standard uncertainty of the zero, bar: hysteresis once it was taken, drift before. An absolute or sealed sensor
 * shows the air pressure besides: the zero takes that away but for the weather since.
 */
export function zeroUncertainty(ch: ChannelSetup, zeroed: boolean, airU = UNKNOWN_AIR_U): number {
  const own = ((zeroed ? SHARES.zero : SHARES.openZero) * Math.abs(ch.rangeHi - ch.rangeLo)) / R3;
  if (ch.gaugeKind !== 'absolute' && ch.gaugeKind !== 'sealed') return own;
  return Math.hypot(own, zeroed ? WEATHER_U : airU / 2);
}

function calibrated(ch: ChannelSetup, span: number): BudgetRow[] {
  const c = ch.calibration;
  if (c === null) return [{ code: 'sensor', u: ch.uSensor, distribution: 'rectangular', type: 'B' }];
  const moved = calibrationDrift(c.asFound, c.asLeft, ch.rangeLo, ch.rangeHi)?.drift ?? 0;
  return [
    { code: 'reference', u: c.uReference, distribution: 'normal', type: 'B' },
    { code: 'residual', u: c.uResidual, distribution: 'normal', type: 'A' },
    { code: 'drift', u: Math.max(SHARES.drift * span, moved) / R3, distribution: 'rectangular', type: 'B' },
  ];
}

/** Uncertainty of a single pressure reading at that gauge pressure. `supplied`: the channel has a live supply count. */
export function pressureBudget(
  ch: ChannelSetup,
  bar: number,
  supplied: boolean,
  options: BudgetOptions = {},
): Budget {
  const span = Math.abs(ch.rangeHi - ch.rangeLo);
  const step = stepValue(ch);
  const rows: BudgetRow[] = calibrated(ch, span);
  rows.push({
    code: 'environment',
    u: (warmthBarPerK(ch) * (options.warmthK ?? ENVIRONMENT_K)) / R3,
    distribution: 'rectangular',
    type: 'B',
  });
  rows.push({
    code: 'zero',
    u: zeroUncertainty(ch, options.zeroed === true, options.airU),
    distribution: 'rectangular',
    type: 'B',
  });
  rows.push({ code: 'resolution', u: step / R12, distribution: 'rectangular', type: 'B' });
  if (ch.signal === 'ratio')
    rows.push({
      code: 'supply',
      u: (supplySensitivity(ch, bar) * (supplied ? SUPPLY_MEASURED : SUPPLY_UNKNOWN)) / R3,
      distribution: 'rectangular',
      type: 'B',
    });
  rows.push({ code: 'noise', u: options.noise ?? 0, distribution: 'normal', type: 'A' });
  return combine(rows);
}

/** What an offset leaves away from the points that it was taken at; nothing of a calibration that has a slope of its own. */
function away(ch: ChannelSetup, c: number): BudgetRow[] {
  if (ch.calibration === null) return [];
  const points = leftOf(ch.calibration);
  if (points.length === 0 || carriesLine(points, Math.abs(ch.rangeHi - ch.rangeLo))) return [];
  const nearest = Math.min(...points.map((p) => Math.abs(c - p.reference)));
  const apart = nearest + (ch.signal === 'thermocouple' ? JUNCTION_APART_K : 0);
  const half = SLOPE_SHARE[ch.thermocoupleClass ?? 2] * apart;
  return [{ code: 'away', u: half / R3, distribution: 'rectangular', type: 'B' }];
}

/** Uncertainty of a single temperature at c °C. `junction`: its cold junction's channel, null without one. */
export function temperatureBudget(
  ch: ChannelSetup,
  c: number,
  junction: ChannelSetup | null,
  options: BudgetOptions = {},
): Budget {
  const span = Math.abs(ch.rangeHi - ch.rangeLo);
  const rows: BudgetRow[] = [];
  const type = ch.signal === 'thermocouple' ? ch.thermocouple : null;
  if (type === null) {
    rows.push(...calibrated(ch, span), ...away(ch, c));
    rows.push({ code: 'resolution', u: stepValue(ch) / R12, distribution: 'rectangular', type: 'B' });
  } else {
    const junctionC = options.junctionC ?? 20;
    if (ch.calibration === null) {
      // Outside what the class promises the probe may be off by twice the class's rule.
      const half = tolerance(type, ch.thermocoupleClass ?? 2, c) ?? Math.max(5, 0.015 * Math.abs(c));
      rows.push({ code: 'class', u: half / R3, distribution: 'rectangular', type: 'B' });
      rows.push({ code: 'sensor', u: ch.uSensor, distribution: 'rectangular', type: 'B' });
    } else {
      rows.push({ code: 'reference', u: ch.calibration.uReference, distribution: 'normal', type: 'B' });
      rows.push({ code: 'residual', u: ch.calibration.uResidual, distribution: 'normal', type: 'A' });
      rows.push({ code: 'drift', u: THERMOCOUPLE_DRIFT_K / R3, distribution: 'rectangular', type: 'B' });
      rows.push(...away(ch, c));
    }
    const unknownK = junction?.uSensor ?? 2;
    const junctionK = ch.calibration === null ? unknownK : Math.min(unknownK, JUNCTION_LEFT_K / R3);
    rows.push({
      code: 'junction',
      u: junctionK * junctionWeight(type, c, junctionC),
      distribution: 'rectangular',
      type: 'B',
    });
    const el = electrical(ch);
    const slope = seebeck(type, c);
    const k = el === null || slope === null ? 0 : Math.abs((el.b / 1e6) * countsAStep(ch)) / slope;
    rows.push({ code: 'resolution', u: k / R12, distribution: 'rectangular', type: 'B' });
  }
  rows.push({ code: 'noise', u: options.noise ?? 0, distribution: 'normal', type: 'A' });
  return combine(rows);
}

/**
 * The budget of a channel of a Setup at a pressure (bar) or temperature (°C), as a table for the screen and for the
 * ceiling. null for a channel that the Setup does not have or that measures neither.
 */
export function budget(
  setup: Pick<Setup, 'channels'>,
  channel: number,
  at: number,
  options: BudgetOptions = {},
): Budget | null {
  const ch = setup.channels.find((c) => c.index === channel);
  const partner = setup.channels.find((c) => c.index === ch?.partner) ?? null;
  if (ch !== undefined && isPressureRole(ch.role))
    return pressureBudget(ch, at, partner?.role === 'supply', options);
  if (ch?.role === 'temperature')
    return temperatureBudget(ch, at, partner?.role === 'junction' ? partner : null, options);
  return null;
}
