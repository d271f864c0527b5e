/** What a record tells of air tests: the last attempt counts, and the earlier ones are kept beside it. From events alone. */
import type { Setup } from '../job/setup.ts';
import type { WatchEvent } from '../watch/events.ts';

export type AirTestEvent = Extract<WatchEvent, { e: 'air-test' }>;

export interface AirTestTold {
  /** The job names one. */
  readonly planned: boolean;
  /** What came of the last attempt; null: none was begun, or none that is known. */
  readonly last: AirTestEvent | null;
  /** What came of those before it, in order. */
  readonly earlier: readonly AirTestEvent[];
}

const isEnd = (e: WatchEvent): e is AirTestEvent =>
  e.e === 'air-test' && (e.what === 'judged' || e.what === 'broken-off' || e.what === 'refused');

/** What was refused was no attempt, and says something where nothing else does. */
export function airTestTold(events: readonly WatchEvent[], setup: Setup | null): AirTestTold {
  const ends = events.filter(isEnd);
  const made = ends.filter((e) => e.what !== 'refused');
  const last = made.at(-1) ?? ends.at(-1) ?? null;
  return { planned: setup?.airTest !== undefined, last, earlier: made.slice(0, -1) };
}
