/** What a record tells of the job's checklist: its list with the answers of the sheet and of the run. */

import type { JobBundle } from '../job/bundle.ts';
import { type ListLine, linesOf, type SaidItem } from '../job/check-answers.ts';
import type { WatchEvent } from '../watch/events.ts';

type Check = Extract<WatchEvent, { e: 'check' }>;

/** Items that were gone on without and not seen to later, each as it was said last. */
export function passedChecks(events: readonly WatchEvent[]): readonly Check[] {
  const last = new Map<string, Check>();
  for (const e of events) if (e.e === 'check') last.set(e.item, e);
  return [...last.values()].filter((e) => e.how === 'passed');
}

/** Somebody went on against advice: a step with its reason, or past an item of the checklist. */
export const isOverride = (e: WatchEvent): boolean =>
  e.e === 'override' || (e.e === 'check' && e.how === 'passed');

/** @param openedUtcMs of the run clock's zero; null: not known */
export const saidIn = (events: readonly WatchEvent[], openedUtcMs: number | null): readonly SaidItem[] =>
  events.flatMap((e) =>
    e.e === 'check'
      ? [{ ...e, atUtcMs: openedUtcMs === null ? null : Math.round(openedUtcMs + e.tUs / 1000) }]
      : [],
  );

/** The list as the job kept it, or what the run alone says of one. */
export const checklistOf = (
  bundle: JobBundle | null,
  events: readonly WatchEvent[],
  openedUtcMs: number | null,
): readonly ListLine[] =>
  linesOf(
    bundle?.job.checklist ?? { listId: null, revision: 0, name: '', items: [] },
    bundle?.job.answers ?? [],
    saidIn(events, openedUtcMs),
  );
