import { formatNumber, METRIC, show, showText, type UnitChoice } from '../units/display.ts';

/**
 * Numbers as the user reads them. The core works in bar, °C, seconds and millimetres; a display unit is a
 * choice of the screen and never enters a record.
 */

export type DisplayUnits = UnitChoice;
export { METRIC };

/** What stands where a number is not known. Never a zero, never an old value. */
export const NO_VALUE = '–';

const MINUS = '\u2212';
const NBSP = '\u00a0';

type Maybe = number | null | undefined;
const known = (value: Maybe): value is number =>
  value !== null && value !== undefined && Number.isFinite(value);

/** A fixed number of digits with a true minus sign, and no '-0'. */
export function fixed(value: number, digits: number): string {
  return Number.isFinite(value) ? formatNumber(value, digits) : NO_VALUE;
}

/** Pressure without its unit, in display units. */
export function pressureNumber(bar: Maybe, units = METRIC, extraDigits = 0): string {
  return known(bar) ? show('pressure', bar, units, 'point', extraDigits).number : NO_VALUE;
}

/** Pressure with its unit. */
export function pressure(bar: Maybe, units = METRIC, extraDigits = 0): string {
  return known(bar) ? showText('pressure', bar, units, 'point', extraDigits) : NO_VALUE;
}

export function temperature(c: Maybe, units = METRIC): string {
  return known(c) ? showText('temperature', c, units) : NO_VALUE;
}

/** A leak or creep in mbar/min, or the like in the user's unit. */
export function pressureRate(mbarPerMin: Maybe, units = METRIC): string {
  return known(mbarPerMin) ? showText('pressureRate', mbarPerMin, units) : NO_VALUE;
}

/** A slope while air flows, bar/s, as small pressure a second. */
export function pressureSlope(barPerS: Maybe, units = METRIC): string {
  if (!known(barPerS)) return NO_VALUE;
  return `${showText('smallPressure', barPerS * 1000, units, 'point', -1)}/s`;
}

/** A length of time for reading: 8 s, 4 min 05 s, 2 h 07 min. */
export function duration(seconds: number | null | undefined): string {
  if (seconds === null || seconds === undefined || !Number.isFinite(seconds)) return NO_VALUE;
  const sign = seconds < -0.5 ? MINUS : '';
  const s = Math.abs(seconds);
  if (s < 9.95) return `${sign}${s < 0.05 ? '0' : fixed(s, s < 3 ? 1 : 0)}${NBSP}s`;
  const whole = Math.round(s);
  if (whole < 60) return `${sign}${whole}${NBSP}s`;
  const two = (n: number) => String(n).padStart(2, '0');
  if (whole < 3600) return `${sign}${Math.floor(whole / 60)}${NBSP}min ${two(whole % 60)}${NBSP}s`;
  const minutes = Math.round(s / 60);
  return `${sign}${Math.floor(minutes / 60)}${NBSP}h ${two(minutes % 60)}${NBSP}min`;
}

/** A stopwatch: 0:08, 4:05, 2:07:31. For axes and counters; `digits` of the seconds for a narrow axis. */
export function stopwatch(seconds: number, digits = 0): string {
  const scale = 10 ** digits;
  const parts = Math.max(0, Math.floor(seconds * scale + 1e-6));
  const whole = Math.floor(parts / scale);
  const two = (n: number) => String(n).padStart(2, '0');
  if (digits > 0) return `${stopwatch(whole)}.${String(parts % scale).padStart(digits, '0')}`;
  const h = Math.floor(whole / 3600);
  const m = Math.floor(whole / 60) % 60;
  return h > 0 ? `${h}:${two(m)}:${two(whole % 60)}` : `${m}:${two(whole % 60)}`;
}

/** Clock time of the tablet, local, hours and minutes. */
export function clockTime(utcMs: number): string {
  const d = new Date(utcMs);
  return `${String(d.getHours()).padStart(2, '0')}:${String(d.getMinutes()).padStart(2, '0')}`;
}

/** Local date, ISO order: 2026-11-25. */
export function day(utcMs: number): string {
  const d = new Date(utcMs);
  return `${d.getFullYear()}-${String(d.getMonth() + 1).padStart(2, '0')}-${String(d.getDate()).padStart(2, '0')}`;
}

export function dateTime(utcMs: number): string {
  return `${day(utcMs)} ${clockTime(utcMs)}`;
}

/** Bytes for reading. */
export function bytes(n: number | null | undefined): string {
  if (n === null || n === undefined) return NO_VALUE;
  if (n < 1000) return `${n}${NBSP}B`;
  if (n < 1e6) return `${fixed(n / 1e3, 0)}${NBSP}kB`;
  if (n < 1e9) return `${fixed(n / 1e6, 1)}${NBSP}MB`;
  return `${fixed(n / 1e9, 1)}${NBSP}GB`;
}

export function percent(fraction: number): string {
  return `${fixed(fraction * 100, 0)}${NBSP}%`;
}
