import { createGuard } from '../guard/guard.ts';
import { seepRestart } from '../signal/seep.ts';
import type { WatchState } from '../state.ts';
import { supplyLeaves } from './supply.ts';

/**
 * A proof is over: what the guard has learnt of a hose is none of the packer's. What stands in the hose has come in as it was announced,
 * so that only what comes on top of it was not; where a packer may be on it, all of it counts.
 */
export function hoseRests(w: WatchState): void {
  if (w.supply.hoseSeen === 'none' || w.supply.proof !== null) return;
  if (w.supply.hoseSeen === 'hose') {
    seepRestart(w.seep);
    if (w.signal.median !== null) supplyLeaves(w.supply, w.signal.median);
  }
  w.supply.hoseSeen = 'none';
  w.guard = createGuard();
}
