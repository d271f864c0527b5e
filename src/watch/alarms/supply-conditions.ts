/** What is true of the supply now: of what it was proved at, and of what its outlet shows. */
import { outletCeiling, outletMovedBy } from '../pair/outlet.ts';
import { secondMean, secondNow } from '../pair/second.ts';
import { isFilling } from '../stages/stages.ts';
import type { WatchState } from '../state.ts';
import { overProved } from '../supply/moved.ts';
import { over } from './bounds.ts';
import type { Condition } from './machine.ts';
import { rowOf } from './table.ts';

/** Those of the table's rows. */
const DEADBAND = { over: rowOf('supply-over').deadband, moved: rowOf('supply-moved').deadband } as const;

/** The regulator stands over what it was proved at: what fills on is not what was measured. */
export function movedFromProof(w: WatchState): Condition {
  const by = overProved(w);
  if (by === null) return w.supply.proved === null ? 'off' : 'between';
  return over(by, 0, DEADBAND.moved);
}

/** Its outlet stands over where it stood before the fill, by the mean of a second, as every move is judged. */
export function movedAtOutlet(w: WatchState): Condition {
  if (w.pair.outlet.stood === null || w.infer) return 'off';
  const mean = secondMean(w.pair.signal, w.tUs);
  const by = mean === null || heldUp(w, mean) ? null : outletMovedBy(w.pair.outlet, mean);
  return by === null ? 'between' : over(by, 0, DEADBAND.moved);
}

/** In a hold a packer that warms lifts the outlet with it, where nothing is shut between them. */
function heldUp(w: WatchState, outletBar: number): boolean {
  const { median, uBar } = w.signal;
  if (w.hold === null || median === null) return false;
  return outletBar - median <= Math.hypot(uBar ?? 0, w.pair.signal.uBar);
}

/**
 * The regulator's outlet over the ceiling: by the mean of a second, and in a fill by the median of three, at once. While air
 * flows it may droop under it, which takes nothing back.
 */
export function supplyOver(w: WatchState): Condition {
  const limits = w.setup?.limits ?? null;
  const { signal } = w.pair;
  if (limits === null || signal.role !== 'outlet-pressure' || w.infer) return 'off';
  const filling = isFilling(w.stages.stage);
  const level = filling ? secondNow(signal, w.tUs) : secondMean(signal, w.tUs);
  if (level === null || heldUp(w, level)) return 'between';
  const is = over(level, outletCeiling(limits, signal.uBar), DEADBAND.over);
  return is === 'off' && filling && !(w.verdict?.still ?? true) ? 'between' : is;
}

/** The outlet has stood under the ceiling, and is over it while air flows to the packer. */
export const breaksThrough = (w: WatchState): boolean =>
  w.pair.outlet.stoodUnder &&
  isFilling(w.stages.stage) &&
  !(w.verdict?.still ?? true) &&
  supplyOver(w) === 'on';

/** By how much of it the outlet is over its ceiling; null: not known now. */
export function supplyOverBy(w: WatchState): number | null {
  const limits = w.setup?.limits ?? null;
  const level = secondNow(w.pair.signal, w.tUs);
  return limits === null || level === null ? null : level / outletCeiling(limits, w.pair.signal.uBar) - 1;
}

/** By how much more than both may be wrong two sensors at the packer differ, bar; null: of an outlet a shut valve may make the difference. */
export function apartBy(w: WatchState): number | null {
  const { median, uBar } = w.signal;
  const { signal } = w.pair;
  const check = signal.role === 'check-pressure' ? secondMean(signal, w.tUs) : null;
  return check === null || median === null
    ? null
    : Math.abs(median - check) - Math.hypot(uBar ?? 0, signal.uBar);
}
