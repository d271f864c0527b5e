import type { TraceFiles } from '../record/traceCache.ts';
import type { Reading } from '../sensing/reading.ts';
import type { WatchEvent } from '../watch/events.ts';
import { createMemoryFile } from './memoryFile.ts';
import { createTally, type Tally, tallyEvent, tallyReading } from './tally.ts';
import { createLiveTrace, type LiveTrace } from './trace.ts';

/** What is kept about the run that is watched: its trace for the plot and its figures for the list. */
export interface Watched {
  readonly trace: LiveTrace;
  readonly tally: Tally;
  event(event: WatchEvent): void;
  reading(reading: Reading): void;
  unjudged(tUs: number): void;
}

/**
 * @param files the run's side files; left out for the early run, which is kept nowhere
 * @param from a snapshot's figures, where the run goes on from one
 */
export function createWatched(
  files?: TraceFiles,
  from?: { readonly tally: Tally; readonly rows: number },
): Watched {
  const trace = createLiveTrace(
    files ?? { buckets: createMemoryFile(), rows: createMemoryFile() },
    from?.rows,
  );
  const tally = from === undefined ? createTally() : { ...from.tally };
  let gap = false;
  return {
    trace,
    tally,
    event(event) {
      if (event.e === 'gap') gap = true;
      tallyEvent(tally, event);
    },
    reading(reading) {
      trace.add(reading, gap);
      gap = false;
      tallyReading(tally, reading);
    },
    unjudged: (tUs) => trace.blank(tUs),
  };
}
