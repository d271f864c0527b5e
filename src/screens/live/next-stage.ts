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

function overCeiling({ bar, overBar, limits }: WatchView): boolean {
  return overBar !== null || (bar !== null && limits !== null && bar >= limits.ceilingBar);
}

/** What the one big button leads to. In trouble it leads nowhere but down: what is to be done is what the alarm says. */
export function mainAction(view: WatchView, seatPlanned: boolean): Stage | null {
  const to = nextStage(view.stage, seatPlanned);
  return to === 'let-down' || !inTrouble(view) ? to : null;
}

/** The stages that stand behind it, with the one that it would lead to without the trouble: nothing is blocked. */
export function furtherStages(view: WatchView, seatPlanned: boolean): readonly Stage[] {
  const others = otherStages(view.stage, seatPlanned);
  const to = nextStage(view.stage, seatPlanned);
  return to === null || mainAction(view, seatPlanned) === to ? others : [...others, to];
}

/** Other ways from here: back a step, or giving the attempt up. */
export function otherStages(stage: Stage, seatPlanned: boolean): readonly Stage[] {
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

export type StageDoubt =
  | 'urgent-alarm'
  | 'pressure-unknown'
  | 'over-ceiling'
  | 'over-working'
  | 'under-floor'
  | 'cure-not-met'
  | 'no-witness'
  | 'under-pressure'
  | 'no-rebound'
  | 'not-zeroed';

/** A hold that begins this far over the working pressure takes from the room that its cure heat was given, bar. */
const OVER_WORKING_BAR = 0.05;

/** What speaks against a hold from here: it would begin outside its band. */
function holdDoubts(view: WatchView): StageDoubt[] {
  const { bar, limits } = view;
  if (overCeiling(view)) return ['over-ceiling'];
  if (bar === null || view.stale) return ['pressure-unknown'];
  if (limits === null) return [];
  const slack = Math.max(OVER_WORKING_BAR, view.uBar ?? 0);
  if (limits.cue && bar > limits.workingBar + slack) return ['over-working'];
  return limits.floorBar !== null && bar < limits.floorBar ? ['under-floor'] : [];
}

/**
 * What speaks against a step. Nothing is blocked after mixing: the doubt is said, a reason is asked for and both
 * are recorded.
 */
export function doubtsOf(
  to: Stage,
  view: WatchView,
  seen: { readonly witnessHard: boolean; readonly reboundStayed: boolean },
): readonly StageDoubt[] {
  const doubts: StageDoubt[] = [];
  const up = to === 'seat' || to === 'inflate' || to === 'hold';
  if (up && inTrouble(view)) doubts.push('urgent-alarm');
  if (to === 'hold') doubts.push(...holdDoubts(view));
  const cureKnown = view.cure !== null;
  const met = view.cure !== null && (view.cure.metAtS !== null || view.cure.low >= 1);
  if (view.stage === 'hold' && (to === 'let-down' || to === 'done')) {
    if (cureKnown && !met) doubts.push('cure-not-met');
    if (!seen.witnessHard) doubts.push('no-witness');
  }
  if (to === 'done') {
    if (view.bar === null || view.stale || view.bar > 0.05) doubts.push('under-pressure');
    else if (!seen.reboundStayed) doubts.push('no-rebound');
  }
  if (view.stage === 'prepare' && (to === 'seat' || to === 'inflate') && view.standing.includes('not-zeroed'))
    doubts.push('not-zeroed');
  return doubts;
}
