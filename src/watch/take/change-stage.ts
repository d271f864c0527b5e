import { airTestBreaks } from '../airtest/airtest.ts';
import type { Stage } from '../codes.ts';
import { createCure, cureEnd } from '../cure/cure.ts';
import type { WatchEvent } from '../events.ts';
import { createHold, holdEnd } from '../hold/hold.ts';
import { seepRestart } from '../signal/seep.ts';
import { answer } from '../stages/fastfall.ts';
import { lossSettled } from '../stages/loss.ts';
import { reboundBreak, reboundFilled } from '../stages/rebound.ts';
import { enterStage, isDown, isUp } from '../stages/stages.ts';
import { standRestart } from '../stages/stand.ts';
import type { WatchState } from '../state.ts';
import { supplyStage } from '../supply/supply.ts';

/** Enters a stage with all that begins and ends with it. False where the run is in it already. */
export function changeStage(
  w: WatchState,
  to: Stage,
  by: 'operator' | 'data',
  emit: (event: WatchEvent) => void,
  fromUs: number | null = null,
): boolean {
  const from = w.stages.stage;
  if (from === to) return false;
  // Saying 'let-down' answers the question that the fall has asked.
  if (to === 'let-down') answer(w.fastFall, 'let-down', w.tUs, emit);
  // A step back to the fill makes nothing good that was lost.
  if (!isUp(to)) {
    w.fastFall.asked = false;
    w.fastFall.lossBar = null;
    lossSettled(w.loss);
  }
  if (w.hold !== null) {
    holdEnd(w.hold, w.tUs, 'stage', by === 'data', w.setup, emit);
    w.hold = null;
  }
  reboundBreak(w.rebound, w.tUs, emit);
  enterStage(w.stages, to, by, w.tUs, emit, fromUs);
  seepRestart(w.seep);
  standRestart(w.stand);
  supplyStage(w.supply, isUp(to), w.tUs, emit);
  airTestBreaks(w.airTest, 'stage', w.tUs, emit);
  if (isUp(to)) {
    w.ventOpen = false;
    reboundFilled(w.rebound);
    if (w.cure === null || w.cure.attempt !== w.stages.attempt)
      w.cure = createCure(
        w.tUs,
        w.stages.attempt,
        to as 'seat' | 'inflate' | 'hold',
        emit,
        w.beforeSeat,
        w.setup,
      );
  } else if (w.cure !== null) {
    cureEnd(w.cure);
  }
  // The cup is of the sleeve that was let down.
  if (isDown(to)) w.cup = null;
  // What this sleeve went through is no other's.
  if (to !== 'prepare') w.beforeSeat = null;
  if (to === 'hold') w.hold = createHold(w.stages.sinceUs, w.tUs);
  // Whoever lets down opens a vent; closing it begins the rebound test.
  if (to === 'let-down') w.ventOpen = true;
  return true;
}
