import { boundText, type Side } from '../units/bound.ts';
import {
  type Decimal,
  formatNumber,
  type Kind,
  METRIC,
  scaleOf,
  show,
  showText,
  type UnitChoice,
} from '../units/display.ts';

/**
 * Numbers as the user reads them. The core works in bar, °C, seconds and millimetres; a display unit and the decimal
 * mark are a choice of the reader and never enter a record or a table of data.
 */

export type DisplayUnits = UnitChoice;
export { METRIC };

/** What stands where a number is not known. Never a zero, never an old value. */
export const NO_VALUE = '–';

const MINUS = '\u2212';
const NBSP = '\u00a0';
/** Between thousands: no mark that a reader of another language takes for a decimal one. */
const THIN = '\u202f';

/** A time of the run in words, from seconds since its first sample. */
export type RunClock = (s: number) => string;

type Maybe = number | null | undefined;
const known = (value: Maybe): value is number =>
  value !== null && value !== undefined && Number.isFinite(value);
const two = (n: number): string => String(n).padStart(2, '0');

export type Format = ReturnType<typeof createFormat>;

/** @param byte sign of a byte in the language */
export function createFormat(decimal: Decimal, byte = 'B') {
  /** A fixed number of digits with a true minus sign, and no '-0'. */
  const fixed = (value: number, digits: number): string =>
    Number.isFinite(value) ? formatNumber(value, digits, decimal) : NO_VALUE;

  /** A kept value of any kind with its unit. `extra` digits more (or, negative, fewer) than the unit's own. */
  const quantity = (kind: Kind, kept: Maybe, units = METRIC, extra = 0): string =>
    known(kept) ? showText(kind, kept, units, decimal, extra) : NO_VALUE;

  /** A length of time for reading: 8 s, 4 min 05 s, 2 h 07 min. */
  const duration = (seconds: Maybe): string => {
    if (!known(seconds)) return NO_VALUE;
    const sign = seconds < -0.5 ? MINUS : '';
    const s = Math.abs(seconds);
    if (s < 9.95) return `${sign}${s < 0.05 ? '0' : fixed(s, s < 3 ? 1 : 0)}${NBSP}s`;
    const whole = Math.round(s);
    if (whole < 60) return `${sign}${whole}${NBSP}s`;
    if (whole < 3600) return `${sign}${Math.floor(whole / 60)}${NBSP}min ${two(whole % 60)}${NBSP}s`;
    const minutes = Math.round(s / 60);
    return `${sign}${Math.floor(minutes / 60)}${NBSP}h ${two(minutes % 60)}${NBSP}min`;
  };

  /** A stopwatch: 0:08, 4:05, 2:07:31. For axes and counters; `digits` of the seconds for a narrow axis. */
  const stopwatch = (seconds: number, digits = 0): string => {
    const scale = 10 ** digits;
    const parts = Math.max(0, Math.floor(seconds * scale + 1e-6));
    const whole = Math.floor(parts / scale);
    const mark = decimal === 'comma' ? ',' : '.';
    if (digits > 0) return `${stopwatch(whole)}${mark}${String(parts % scale).padStart(digits, '0')}`;
    const h = Math.floor(whole / 3600);
    const m = Math.floor(whole / 60) % 60;
    return h > 0 ? `${h}:${two(m)}:${two(whole % 60)}` : `${m}:${two(whole % 60)}`;
  };

  /** Clock time of the tablet, local, hours and minutes. */
  const clockTime = (utcMs: number): string => {
    const d = new Date(utcMs);
    return `${two(d.getHours())}:${two(d.getMinutes())}`;
  };

  /** Local date, ISO order: 2026-11-25. */
  const day = (utcMs: number): string => {
    const d = new Date(utcMs);
    return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}`;
  };

  /** The zone of this device's clock at a moment: UTC+01:00. */
  const zone = (utcMs: number): string => {
    const minutes = -new Date(utcMs).getTimezoneOffset();
    const of = Math.abs(minutes);
    return minutes === 0
      ? 'UTC'
      : `UTC${minutes < 0 ? MINUS : '+'}${two(Math.floor(of / 60))}:${two(of % 60)}`;
  };

  return {
    fixed,
    quantity,
    duration,
    zone,
    stopwatch,
    clockTime,
    day,

    /** Pressure without its unit, in display units. */
    pressureNumber: (bar: Maybe, units = METRIC, extraDigits = 0): string =>
      known(bar) ? show('pressure', bar, units, decimal, extraDigits).number : NO_VALUE,

    /** Pressure with its unit. */
    pressure: (bar: Maybe, units = METRIC, extraDigits = 0): string =>
      quantity('pressure', bar, units, extraDigits),

    /** Pressure of an air test, bar, in the small unit: a hundredth of a bar is the whole of some. */
    testPressure: (bar: Maybe, units = METRIC): string =>
      quantity('smallPressure', known(bar) ? bar * 1000 : null, units),
    testPressureNumber: (bar: Maybe, units = METRIC): string =>
      known(bar) ? show('smallPressure', bar * 1000, units, decimal).number : NO_VALUE,
    testPressureUnit: (units = METRIC): string => scaleOf('smallPressure', units).unit,

    temperature: (c: Maybe, units = METRIC): string => quantity('temperature', c, units),

    /** A leak or creep in mbar/min, or the like in the user's unit. */
    pressureRate: (mbarPerMin: Maybe, units = METRIC): string => quantity('pressureRate', mbarPerMin, units),

    /** A slope while air flows, bar/s, as small pressure a second. */
    pressureSlope: (barPerS: Maybe, units = METRIC): string =>
      known(barPerS) ? `${quantity('smallPressure', barPerS * 1000, units, -1)}/s` : NO_VALUE,

    dateTime: (utcMs: number): string => `${day(utcMs)} ${clockTime(utcMs)}`,

    /** The same where it is kept or printed: with its zone. */
    dateTimeZone: (utcMs: number): string => `${day(utcMs)} ${clockTime(utcMs)} ${zone(utcMs)}`,

    /** Bytes for reading. */
    bytes: (n: number | null | undefined): string => {
      if (n === null || n === undefined) return NO_VALUE;
      if (n < 1000) return `${n}${NBSP}${byte}`;
      if (n < 1e6) return `${fixed(n / 1e3, 0)}${NBSP}k${byte}`;
      if (n < 1e9) return `${fixed(n / 1e6, 1)}${NBSP}M${byte}`;
      return `${fixed(n / 1e9, 1)}${NBSP}G${byte}`;
    },

    percent: (fraction: number): string => `${fixed(fraction * 100, 0)}${NBSP}%`,

    /** A bound as it may be typed (units/bound.ts). */
    boundText: (bound: number, side: Side, told: Parameters<typeof boundText>[2], units = METRIC): string =>
      boundText(bound, side, told, units, decimal),

    /** A count of things: 1 234 567. */
    count: (n: number): string => String(Math.round(n)).replace(/\B(?=(\d{3})+$)/g, THIN),

    /** A number as it is typed into a field: as many digits as it has, none for show. */
    typed: (value: number): string => (decimal === 'comma' ? String(value).replace('.', ',') : String(value)),

    /** A kept value as it is typed, in the user's unit, with a digit more than the unit shows. */
    typedQuantity: (kind: Kind, kept: number, units: DisplayUnits): string => {
      const scale = scaleOf(kind, units);
      const text = String(Number((kept * scale.factor + scale.shift).toFixed(scale.digits + 1)));
      return decimal === 'comma' ? text.replace('.', ',') : text;
    },
  };
}
