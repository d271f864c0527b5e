import { ZERO_C } from '../cure/sheet.ts';
import { LEAST_MEAN } from '../signal/recent.ts';
import { isUp } from '../stages/stages.ts';
import { lastSecond, type WatchState } from '../state.ts';
import type { ProvedSupply } from './types.ts';

/** Where no probe tells how warm the air in the packer has become, the heat of the cure may have warmed it by this, K (common practice, no source). */
const UNSEEN_WARMTH_K = 15;

/**
 * A regulator comes back to where it locked up within so much, bar and share of it (common practice, no source). What the sensor is
 * wrong by as a whole was wrong at the proof too, so a doubtful sensor widens this no further.
 */
const COMES_BACK_BAR = 0.03;
const COMES_BACK_SHARE = 0.03;

/** Over this the supply is not what was proved, bar: lock-up and twice the uncertainty of the reading, and no more than that. */
export function movedFromBar({ lockUp, uBar }: ProvedSupply): number {
  return lockUp.high + Math.min(2 * uBar, Math.max(COMES_BACK_BAR, COMES_BACK_SHARE * lockUp.value));
}

/** By how much warmth alone may have raised a closed volume since the hold began, bar. */
function warmthBar(w: WatchState, bar: number): number {
  if (w.hold === null) return 0;
  const riseK = w.setup?.resin?.expectedRiseK ?? UNSEEN_WARMTH_K;
  const air = w.setup?.air.bar ?? 1;
  return ((bar + air) * riseK) / (ZERO_C + (w.setup?.ground?.c ?? 10));
}

/**
 * By how much the pressure is over what the supply was proved at, and what that is known to, bar; null: there is no
 * proof, no reading, or nobody lets air in. Means of a second, so that noise is no move; in a hold warmth alone is none.
 */
export function overProved(w: WatchState): number | null {
  const { proved } = w.supply;
  if (proved === null || w.infer || !isUp(w.stages.stage)) return null;
  const stats = lastSecond(w, w.supply.recent);
  if (stats === null || stats.n < LEAST_MEAN) return null;
  return stats.mean - warmthBar(w, stats.mean) - movedFromBar(proved);
}
