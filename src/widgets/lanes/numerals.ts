import { pressureY } from './geometry.ts';
import { multiples, stepsOf } from './scale.ts';
import { CAP, type Rect, type Shape } from './shape.ts';

/** A unit as the user reads it. */
export interface ReadingUnit {
  readonly unit: string;
  /** Shown = factor · kept + shift. */
  readonly factor: number;
  readonly shift: number;
  /** A kept value with its digits, without the unit. */
  text(kept: number): string;
  /** A number of an axis, in the unit shown, with so many digits. */
  axis(value: number, digits: number): string;
}
/** bar kept; its shift is 0. */
export type PressureUnit = Pick<ReadingUnit, 'unit' | 'factor' | 'text' | 'axis'>;

/** Size of an axis' numbers, px. */
export const numeralSize = (small: boolean): number => (small ? 12 : 15);

/** Width of a digit of the face's type, in its own size. */
const DIGIT_EM = 0.65;

/**
 * Numbers of the pressure scale, which trace and ladder share, with their unit.
 * @param box whose height is the scale's
 * @param rightX right edge of the numbers, px
 * @param room left of that edge, px: numbers of more digits (mbar of an air test) are smaller, none is cut
 */
export function pressureNumerals(
  box: Rect,
  rightX: number,
  endBar: number,
  unit: PressureUnit,
  small: boolean,
  room = Number.POSITIVE_INFINITY,
): Shape[] {
  const y = pressureY(box, endBar);
  const end = endBar * unit.factor;
  const { numeral, digits } = stepsOf(end);
  const values = multiples(numeral, end);
  const texts = values.map((v) => unit.axis(v, digits));
  const longest = Math.max(1, ...texts.map((t) => t.length));
  const size = Math.min(numeralSize(small), room / (longest * DIGIT_EM));
  const out: Shape[] = values.map((v, i) => ({
    k: 'text',
    x: rightX,
    y: y(v / unit.factor) + size * CAP * 0.5,
    text: texts[i] ?? '',
    size,
    anchor: 'end',
    tone: 'ink2',
  }));
  // The unit stands at the scale's end, unless a number is there.
  const highest = values[values.length - 1] ?? 0;
  if (y(highest / unit.factor) - box.y > size * 1.15)
    out.push({
      k: 'text',
      x: rightX,
      y: box.y + size * CAP * 0.5,
      text: unit.unit,
      size: size - 1,
      anchor: 'end',
      tone: 'ink2',
    });
  return out;
}
