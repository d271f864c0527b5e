import type { Setup } from '../job/setup.ts';
import type { SideFiles } from '../record/side-files.ts';
import type { Reading, TemperatureReading } from '../sensing/reading.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Run } from './core.ts';
import { createMemoryFile } from './memory-file.ts';
import type { Outline } from './outline.ts';
import { createTally, type Tally, tallyEvent, tallyReading } from './tally.ts';
import { createLiveTrace, type LiveTrace } from './trace.ts';

/** What is kept about the run that is watched: its trace for the plot and its figures for the list. */
export interface Watched {
  readonly trace: LiveTrace;
  readonly tally: Tally;
  event(event: WatchEvent): void;
  reading(reading: Reading): void;
  unjudged(tUs: number): void;
  beside(tUs: number, temps: readonly TemperatureReading[]): void;
  setup(setup: Setup): void;
  /** What its outline will say; null when the run's beginning was not seen (it goes on from a snapshot). */
  outline(run: Run): Outline | null;
}

/**
 * @param files the run's side files; left out for the early run, which is kept nowhere
 * @param from a snapshot's figures, where the run goes on from one
 */
export function createWatched(
  files?: SideFiles,
  from?: { readonly tally: Tally; readonly rows: number; readonly run: Pick<Run, 'setup'> },
): Watched {
  const trace = createLiveTrace(
    files ?? { buckets: createMemoryFile(), rows: createMemoryFile() },
    from?.rows,
  );
  const tally =
    from === undefined ? createTally() : { ...from.tally, sensorChecks: [...from.tally.sensorChecks] };
  let gap = false;
  let firstUs: number | null = null;
  const events: WatchEvent[] = [];
  const setups: Setup[] = [];
  let inForce: Setup | null = from?.run.setup ?? null;
  return {
    trace,
    tally,
    event(event) {
      if (event.e === 'gap') gap = true;
      events.push(event);
      tallyEvent(tally, event, inForce);
    },
    reading(reading) {
      firstUs ??= reading.tUs;
      trace.add(reading, gap);
      gap = false;
      tallyReading(tally, reading);
    },
    unjudged(tUs) {
      firstUs ??= tUs;
      trace.blank(tUs);
    },
    beside: trace.beside,
    setup(setup) {
      inForce = setup;
      setups.push(setup);
    },
    outline(run) {
      if (from !== undefined || firstUs === null) return null;
      return {
        firstS: 0,
        lastS: (run.nowUs - firstUs) / 1e6,
        setups,
        firstUs,
        utcMs: run.head.utcMs,
        events,
        hello: run.hello,
        channels: run.channels,
        map: run.map,
        damage: [],
      };
    },
  };
}
