import type { HoldView } from '../../watch/view.ts';

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
