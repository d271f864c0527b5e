import type { RunDetail } from '../../engine/messages.ts';
import { clockTime, stopwatch } from '../../words/format.ts';
import { REVIEW } from '../../words/review.ts';

/** Names times of a run, seconds from its first sample: by this device's clock; by the run's own where the record knows none. */
export const runClock =
  ({ utcMs, firstUs }: Pick<RunDetail, 'utcMs' | 'firstUs'>) =>
  (s: number): string =>
    utcMs === null ? REVIEW.runTime(stopwatch(s)) : clockTime(utcMs + firstUs / 1000 + s * 1000);
