import type { Setup } from '../job/setup.ts';
import type { Priority } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { LimitSpan } from './lanes/pressure-lane.ts';
import type { Decor } from './lanes/review-plot.ts';
import type { StageSpan } from './lanes/ribbon.ts';

/** What a run's events say about stretches of its trace; seconds from the first sample. */

/** @param endS where the last stage ends; null: it goes on */
export function stageSpans(events: readonly WatchEvent[], firstUs: number, endS: number | null): StageSpan[] {
  // A run begins in 'prepare' without an event that says so.
  const spans: StageSpan[] = [{ stage: 'prepare', attempt: 1, fromS: 0, toS: endS }];
  for (const e of events) {
    if (e.e !== 'stage') continue;
    // A stage read off the data is known a while after it began.
    const fromS = Math.max(0, ((e.fromUs ?? e.tUs) - firstUs) / 1e6);
    const last = spans[spans.length - 1];
    if (last !== undefined && last.stage === e.stage && last.attempt === e.attempt) continue;
    if (last !== undefined && fromS > last.fromS) spans[spans.length - 1] = { ...last, toS: fromS };
    else spans.pop();
    spans.push({ stage: e.stage, attempt: e.attempt, fromS, toS: endS });
  }
  return spans;
}

/** Limits in force, one stretch each 'limits' event; rated comes from the Setup of that number. */
export function limitSpans(
  events: readonly WatchEvent[],
  setups: readonly Setup[],
  firstUs: number,
): LimitSpan[] {
  const spans: LimitSpan[] = [];
  for (const e of events) {
    if (e.e !== 'limits') continue;
    const fromS = Math.max(0, (e.tUs - firstUs) / 1e6);
    const last = spans[spans.length - 1];
    if (last !== undefined) spans[spans.length - 1] = { ...last, toS: fromS };
    const limits = setups.find((s) => s.number === e.setup)?.limits ?? null;
    spans.push({
      fromS,
      toS: null,
      ratedBar: limits?.ratedBar ?? null,
      ceilingBar: e.ceilingBar,
      workingBar: limits?.cue === false ? null : e.workingBar,
      floorBar: e.floorBar,
      seatBar: limits?.seatBar ?? null,
    });
  }
  return spans;
}

export function gapSpans(events: readonly WatchEvent[], firstUs: number): Decor['gaps'] {
  return events.flatMap((e) =>
    e.e === 'gap' ? [{ fromS: (e.fromUs - firstUs) / 1e6, toS: (e.toUs - firstUs) / 1e6 }] : [],
  );
}

/** Where alarms were raised; one that was put aside and has not come back is marked as such. */
export function alarmMarks(events: readonly WatchEvent[], firstUs: number): Decor['marks'] {
  const marks: { atS: number; priority: Priority; isShelved: boolean }[] = [];
  const latest = new Map<string, number>();
  for (const e of events) {
    if (e.e !== 'alarm') continue;
    const which = `${e.alarm} ${e.occurrence}`;
    const mark = marks[latest.get(which) ?? -1];
    if (mark !== undefined) mark.isShelved = e.to === 'shelved';
    if (e.why !== 'condition' || e.to !== 'unacknowledged') continue;
    latest.set(which, marks.length);
    marks.push({ atS: (e.tUs - firstUs) / 1e6, priority: e.priority, isShelved: false });
  }
  return marks;
}
