import type { WatchEvent } from '../watch/events.ts';

type Told<E extends WatchEvent['e']> = Extract<WatchEvent, { e: E }>;

/** The count of the cure that a record tells of. */
export interface CureTold {
  readonly start: Told<'cure-start'> | null;
  readonly met: Told<'cure-met'> | null;
}

/**
 * Each attempt counts anew: what was reached is told with the beginning of its own count. Of several it is the one that reached it last;
 * where none did, the last that was begun.
 */
export function cureTold(events: readonly WatchEvent[]): CureTold {
  const met = events.findLast((e) => e.e === 'cure-met') ?? null;
  const start = events.findLast((e) => e.e === 'cure-start' && (met === null || e.tUs <= met.tUs)) ?? null;
  return { start: start?.e === 'cure-start' ? start : null, met };
}
