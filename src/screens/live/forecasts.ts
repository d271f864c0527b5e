import type { HoldView, WatchView } from '../../watch/view.ts';

/** Which of the hold's forecasts are shown: those that agree with what else is known. */

/** A rise that reaches the ceiling sooner than this is shown whatever the forecast of the lift says, s. */
const RISE_SHOWN_S = 900;

/**
 * The band exit, where it agrees with what else is known. The exit carries the pressure's course on in a straight
 * line: where the forecast of the lift knows that the warmth ends under the ceiling, a far exit upwards is
 * not shown.
 */
export function bandExitShown(hold: HoldView, ceilingBar: number | null): HoldView['bandExit'] {
  const { bandExit: exit, lift } = hold;
  if (exit === null || exit.direction === 'down' || exit.inS.value <= RISE_SHOWN_S) return exit;
  return lift !== null && ceilingBar !== null && lift.peakBar.high < ceilingBar ? null : exit;
}

/** Warmth that ends under the ceiling is not spoken of while the pressure is surely falling. */
export function liftShown(hold: HoldView): HoldView['lift'] {
  const { lift, bandExit } = hold;
  if (lift === null || bandExit?.direction !== 'down') return lift;
  return lift.adviceHighBar === null && lift.ceilingInS === null ? null : lift;
}

/** The floor that is judged by: what the hold has seen, else the plan's; null: not known. */
export const floorOf = ({ hold, limits }: WatchView): number | null =>
  hold?.floor?.bar ?? limits?.floorBar ?? null;

/**
 * Does a leak reach the hold floor before the cure time is reached, by the worse end of both? null: that cannot be told,
 * as the floor or the cure is not known.
 */
export function leaksToFloorFirst(view: WatchView): boolean | null {
  const { hold, cure, bar } = view;
  const floor = floorOf(view);
  if (hold === null || bar === null || floor === null) return null;
  if (bar <= floor) return true;
  const mbarPerMin = hold.leak.high ?? hold.leak.mbarPerMin;
  const down = hold.bandExit?.direction === 'down' ? hold.bandExit.inS.low : null;
  const leak = mbarPerMin === null || mbarPerMin <= 0 ? null : ((bar - floor) / (mbarPerMin / 1000)) * 60;
  const toFloorS = down === null ? leak : leak === null ? down : Math.min(down, leak);
  if (cure === null || cure.metInS === null || toFloorS === null) return null;
  return toFloorS <= cure.metInS.high;
}
