import type { DerivationInput, InputCode, PlanNote, PlanUnit } from '../../job/plan-codes.ts';
import { type Format, METRIC, NO_VALUE } from '../create-format.ts';

/** How a plan's numbers read: each in its unit, named, and in brackets behind what is said. */

type Kind = Parameters<Format['quantity']>[0];

const KIND: Partial<Record<PlanUnit, Kind>> = {
  bar: 'pressure',
  mbar: 'smallPressure',
  'mbar/min': 'pressureRate',
  C: 'temperature',
  K: 'temperatureDifference',
  mm: 'length',
  m: 'distance',
  L: 'volume',
  g: 'mass',
  J: 'energy',
  N: 'force',
};

const PLAIN: Partial<Record<PlanUnit, string>> = {
  Pa: 'Pa',
  'g/m2': 'g/m²',
  'kg/m3': 'kg/m³',
  MPa: 'MPa',
  '%': '%',
};

/** @param input what each number is called @param colon what stands between a thing and its numbers */
export function planNumbers(f: Format, input: Readonly<Record<InputCode, string>>, colon: string) {
  /** A number of the plan in the user's units. */
  const planNumber = (value: number, unit: PlanUnit, units = METRIC): string => {
    if (!Number.isFinite(value)) return NO_VALUE;
    if (unit === 's') return f.duration(value);
    if (unit === 'min') return f.duration(value * 60);
    const kind = KIND[unit];
    if (kind !== undefined)
      return f.quantity(kind, value, units, unit === 'bar' && Math.abs(value) < 0.1 ? 1 : 0);
    const digits = unit === '%' || Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2;
    const text = f.fixed(value, digits);
    return PLAIN[unit] === undefined ? text : `${text}\u00a0${PLAIN[unit]}`;
  };

  const inputsText = (inputs: readonly DerivationInput[], units = METRIC): string =>
    inputs.map((i) => `${input[i.name]} ${planNumber(i.value, i.unit, units)}`).join(', ');

  /** @param text says a note; it is given what the note is about and its numbers, in brackets, or nothing */
  const noteText = (text: (of: string) => string, note: PlanNote<string>, units = METRIC): string => {
    const numbers = inputsText(note.numbers, units);
    const of = [note.about ?? '', numbers].filter((t) => t !== '').join(colon);
    return text(of === '' ? '' : ` (${of})`);
  };

  return { planNumber, inputsText, noteText };
}
