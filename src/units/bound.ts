import { type Decimal, formatNumber, type Kind, scaleOf, type UnitChoice } from './display.ts';

/** Which side of a bound is allowed: 'least' is the lowest value that may stand, 'most' the highest. */
export type Side = 'least' | 'most';

/**
 * A bound as the user reads it, rounded to the allowed side and fine enough (to 1 %) that it can be acted on: what
 * is said may be typed. Of a kind it is told in the user's unit; `unit` is one that is the same for everybody.
 */
export function boundText(
  bound: number,
  side: Side,
  told: { readonly kind?: Kind | undefined; readonly unit?: string | undefined },
  choice: UnitChoice,
  decimal: Decimal = 'point',
): string {
  if (told.kind === undefined) {
    const plain = decimal === 'comma' ? String(bound).replace('.', ',') : String(bound);
    return told.unit === undefined || told.unit === '' ? plain : `${plain}\u00a0${told.unit}`;
  }
  const s = scaleOf(told.kind, choice, bound);
  const exact = bound * s.factor + s.shift;
  let { digits } = s;
  let rounded = inward(exact, side, digits);
  for (; Math.abs(rounded - exact) > Math.abs(exact) / 100; rounded = inward(exact, side, ++digits));
  return `${formatNumber(rounded, digits, decimal)}\u00a0${s.unit}`;
}

/** Rounded to so many digits on the allowed side; what is short of a digit by rounding alone is taken as that digit. */
function inward(exact: number, side: Side, digits: number): number {
  const p = 10 ** digits;
  const near = Math.round(exact * p);
  if (Math.abs(near - exact * p) < 1e-9 * Math.max(1, Math.abs(exact * p))) return near / p;
  return (side === 'least' ? Math.ceil(exact * p) : Math.floor(exact * p)) / p;
}
