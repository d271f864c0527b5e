import type { Place } from '../job/setup.ts';
import type { SensingState } from '../sensing/sensing.ts';
import { warmCheck } from '../sensing/warm.ts';
import { type ZeroRefusal, zero, zeroSecond } from '../sensing/zero.ts';
import type { SecondZeroReason, WatchEvent } from '../watch/events.ts';
import type { Command } from '../watch/inputs.ts';
import { pairZeroed } from '../watch/pair/pair.ts';
import { step, type WatchState } from '../watch/step.ts';

type Emit = (event: WatchEvent) => void;
type ZeroEvent = Extract<WatchEvent, { e: 'zero' }>;

// Two rooms have a say in these commands: sensing knows the channel (its span, its junction), the watch knows the
// stage and what was taken before. A check counts only when both agree, and one event tells the outcome.

const REASON: Record<ZeroRefusal, SecondZeroReason> = {
  'no-channel': 'no-reading',
  'no-reading': 'no-reading',
  'not-still': 'noisy',
  'too-far': 'too-far',
};

export function commandZero(sensing: SensingState, watch: WatchState, tUs: number, emit: Emit): void {
  const command: Command = { c: 'zero' };
  // Out of 'prepare' the watch refuses, and the line is not even looked at.
  if (watch.stages.stage !== 'prepare') {
    step(watch, { i: 'command', tUs, command }, emit);
    return;
  }
  const before = sensing.zero;
  const result = zero(sensing);
  if (result.reason !== null) {
    emit({
      tUs,
      e: 'zero',
      taken: false,
      offsetBar: mbar(result.offsetBar),
      reason: REASON[result.reason],
    });
    return;
  }
  step(watch, { i: 'command', tUs, command }, (event) => {
    if (event.e === 'zero' && !event.taken) sensing.zero = before;
    emit(event.e === 'zero' && event.taken ? withSecond(event, sensing, watch) : event);
  });
}

const mbar = (bar: number | null): number => Math.round((bar ?? 0) * 1000) / 1000;

/** A second pressure is zeroed with the first where it reads an open line as well: a supply that stands under pressure keeps its own. */
function withSecond(event: ZeroEvent, sensing: SensingState, watch: WatchState): ZeroEvent {
  if (sensing.second === null) return event;
  const before = sensing.secondZero?.offsetBar ?? 0;
  const { taken, offsetBar, reason } = zeroSecond(sensing);
  if (taken) pairZeroed(watch.pair, (offsetBar ?? 0) - before);
  return {
    ...event,
    second: { taken, offsetBar: mbar(offsetBar), reason: reason === null ? 'ok' : REASON[reason] },
  };
}

/** The same for a run that is read again: sensing is left as the command left it, which the event of then tells. */
export function retakeZero(sensing: SensingState, told: ZeroEvent): void {
  if (told.reason === 'in-run') return;
  const before = sensing.zero;
  if (zero(sensing).taken && !told.taken) sensing.zero = before;
  if (told.second?.taken === true) zeroSecond(sensing);
}

export function commandWarm(
  sensing: SensingState,
  watch: WatchState,
  tUs: number,
  place: Place,
  thermometerC: number,
  emit: Emit,
): void {
  const { passed } = warmCheck(sensing, place, thermometerC);
  step(watch, { i: 'command', tUs, command: { c: 'warm-check', place, thermometerC } }, (event) => {
    if (event.e !== 'warm-check' || event.agrees === null || passed) {
      emit(event);
      return;
    }
    watch.sensorChecks.warm = watch.sensorChecks.warm.filter((p) => p !== place);
    emit({ ...event, agrees: false });
  });
}
