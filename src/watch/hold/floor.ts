import type { Limits } from '../../job/setup.ts';
import type { Bounded } from '../events.ts';

/**
 * The hold's floor and what it is made of: groundwater head at the invert + the packer's own free-inflation pressure
 * at this diameter + seating margin. The free-inflation pressure is the typed one, or else the one seen at the fill's
 * limp-to-stiff knee (its upper end, which keeps the sleeve on the wall). An unknown part makes the floor unknown: it is
 * never taken for zero.
 */
export interface Floor {
  /** bar gauge; null: a part is not known. */
  readonly bar: number | null;
  readonly headBar: number | null;
  readonly freeInflationBar: number | null;
  readonly freeInflationFrom: 'typed' | 'seen' | 'unknown';
  readonly marginBar: number;
}

export function floorOf(limits: Limits | null, knee: Bounded | null): Floor | null {
  if (limits === null) return null;
  const typed = limits.freeInflationBar;
  const free = typed ?? knee?.high ?? null;
  const { headBar, seatingMarginBar: marginBar } = limits;
  const sum = headBar === null || free === null ? null : headBar + free + marginBar;
  return {
    bar: limits.floorBar ?? sum,
    headBar,
    freeInflationBar: free,
    freeInflationFrom: typed !== null ? 'typed' : free === null ? 'unknown' : 'seen',
    marginBar,
  };
}
