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
      return seatPlanned ? ['inflate', 'abandoned'] : ['abandoned'];
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
      return ['let-down'];
  }
}
