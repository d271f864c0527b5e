import type { WatchView } from '../../watch/view.ts';

/** The pause at the seat pressure: how long the line has stood still, which is when a dial gauge can be compared. */

/** So long the valve stays shut before the dial gauge is read, s (common practice, no source). */
export const SEAT_PAUSE_S = 18;
/** Under this nothing was let in yet, bar. */
const AIR_BAR = 0.05;
/** Slower than this the valve is shut, faster than this it is open again, bar/s. */
const STILL_BAR_S = 0.004;
const MOVES_BAR_S = 0.012;

/** Since when the line stands still, run clock, µs; null: it does not. */
export type SeatPause = number | null;

export function nextPause(
  before: SeatPause,
  { tUs, stage, bar, guard }: Pick<WatchView, 'tUs' | 'stage' | 'bar' | 'guard'>,
): SeatPause {
  if (stage !== 'seat' || bar === null || bar < AIR_BAR) return null;
  const rate = Math.abs(guard.rateBarPerS ?? 0);
  if (rate > MOVES_BAR_S) return null;
  return before !== null && before <= tUs ? before : rate <= STILL_BAR_S ? tUs : null;
}

/** Seconds of the pause that are left; null: it has not begun. */
export function pauseLeftS(pause: SeatPause, tUs: number): number | null {
  return pause === null ? null : Math.max(0, SEAT_PAUSE_S - (tUs - pause) / 1e6);
}
