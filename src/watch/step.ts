import { CONDITION_ROWS, excessOf, priorityOf, rateOf } from './alarms/conditions.ts';
import { voicesOf } from './alarms/limit-conditions.ts';
import type { AlarmWorld } from './alarms/machine.ts';
import { stepAlarms } from './alarms/machine.ts';
import { ALARM_TABLE } from './alarms/table.ts';
import { valuesOf } from './alarms/values.ts';
import type { AlarmCode } from './codes.ts';
import { ALARMS } from './codes.ts';
import { beforeTick } from './cure/before-seat.ts';
import { believedBeside, cupTick, hasCup } from './cure/cup.ts';
import { AS_THE_SHEET } from './cure/cup-speed.ts';
import { cureTick } from './cure/cure.ts';
import type { WatchEvent } from './events.ts';
import type { WatchInput } from './inputs.ts';
import { besideSample, besideTick } from './signal/beside.ts';
import { cureProbes, takeProbes } from './signal/probes.ts';
import { longestSpacingUs } from './signal/signal.ts';
import { ask, followFall } from './stages/fastfall.ts';
import { reboundBreak } from './stages/rebound.ts';
import { isFilling } from './stages/stages.ts';
import { doubtContext, readsLowBy, type WatchState } from './state.ts';
import { takeCommand } from './take/command.ts';
import { takeDevice, takeNotice } from './take/notice.ts';
import { takeReading } from './take/reading.ts';
import { takeSetup } from './take/setup.ts';
import { settleUnseen } from './take/unseen.ts';

export { viewOf } from './look.ts';
export type { WatchOptions, WatchState } from './state.ts';
export { createWatch } from './state.ts';

type Emit = (event: WatchEvent) => void;

const STUCK = ALARMS.indexOf('stuck');
const FAST_FALL = ALARMS.indexOf('fast-fall');

/** The machine's window on the state; made once, so that nothing is allocated a reading. */
class World implements AlarmWorld {
  w: WatchState | null = null;
  get stage() {
    return this.w!.stages.stage;
  }
  condition(_: AlarmCode, row: number) {
    return CONDITION_ROWS[row]!(this.w!);
  }
  priority(alarm: AlarmCode) {
    return priorityOf(this.w!, alarm);
  }
  excess(alarm: AlarmCode) {
    return excessOf(this.w!, alarm);
  }
  voices(alarm: AlarmCode) {
    return voicesOf(this.w!, alarm);
  }
  rate(alarm: AlarmCode) {
    return rateOf(this.w!, alarm);
  }
  values(alarm: AlarmCode) {
    const { median, bar } = this.w!.signal;
    return valuesOf(this.w!, alarm, median ?? bar);
  }
}

const world = new World();

/**
 * One step of the watch: updates the state in place and gives the events that follow, in order. Deterministic:
 * the same inputs give the same events. Nothing else enters, and after 'end' nothing more comes out.
 */
export function step(w: WatchState, input: WatchInput, emit: Emit): void {
  if (w.ended) return;
  if (input.tUs > w.tUs) w.tUs = input.tUs;
  switch (input.i) {
    case 'reading':
      takeReading(w, input.reading, emit);
      break;
    case 'beside':
      besideSample(w.beside, w.tUs, emit);
      takeProbes(w.probes, input.temps, doubtContext(w), input.tUs);
      break;
    case 'tick':
      besideTick(w.beside, w.tUs, emit);
      break;
    case 'setup':
      takeSetup(w, input.setup, emit);
      break;
    case 'command':
      takeCommand(w, input.command, emit);
      break;
    case 'notice':
      // The last second of cure and the alarms as they stand belong before the end.
      if (input.notice.n === 'end') settleUp(w, emit);
      takeNotice(w, input.notice, emit);
      break;
    case 'device':
      takeDevice(w, input.frame, emit);
      break;
    default:
      input satisfies never;
  }
  if (!w.ended) settleUp(w, emit);
}

/** What goes by temperatures: the cup first, since the count goes by what it says. */
function settleCure(w: WatchState, emit: Emit): void {
  const isDue = (lastUs: number) => w.tUs - lastUs >= 1e6;
  const cure = w.cure === null || w.cure.ended ? null : w.cure;
  const { cup } = w;
  if (
    !(cure && isDue(cure.lastUs)) &&
    !(cup && isDue(cup.lastUs)) &&
    !(w.beforeSeat && isDue(w.beforeSeat.lastUs))
  )
    return;
  const probes = cureProbes(w.probes, w.sensorChecks.warm, w.tUs);
  if (cup !== null) cupTick(cup, w.tUs, probes, w.setup, cure !== null, emit);
  if (cure !== null)
    cureTick(
      cure,
      w.tUs,
      {
        setup: w.setup,
        probes: believedBeside(w.cup, probes),
        batch: w.cup !== null && hasCup(w.setup) ? w.cup.batch : AS_THE_SHEET,
      },
      emit,
    );
  if (w.beforeSeat !== null) beforeTick(w.beforeSeat, w.tUs, probes);
}

function settleUp(w: WatchState, emit: Emit): void {
  settleUnseen(w);
  settleCure(w, emit);
  world.w = w;
  stepAlarms(ALARM_TABLE, w.alarms, w.tUs, world, emit);
  world.w = null;
  // A reading that stands still by itself stays at zero, too; and what is not seen proves nothing, alarm or not.
  const unseenUs = w.tUs - (w.signal.lastUsableUs ?? 0);
  // So does one that reads too low, while there is air.
  const blind = unseenUs > longestSpacingUs(w.signal) || w.alarms[STUCK]!.active || readsLowBy(w) > 0;
  if (w.rebound.test !== null && blind) reboundBreak(w.rebound, w.tUs, emit);
  const slot = w.alarms[FAST_FALL]!;
  const inUse = w.hold !== null || isFilling(w.stages.stage);
  if (slot.active && inUse && !w.infer && w.signal.median !== null)
    ask(w.fastFall, w.levels, w.signal.median, w.loss.knownBar, slot.occurrence, w.tUs, emit);
  followFall(w.fastFall, w.signal.median, slot.active, w.tUs, emit);
}
