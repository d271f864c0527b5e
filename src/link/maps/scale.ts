/** Numbers of a map's channel to counts: Pa of a pressure, m °C of a temperature, as a `digital` channel has them. */
import type { ReadingUnit } from '../../job/codes.ts';
import type { MapChannel } from '../../job/reading-map.ts';
import { PA_PER_BAR, PA_PER_PSI } from '../../units/quantity.ts';

/** counts = plus + per * value */
const COUNTS: { readonly [U in ReadingUnit]: { readonly per: number; readonly plus: number } } = {
  bar: { per: PA_PER_BAR, plus: 0 },
  mbar: { per: PA_PER_BAR / 1000, plus: 0 },
  Pa: { per: 1, plus: 0 },
  kPa: { per: 1000, plus: 0 },
  MPa: { per: 1e6, plus: 0 },
  psi: { per: PA_PER_PSI, plus: 0 },
  C: { per: 1000, plus: 0 },
  F: { per: 1000 / 1.8, plus: -32_000 / 1.8 },
  K: { per: 1000, plus: -273_150 },
};

type Scaled = Pick<MapChannel, 'unit' | 'scale' | 'offset'>;

const INT32 = 0x7fff_ffff;

/** Whole counts of a number as it was sent; null where they are none that a frame can hold. */
export function countsOf({ unit, scale, offset }: Scaled, sent: number): number | null {
  const { per, plus } = COUNTS[unit];
  const counts = Math.round(plus + per * (offset + scale * sent));
  // Math.round gives -0 for a little under nothing.
  return Math.abs(counts) <= INT32 ? counts + 0 : null;
}

/** Counts of one step of the number as it is sent; 1 where it has finer ones. */
export const countsAStep = ({ unit, scale }: Scaled, step: number): number =>
  Math.max(1, Math.abs(COUNTS[unit].per * scale * step));

/** Counts of a value in the unit that a job keeps: bar, or °C. */
export const countsOfValue = ({ quantity }: Pick<MapChannel, 'quantity'>, value: number): number =>
  Math.round(value * (quantity === 'pressure' ? PA_PER_BAR : 1000)) + 0;

/** And back. */
export const valueOfCounts = ({ quantity }: Pick<MapChannel, 'quantity'>, counts: number): number =>
  counts / (quantity === 'pressure' ? PA_PER_BAR : 1000);
