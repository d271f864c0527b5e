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

export type StageDoubt = 'cure-not-met' | 'no-witness' | 'under-pressure' | 'no-rebound' | 'not-zeroed';

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
  const cureKnown = view.cure !== null;
  const met = view.cure !== null && (view.cure.metAtS !== null || view.cure.low >= 1);
  if (view.stage === 'hold' && (to === 'let-down' || to === 'done')) {
    if (cureKnown && !met) doubts.push('cure-not-met');
    if (!seen.witnessHard) doubts.push('no-witness');
  }
  if (to === 'done') {
    if (view.bar === null || view.bar > 0.05) doubts.push('under-pressure');
    else if (!seen.reboundStayed) doubts.push('no-rebound');
  }
  if (view.stage === 'prepare' && (to === 'seat' || to === 'inflate') && view.standing.includes('not-zeroed'))
    doubts.push('not-zeroed');
  return doubts;
}
