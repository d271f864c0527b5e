import { scaleOf } from '../../units/display.ts';
import { type DisplayUnits, fixed, pressureNumber } from '../../words/format.ts';
import { LANES } from '../../words/lanes.ts';
import { UI } from '../../words/ui.ts';
import type { Mark } from './marks.ts';
import type { PressureUnit, ReadingUnit } from './numerals.ts';

/** The reader's units and words, as the scenes take them. */

export function pressureUnitOf(units: DisplayUnits): PressureUnit {
  const { unit, factor } = scaleOf('pressure', units);
  return { unit, factor, text: (bar) => pressureNumber(bar, units), axis: fixed };
}

export function temperatureUnitOf(units: DisplayUnits): ReadingUnit {
  const { unit, factor, shift, digits } = scaleOf('temperature', units);
  return { unit, factor, shift, text: (c) => fixed(c * factor + shift, digits), axis: fixed };
}

/** Names of the marks. */
export const MARK_NAMES: Readonly<Record<Mark, string>> = {
  rated: UI.rated,
  ceiling: UI.ceiling,
  working: UI.working,
  floor: UI.floor,
  seat: LANES.seat,
};
