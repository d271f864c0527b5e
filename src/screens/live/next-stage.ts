import type { Stage } from '../../watch/codes.ts';
import type { WatchView } from '../../watch/view.ts';

/** The one stage that normally follows. Seating is left out where no seat pressure is planned. */
export function nextStage(stage: Stage, seatPlanned: boolean): Stage | null {
  switch (stage) {
    case 'prepare':
      return seatPlanned ? 'seat' : 'inflate';
    case 'seat':
      return 'inflate';
    case 'inflate':
      return 'hold';
    case 'hold':
      return 'let-down';
    case 'let-down':
      return 'done';
    case 'abandoned':
      return seatPlanned ? 'seat' : 'inflate';
    case 'done':
    case 'air-test':
      return null;
  }
}

/** Is a raised urgent alarm there, or a pressure that ought to raise one? */
export function inTrouble(view: WatchView): boolean {
  const urgent = view.alarms.some(
    (a) => a.priority === 'urgent' && (a.state === 'unacknowledged' || a.state === 'acknowledged'),
  );
  return urgent || overCeiling(view);
}

/** The packer was over its rating in this run: rubber that was overstretched may burst below it. */
export const wasOverRated = ({ peakBar, limits }: WatchView): boolean =>
  peakBar !== null && limits !== null && peakBar > limits.ratedBar;

/**
 * The sensor is known to read too low: its reading jumped down, or the dial gauge showed more. More air by its number is too
 * much, and its zero is none. So until a comparison agrees, whoever has acknowledged it.
 */
export const readsLow = ({ alarms }: WatchView): boolean =>
  alarms.some(
    ({ alarm, state, values: v }) =>
      state !== 'returned' &&
      ((alarm === 'reading-jump' && (v.jumpBar ?? 0) < 0) ||
        (alarm === 'gauge-differs' && (v.gaugeBar ?? 0) > (v.bar ?? 0))),
  );

/** The reading stands still by itself, whoever has acknowledged it: what the packer does is not seen. */
export const isUnread = ({ alarms }: WatchView): boolean =>
  alarms.some(({ alarm, state }) => alarm === 'stuck' && state !== 'returned');

export function overCeiling({ bar, overBar, limits }: WatchView): boolean {
  return overBar !== null || (bar !== null && limits !== null && bar >= limits.ceilingBar);
}

/** All ways from here, the one that normally follows first, then back a step or giving the attempt up: nothing is blocked. */
export function furtherStages(stage: Stage, seatPlanned: boolean): readonly Stage[] {
  const to = nextStage(stage, seatPlanned);
  return to === null ? otherStages(stage, seatPlanned) : [to, ...otherStages(stage, seatPlanned)];
}

function otherStages(stage: Stage, seatPlanned: boolean): readonly Stage[] {
  switch (stage) {
    case 'prepare':
      return seatPlanned ? ['inflate', 'air-test', 'abandoned'] : ['air-test', 'abandoned'];
    case 'seat':
      return ['let-down', 'abandoned'];
    case 'inflate':
      return ['let-down', 'abandoned'];
    case 'hold':
      return ['inflate', 'abandoned'];
    case 'let-down':
      return ['hold', 'abandoned'];
    case 'abandoned':
      return ['let-down', 'done'];
    case 'done':
      return ['air-test', 'let-down'];
    case 'air-test':
      return ['done'];
  }
}
