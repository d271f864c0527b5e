import { HOLD_BEGINS, type SampleDoubt, type Stage } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { WatchView } from '../../watch/view.ts';
import type { STAGE_DOUBT } from '../../words/doubts.ts';
import { type ChecksOpen, NO_CHECKS, safetyBefore } from './checks-open.ts';
import { inTrouble, overCeiling, readsLow, wasOverRated } from './next-stage.ts';
import { isLinePressed } from './pressed.ts';

export type StageDoubt = keyof typeof STAGE_DOUBT;

/** What the crew has seen of this attempt, as its events tell. */
export interface Seen {
  readonly witnessHard: boolean;
  readonly reboundStayed: boolean;
}

/** The events from the begin of an attempt on. */
export function ownOf(events: readonly WatchEvent[], attempt: number): readonly WatchEvent[] {
  const begun = events.findIndex((e) => e.e === 'stage' && e.attempt === attempt);
  return begun < 0 ? events : events.slice(begun);
}

/** What was noted last of this attempt's sample; null: nothing. */
export function witnessOf(
  events: readonly WatchEvent[],
  attempt: number,
): Extract<WatchEvent, { e: 'witness' }> | null {
  return ownOf(events, attempt).findLast((e) => e.e === 'witness') ?? null;
}

/** In what the sample that was noted last contradicts the count; null: in nothing. */
export function sampleDoubtOf(events: readonly WatchEvent[], attempt: number): SampleDoubt | null {
  const own = ownOf(events, attempt);
  const said = own.slice(
    Math.max(
      0,
      own.findLastIndex((e) => e.e === 'witness'),
    ),
  );
  const doubt = said.find((e) => e.e === 'sample');
  return doubt?.e === 'sample' ? doubt.doubt : null;
}

/**
 * An earlier attempt's sample and its empty packer are not this one's, and of two answers the last one counts. A sample
 * that was kept warmer than the pipe says nothing of the sleeve.
 */
export function seenOf(events: readonly WatchEvent[], attempt: number): Seen {
  const own = ownOf(events, attempt);
  const up = own.findLastIndex((e) => e.e === 'stage' && UP.includes(e.stage));
  const witness = witnessOf(events, attempt);
  const rebound = own.slice(up + 1).findLast((e) => e.e === 'rebound' && e.what !== 'started');
  return {
    witnessHard: witness?.hard === true && witness.atPipeTemperature,
    reboundStayed: rebound?.e === 'rebound' && rebound.what === 'stayed',
  };
}

const UP: readonly Stage[] = ['seat', 'inflate', 'hold'];

/** What speaks against a hold from here: it would begin outside its band. */
function holdDoubts(view: WatchView): StageDoubt[] {
  const { bar, limits } = view;
  if (overCeiling(view)) return ['over-ceiling'];
  if (bar === null || view.stale) return ['pressure-unknown'];
  if (limits === null) return [];
  const slack = Math.max(HOLD_BEGINS.overBar, view.uBar ?? 0);
  if (limits.cue && bar > limits.workingBar + slack) return ['over-working'];
  if (limits.floorBar !== null && bar < limits.floorBar) return ['under-floor'];
  return limits.cue && bar < HOLD_BEGINS.share * limits.workingBar - slack ? ['under-working'] : [];
}

/** A cross-check at the packer shows that it holds air, whatever the line reads. */
const isHeldBeside = ({ second }: WatchView): boolean =>
  second?.role === 'check-pressure' && (second.bar ?? 0) > 0.1;

/**
 * What speaks against a step. Nothing is blocked after mixing: the doubt is said, a reason is asked for and both
 * are recorded.
 */
export function doubtsOf(
  to: Stage,
  view: WatchView,
  seen: Seen,
  checks: ChecksOpen = NO_CHECKS,
): readonly StageDoubt[] {
  const doubts: StageDoubt[] = [];
  if (UP.includes(to) && inTrouble(view)) doubts.push('urgent-alarm');
  if (UP.includes(to) && wasOverRated(view)) doubts.push('was-over-rated');
  // Until it is coupled and filled there is time to look at it.
  if (UP.includes(to) && !UP.includes(view.stage) && view.standing.includes('packer-not-inspected'))
    doubts.push('packer-not-inspected');
  const low = readsLow(view);
  if ((UP.includes(to) || to === 'done') && low) doubts.push('reads-low');
  if (UP.includes(to) && view.airNotWanted === 'fast-fall') doubts.push('loss-suspected');
  if (UP.includes(to) && view.airNotWanted === 'reading-jump' && !low) doubts.push('reading-jumped');
  if (to === 'hold') doubts.push(...holdDoubts(view));
  // Air that no stage accounts for: where it comes from is to be known before more is let in.
  const begins = view.stage === 'prepare' || view.stage === 'abandoned';
  if (begins && UP.includes(to) && isLinePressed(view)) doubts.push('line-pressed');
  // What the proof has shown of the supply is on the packer as soon as the valve is opened.
  const verdict = view.supply?.verdict ?? null;
  if (view.stage === 'prepare' && UP.includes(to) && (verdict === 'over-ceiling' || verdict === 'creeps'))
    doubts.push(verdict === 'creeps' ? 'supply-creeps' : 'supply-over-ceiling');
  const cureKnown = view.cure !== null;
  const met = view.cure !== null && (view.cure.metAtS !== null || view.cure.low >= 1);
  if (view.stage === 'hold' && (to === 'let-down' || to === 'done')) {
    if (view.standing.includes('cure-not-judged')) doubts.push('cure-not-judged');
    else if (cureKnown && !met) doubts.push('cure-not-met');
    if (!seen.witnessHard) doubts.push('no-witness');
  }
  // What stands in the line is a packer's, or nobody knows whose.
  if (to === 'air-test' && (view.bar === null || view.stale || view.bar > 0.05 || isHeldBeside(view)))
    doubts.push('under-pressure');
  // After an air test no packer is on the line.
  if (to === 'done' && view.stage === 'air-test') {
    if (view.bar === null || view.stale || view.bar > 0.05) doubts.push('under-pressure');
  } else if (to === 'done') {
    if (view.bar === null || view.stale || view.bar > 0.05 || isHeldBeside(view))
      doubts.push('under-pressure');
    else if (!seen.reboundStayed) doubts.push('no-rebound');
    // Behind a check valve the line stays at zero whatever the packer holds.
    else if (view.standing.includes('no-hold-by-tap')) doubts.push('rebound-unseen');
  }
  if (view.stage === 'prepare' && (to === 'seat' || to === 'inflate') && view.standing.includes('not-zeroed'))
    doubts.push('not-zeroed');
  if (safetyBefore(checks, view.stage, to).length > 0) doubts.push('checklist-open');
  return doubts;
}
