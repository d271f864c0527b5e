import { ZERO_C } from '../cure/sheet.ts';
import { LEAST_MEAN } from '../signal/recent.ts';
import { isUp } from '../stages/stages.ts';
import { lastSecond, type WatchState } from '../state.ts';
import { movedFromBar } from './moved-from.ts';

/** Where no probe tells how warm the air in the packer has become, the heat of the cure may have warmed it by this, K (common practice, no source). */
const UNSEEN_WARMTH_K = 15;

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
