import { MM_PER_INCH, PA_PER_BAR, PA_PER_PSI } from './quantity.ts';

/** What a user may choose to read, in the order in which the settings offer it. */
export const UNITS = {
  pressure: ['bar', 'kPa', 'psi'],
  temperature: ['C', 'F'],
  length: ['mm', 'in'],
} as const;

/** What the user wants to read: the shape of the settings document's units. */
export type UnitChoice = { readonly [Q in keyof typeof UNITS]: (typeof UNITS)[Q][number] };

export const METRIC: UnitChoice = { pressure: 'bar', temperature: 'C', length: 'mm' };

/**
 * What a number is, and with it the unit that the program keeps it in: pressure bar · smallPressure mbar ·
 * pressureRate mbar/min · temperature °C · temperatureDifference K · length mm · distance m · volume L · mass g ·
 * energy J · force N.
 */
export type Kind =
  | 'pressure'
  | 'smallPressure'
  | 'pressureRate'
  | 'temperature'
  | 'temperatureDifference'
  | 'length'
  | 'distance'
  | 'volume'
  | 'mass'
  | 'energy'
  | 'force';

/** shown = factor · kept + shift, with the digits after the point that the unit deserves. */
export interface Scale {
  readonly unit: string;
  readonly factor: number;
  readonly shift: number;
  readonly digits: number;
}

const PSI_PER_BAR = PA_PER_BAR / PA_PER_PSI;
const scale = (unit: string, factor: number, digits: number, shift = 0): Scale => ({
  unit,
  factor,
  shift,
  digits,
});

const PRESSURE = { bar: scale('bar', 1, 2), kPa: scale('kPa', 100, 0), psi: scale('psi', PSI_PER_BAR, 1) };
const SMALL = {
  bar: scale('mbar', 1, 1),
  kPa: scale('kPa', 0.1, 2),
  psi: scale('psi', PSI_PER_BAR / 1000, 3),
};
const RATE = {
  bar: scale('mbar/min', 1, 1),
  kPa: scale('kPa/min', 0.1, 2),
  psi: scale('psi/min', PSI_PER_BAR / 1000, 3),
};
const TEMPERATURE = { C: scale('°C', 1, 1), F: scale('°F', 1.8, 1, 32) };
const DIFFERENCE = { C: scale('K', 1, 1), F: scale('°F', 1.8, 1) };
const LENGTH = { mm: scale('mm', 1, 0), in: scale('in', 1 / MM_PER_INCH, 2) };
const DISTANCE = { mm: scale('m', 1, 2), in: scale('ft', 1 / 0.3048, 1) };
const VOLUME = scale('L', 1, 1);
const GRAM = scale('g', 1, 0);
const KILOGRAM = scale('kg', 1e-3, 2);
const JOULE = scale('J', 1, 0);
const KILOJOULE = scale('kJ', 1e-3, 1);
const NEWTON = scale('N', 1, 0);
const KILONEWTON = scale('kN', 1e-3, 1);

/** The unit in which a kept value of that kind is shown; mass, energy and force take their size into account. */
export function scaleOf(kind: Kind, choice: UnitChoice, kept = 0): Scale {
  const big = Math.abs(kept) >= 1000;
  switch (kind) {
    case 'pressure':
      return PRESSURE[choice.pressure];
    case 'smallPressure':
      return SMALL[choice.pressure];
    case 'pressureRate':
      return RATE[choice.pressure];
    case 'temperature':
      return TEMPERATURE[choice.temperature];
    case 'temperatureDifference':
      return DIFFERENCE[choice.temperature];
    case 'length':
      return LENGTH[choice.length];
    case 'distance':
      return DISTANCE[choice.length];
    case 'volume':
      return VOLUME;
    case 'mass':
      return big ? KILOGRAM : GRAM;
    case 'energy':
      return big ? KILOJOULE : JOULE;
    case 'force':
      return big ? KILONEWTON : NEWTON;
  }
}

export interface Shown {
  /** The number with its digits, e.g. '1.50' or '−3,2'. */
  readonly number: string;
  readonly unit: string;
}

export type Decimal = 'point' | 'comma';

/**
 * A number with fixed digits after the point; never '−0.00'. Not a number and infinity throw: they have no text, and
 * a screen must say why a value is missing.
 */
export function formatNumber(value: number, digits: number, decimal: Decimal = 'point'): string {
  if (!Number.isFinite(value)) throw new RangeError('not a finite number');
  const plain = Math.abs(value).toFixed(digits);
  const text = decimal === 'comma' ? plain.replace('.', ',') : plain;
  return value < 0 && /[1-9]/.test(plain) ? `\u2212${text}` : text;
}

/** A kept value in the user's unit. `extra` digits more (or, negative, fewer) than the unit's own. */
export function show(
  kind: Kind,
  kept: number,
  choice: UnitChoice,
  decimal: Decimal = 'point',
  extra = 0,
): Shown {
  const s = scaleOf(kind, choice, kept);
  const digits = Math.max(0, s.digits + extra);
  return { number: formatNumber(kept * s.factor + s.shift, digits, decimal), unit: s.unit };
}

/** The same in one piece, with a no-break space between number and unit. */
export function showText(
  kind: Kind,
  kept: number,
  choice: UnitChoice,
  decimal: Decimal = 'point',
  extra = 0,
): string {
  const s = show(kind, kept, choice, decimal, extra);
  return `${s.number}\u00a0${s.unit}`;
}
