import type { Reading } from '../../sensing/reading.ts';
import { FLAG } from '../../sensing/reading.ts';
import { airTestBreaks, airTestReading } from '../airtest/airtest.ts';
import type { WatchEvent } from '../events.ts';
import { guardReading, guardReset, guardVerdict } from '../guard/guard.ts';
import { holdHole, holdReading } from '../hold/hold.ts';
import { pairBreak, pairReading } from '../pair/pair.ts';
import { bar3, s1 } from '../round.ts';
import { jumpReading, jumpRestart } from '../signal/jump.ts';
import { levelNow, levelsAdd, levelsClear } from '../signal/levels.ts';
import { takeProbes } from '../signal/probes.ts';
import { LEAST_MEAN, recentStats } from '../signal/recent.ts';
import { seepBreak, seepReading } from '../signal/seep.ts';
import { longestSpacingUs, signalFrame, usability } from '../signal/signal.ts';
import { inferStage } from '../stages/infer.ts';
import { lossBreak, lossFollow, lossSettled } from '../stages/loss.ts';
import { reboundBreak, reboundFollow, reboundStep } from '../stages/rebound.ts';
import { isDown, isFilling, isOver, isUp } from '../stages/stages.ts';
import { standFollow, standRestart } from '../stages/stand.ts';
import type { WatchState } from '../state.ts';
import {
  airTestContext,
  doubtContext,
  guardContext,
  heldBeside,
  lastSecond,
  lossOf,
  readsHoseAlone,
  sensorWarmth,
} from '../state.ts';
import { hoseRests } from '../supply/rests.ts';
import { isSupplyFollowed, proofContext, supplyGap, supplyReading } from '../supply/supply.ts';
import { changeStage } from './change-stage.ts';
import { witnessed } from './unseen.ts';

type Emit = (event: WatchEvent) => void;

/** A cue that was off for this long is a new one, µs. */
const CUE_REST_US = 3e6;
/** The cue is told when the valve is to be closed within this, s: earlier it is only shown. */
const CUE_TELL_S = 10;

/** Nothing may be carried across a break in the readings. */
export function breakStretch(w: WatchState, emit: Emit): void {
  guardReset(w.guard);
  levelsClear(w.levels);
  jumpRestart(w.jump);
  seepBreak(w.seep);
  lossBreak(w.loss);
  standRestart(w.stand);
  if (w.hold !== null) holdHole(w.hold, w.tUs, w.setup, emit);
  reboundBreak(w.rebound, w.tUs, emit);
  supplyGap(w.supply, w.tUs, emit);
  airTestBreaks(w.airTest, 'gap', w.tUs, emit);
  pairBreak(w.pair);
}

export function takeReading(w: WatchState, reading: Reading, emit: Emit): void {
  const { lastTS } = w.signal;
  const hole = signalFrame(w.signal, reading, readsHoseAlone(w));
  if (hole !== null) {
    // Whoever counts the samples has told by a notice before it.
    if (w.unseen.jump !== null && lastTS !== null)
      witnessed(w, reading.tS - lastTS, (hole.toUs - hole.fromUs) / 1e6);
    if (hole.unreported)
      emit({ tUs: w.tUs, e: 'gap', reason: hole.reason, fromUs: hole.fromUs, toUs: hole.toUs, lost: 0 });
    breakStretch(w, emit);
  }
  takeProbes(w.probes, reading.temps, doubtContext(w), reading.tUs);
  if (reading.bar !== null && (reading.flags & FLAG.held) === 0) takePressure(w, reading, reading.bar, emit);
  takeSecond(w, reading, emit);
}

/** A second pressure is held beside the first: where that one is doubted or lost, it stands alone. */
function takeSecond(w: WatchState, reading: Reading, emit: Emit): void {
  if (reading.second === undefined && w.pair.signal.role === null) return;
  const guard = guardContext(w);
  const doubted = guard.doubtful === true || lossOf(w) !== null;
  pairReading(
    w.pair,
    reading,
    {
      setup: w.setup,
      guard,
      bar: doubted ? null : w.signal.median,
      uBar: w.signal.uBar ?? 0,
      motion: w.guard.motion,
      still: w.verdict?.still ?? false,
      proves: w.supply.proof?.phase === 'watching',
      inHose: w.supply.proof !== null || w.supply.leftBar !== null,
    },
    emit,
  );
}

function takePressure(w: WatchState, reading: Reading, bar: number, emit: Emit): void {
  hoseRests(w);
  const ctx = guardContext(w);
  guardReading(w.guard, reading, ctx);
  w.verdict = guardVerdict(w.guard, ctx);
  tellCue(w, emit);
  tellTooFast(w, emit);
  if (w.supply.proof === null) tellKnee(w, emit);
  // A value that is out of range is at least so high for the guard, and no value for anything else.
  if (usability(reading) !== 'usable') return;
  const { stage } = w.stages;
  const watching = isUp(stage) || stage === 'let-down';
  jumpReading(w.jump, reading.tS, bar, reading.uBar, ctx.tap, watching, isDown(stage));
  const { level: sound } = w.signal;
  seepReading(w.seep, reading.tS, sound ?? bar);
  const fresh = levelsAdd(w.levels, reading.tS, sound ?? bar);
  if (fresh && w.infer) {
    const sinceS = (w.tUs - w.stages.sinceUs) / 1e6;
    const seen = inferStage(w.inference, w.levels, w.stages.stage, sinceS, w.setup?.limits ?? null);
    if (seen !== null) changeStage(w, seen.to, 'data', emit, Math.round(seen.fromS * 1e6));
  }
  if (fresh && !w.infer && isUp(w.stages.stage)) takeLoss(w);
  const level = levelNow(w.levels);
  if (fresh && level !== null && isFilling(w.stages.stage)) standFollow(w.stand, level, w.tUs);
  const { median } = w.signal;
  if (median !== null && isSupplyFollowed(w.supply)) {
    supplyReading(
      w.supply,
      reading.tS,
      median,
      isFilling(stage),
      w.verdict.still,
      proofContext(w.setup, reading.uBar, w.tUs),
      emit,
    );
    hoseRests(w);
  }
  if (median !== null && stage === 'air-test')
    airTestReading(w.airTest, reading.tS, median, airTestContext(w), emit);
  if (w.hold !== null && median !== null)
    holdReading(
      w.hold,
      reading,
      median,
      fresh,
      longestSpacingUs(w.signal),
      {
        setup: w.setup,
        levels: w.levels,
        noiseBar: w.levels.noiseBar,
        ventOpen: w.ventOpen,
        still: w.verdict.still,
        knee: w.verdict.knee,
        cure: w.cure,
      },
      emit,
    );
  if (median !== null && isDown(w.stages.stage)) {
    const stats = lastSecond(w);
    const shut = isOver(w.stages.stage) || !w.ventOpen;
    if (stats !== null && stats.n >= LEAST_MEAN)
      reboundFollow(
        w.rebound,
        Math.max(stats.mean, heldBeside(w)),
        Math.max(Math.min(median, bar), heldBeside(w)),
        reading.uBar,
        shut,
        sensorWarmth(w),
        w.tUs,
        emit,
      );
  }
  if (w.rebound.test !== null) {
    const stats = recentStats(w.signal.recent, w.tUs, w.rebound.test.sinceUs);
    const mean = stats === null ? null : Math.max(stats.mean, heldBeside(w));
    if (mean !== null) reboundStep(w.rebound, mean, reading.uBar, reading.stepBar, w.tUs, emit);
  }
}

/** What the packer has lost. With the vent said open in a fill it is let out as announced; in a hold nobody is to. */
function takeLoss(w: WatchState): void {
  const isHold = w.hold !== null;
  if (!isHold && w.ventOpen) lossSettled(w.loss);
  // Whoever has filled too far is told to let out to the working pressure.
  else {
    const mostBar = w.setup?.limits?.workingBar ?? null;
    lossFollow(w.loss, w.levels, { mostBar, isHold, atPacker: w.setup?.tap === 'packer' }, w.tUs);
  }
}

/** One cue a fill is recorded, when it is near; the countdown itself is only shown. */
function tellCue(w: WatchState, emit: Emit): void {
  const cue = w.verdict?.cue ?? null;
  if (cue === null) {
    if (w.cue.lastUs !== null && w.tUs - w.cue.lastUs > CUE_REST_US) w.cue.told = false;
    return;
  }
  w.cue.lastUs = w.tUs;
  if (w.cue.told || cue.value > CUE_TELL_S) return;
  w.cue.told = true;
  emit({ tUs: w.tUs, e: 'cue', closeInS: s1(cue.value) });
}

/** The advice to throttle is told once a fill, as the cue is. */
function tellTooFast(w: WatchState, emit: Emit): void {
  const fast = w.verdict?.view.tooFast ?? null;
  if (fast === null) {
    if (w.tooFast.lastUs !== null && w.tUs - w.tooFast.lastUs > CUE_REST_US) w.tooFast.told = false;
    return;
  }
  w.tooFast.lastUs = w.tUs;
  if (w.tooFast.told) return;
  w.tooFast.told = true;
  emit({
    tUs: w.tUs,
    e: 'too-fast',
    lateBar: bar3(fast.lateBar),
    rateBarPerS: bar3(fast.rateBarPerS),
    mostBarPerS: bar3(fast.mostBarPerS),
  });
}

/** The knee is told once an attempt. */
function tellKnee(w: WatchState, emit: Emit): void {
  const knee = w.verdict?.knee ?? null;
  if (knee === null || w.kneeAttempt === w.stages.attempt) return;
  w.kneeAttempt = w.stages.attempt;
  emit({
    tUs: w.tUs,
    e: 'knee',
    freeInflationBar: bar3(knee.value),
    low: bar3(knee.low),
    high: bar3(knee.high),
  });
}
