import { USUAL_GAUGE_U_BAR } from '../../job/dial-gauge.ts';
import type { Place } from '../../job/setup.ts';
import { airTestSaid } from '../airtest/airtest.ts';
import { acknowledge, shelve, unshelve } from '../alarms/operator.ts';
import { ALARM_TABLE } from '../alarms/table.ts';
import { createBefore } from '../cure/before-seat.ts';
import { createCup } from '../cure/cup.ts';
import { cureSample } from '../cure/sample.ts';
import type { WatchEvent } from '../events.ts';
import type { Command } from '../inputs.ts';
import { pairTurned } from '../pair/pair.ts';
import { compareGauge, compareWarm, takeZero } from '../sensor-checks/sensor-checks.ts';
import { jumpSettled } from '../signal/jump.ts';
import { isStale } from '../signal/loss.ts';
import { doubtSettled } from '../signal/probe-doubt.ts';
import { type Probe, probeSpeaks } from '../signal/probes.ts';
import type { RecentStats } from '../signal/recent.ts';
import { recentClear } from '../signal/recent.ts';
import { seepRestart } from '../signal/seep.ts';
import { answer, gaugeHolds, held } from '../stages/fastfall.ts';
import { lossSettled } from '../stages/loss.ts';
import { reboundBreak, reboundStart } from '../stages/rebound.ts';
import { isBetween, isDown } from '../stages/stages.ts';
import { standRestart } from '../stages/stand.ts';
import { airTestContext, heldBeside, lastSecond, type WatchState } from '../state.ts';
import { hoseRests } from '../supply/rests.ts';
import { proofContext, supplyProve, supplySaid, supplyZeroed } from '../supply/supply.ts';
import { changeStage } from './change-stage.ts';

type Emit = (event: WatchEvent) => void;

/** The last second's pressure; null where the number is stale. */
function statsNow(w: WatchState): RecentStats | null {
  if (isStale(w.signal, w.tUs)) return null;
  return lastSecond(w);
}

/** The level now, bar, that no spike moves: the mean of a second only where there is no median of three yet; null: stale. */
function medianNow(w: WatchState): number | null {
  return isStale(w.signal, w.tUs) ? null : (w.signal.median ?? statsNow(w)?.mean ?? null);
}

/** The probe at a place with its last usable value, doubted or not; null: none speaks. */
function probeAt(w: WatchState, place: Place): Probe | null {
  for (const p of w.probes) if (p.place === place && probeSpeaks(p, w.tUs)) return p;
  return null;
}

/** Against a thermometer: what agrees is so, however it came there. */
function warmChecked(w: WatchState, place: Place, thermometerC: number, emit: Emit): void {
  const probe = probeAt(w, place);
  compareWarm(w.sensorChecks, place, thermometerC, probe, w.tUs, emit);
  if (probe !== null && w.sensorChecks.warm.includes(place)) doubtSettled(probe.doubt);
}

function vent(w: WatchState, open: boolean, emit: Emit): void {
  w.ventOpen = open;
  if (open) {
    reboundBreak(w.rebound, w.tUs, emit);
    return;
  }
  if (!isDown(w.stages.stage)) return;
  const line = statsNow(w)?.mean ?? null;
  const mean = line === null ? null : Math.max(line, heldBeside(w));
  reboundStart(w.rebound, mean, w.signal.uBar ?? 0, w.tUs, emit);
}

function zero(w: WatchState, emit: Emit): void {
  const before = w.sensorChecks.zeroBar;
  if (!takeZero(w.sensorChecks, w.stages.stage, statsNow(w), w.tUs, emit)) return;
  supplyZeroed(w.supply, w.sensorChecks.zeroBar - before);
  // Readings from before the zero must not be taken for a new offset.
  recentClear(w.signal.recent);
  jumpSettled(w.jump);
  seepRestart(w.seep);
  w.signal.median = null;
}

export function takeCommand(w: WatchState, command: Command, emit: Emit): void {
  const { tUs } = w;
  switch (command.c) {
    case 'acknowledge':
      acknowledge(ALARM_TABLE, w.alarms, command.alarm, command.occurrence, tUs, emit);
      return;
    case 'shelve':
      // A shelf with its reason is an override of the table and recorded as one.
      if (shelve(ALARM_TABLE, w.alarms, command.alarm, command.seconds, tUs, emit))
        emit({ tUs, e: 'override', what: `shelve:${command.alarm}`, reason: command.reason });
      return;
    case 'unshelve':
      unshelve(ALARM_TABLE, w.alarms, command.alarm, tUs);
      return;
    case 'stage':
      if (changeStage(w, command.to, 'operator', emit) && command.reason !== undefined)
        emit({ tUs, e: 'override', what: `stage:${command.to}`, reason: command.reason });
      return;
    case 'zero':
      zero(w, emit);
      return;
    case 'take-device':
      return; // told when the Setup that comes with it is taken
    case 'gauge':
      // Whether it agrees or not: from here on the comparison says what the sensor is worth.
      if (statsNow(w) !== null) jumpSettled(w.jump);
      standRestart(w.stand);
      if (gaugeHolds(w.fastFall, command.bar)) {
        held(w.fastFall, tUs, emit);
        lossSettled(w.loss);
      }
      compareGauge(
        w.sensorChecks,
        command.bar,
        statsNow(w),
        w.signal.uBar ?? 0,
        w.setup?.gaugeUBar ?? USUAL_GAUGE_U_BAR,
        tUs,
        emit,
      );
      return;
    case 'warm-check':
      warmChecked(w, command.place, command.thermometerC, emit);
      return;
    case 'prove-supply': {
      const level = medianNow(w);
      const ctx = proofContext(w.setup, w.signal.uBar, tUs);
      supplyProve(w.supply, command.end, w.stages.stage === 'prepare', level, ctx, emit);
      return;
    }
    case 'supply':
      if (command.said === 'turned') pairTurned(w.pair);
      supplySaid(w.supply, command.said, medianNow(w), proofContext(w.setup, w.signal.uBar, tUs), emit);
      hoseRests(w);
      return;
    case 'air-test':
      airTestSaid(
        w.airTest,
        command.said,
        w.stages.stage === 'air-test',
        medianNow(w) !== null,
        airTestContext(w),
        emit,
      );
      return;
    case 'mixed':
      // The first batch's clock counts while it is in the sleeve; after a let-down it is another sleeve's.
      if (w.mixedUs === null || (isBetween(w.stages.stage) && w.stages.wasDown)) {
        w.mixedUs = tUs;
        w.cup = createCup(tUs);
        w.unseenS = 0;
      }
      // Of two batches the younger one has had the least time: what cured before seating is counted of it.
      if (isBetween(w.stages.stage)) {
        w.beforeSeat = createBefore(tUs);
        w.cup = createCup(tUs);
      }
      emit({ tUs, e: 'mixed' });
      return;
    case 'vent':
      vent(w, command.open, emit);
      return;
    case 'answer':
      if (answer(w.fastFall, command.answer, tUs, emit) && command.answer === 'let-down')
        changeStage(w, 'let-down', 'operator', emit);
      return;
    case 'witness':
      emit({ tUs, e: 'witness', hard: command.hard, atPipeTemperature: command.atPipeTemperature });
      // One that was kept elsewhere says nothing of the sleeve.
      if (command.atPipeTemperature && w.cure !== null) cureSample(w.cure, command.hard, tUs, emit);
      return;
    case 'override':
      emit({ tUs, e: 'override', what: command.what, reason: command.reason });
      return;
    case 'check': {
      const { item, said, safety, how, text, by } = command;
      emit({ tUs, e: 'check', item, said, safety, how, text, by });
      return;
    }
    case 'operator':
      emit({ tUs, e: 'operator', by: command.by });
      return;
    case 'note':
      emit({ tUs, e: 'note', text: command.text });
      return;
    default:
      command satisfies never;
  }
}
