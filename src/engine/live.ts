import type { LogEntry, LogHead } from '../record/log.ts';
import type { Reading } from '../sensing/reading.ts';
import type { WatchEvent } from '../watch/events.ts';
import { advanceRun, createRun, type Run, type RunSink, stepRun } from './core.ts';
import { createEarlyLog, type EarlyLog } from './early.ts';
import type { RunRecord } from './run-record.ts';
import { createWatched, type Watched } from './watched.ts';

/** Told each event as it happens; those of a take-over are old news. */
export type Tell = (event: WatchEvent) => void;

/**
 * A run that is being fed: every entry is judged, then kept. Before a run is opened there is no record, and the
 * entries go to the early log instead. Judging comes first, so that no fault of the record can keep an alarm back.
 */
export interface Live {
  readonly run: Run;
  /** Its trace for the plot and its figures for the list. */
  readonly watched: Watched;
  readonly early: EarlyLog | null;
  readonly record: RunRecord | null;
  entry(entry: LogEntry): void;
  /** Ticks up to now (µs on the run clock). */
  advance(tUs: number): void;
  /** Entries that were judged elsewhere before (opening, resuming): judged and kept, not told. */
  takeOver(entries: readonly LogEntry[]): void;
}

export function createEarlyLive(head: LogHead, tell: Tell): Live {
  return makeLive(createRun(head), createWatched(), createEarlyLog(), null, tell);
}

export function createRecordedLive(record: RunRecord, tell: Tell): Live {
  return makeLive(record.run, record.watched, null, record, tell);
}

function makeLive(
  run: Run,
  watched: Watched,
  early: EarlyLog | null,
  record: RunRecord | null,
  tell: Tell,
): Live {
  let quiet = false;
  const out: RunSink = {
    event(event) {
      record?.recorder.event(event);
      watched.event(event);
      if (!quiet) tell(event);
    },
    reading: (reading: Reading) => watched.reading(reading),
    unjudged: (tUs: number) => watched.unjudged(tUs),
    beside: (tUs, temps) => watched.beside(tUs, temps),
  };
  const live: Live = {
    run,
    watched,
    early,
    record,
    entry(entry) {
      if (entry.l === 'setup') watched.setup(entry.setup);
      stepRun(run, entry, out);
      early?.add(entry);
      record?.recorder.entry(entry);
    },
    advance(tUs) {
      advanceRun(run, tUs, out);
    },
    takeOver(entries) {
      quiet = true;
      try {
        for (const entry of entries) live.entry(entry);
      } finally {
        quiet = false;
      }
    },
  };
  return live;
}
