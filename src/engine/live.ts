import type { Setup } from '../job/setup.ts';
import type { LogEntry, LogHead } from '../record/log.ts';
import type { Reading } from '../sensing/reading.ts';
import type { WatchEvent } from '../watch/events.ts';
import { advanceRun, createRun, type Run, stepRun } from './core.ts';
import { createEarlyLog, type EarlyLog } from './early.ts';
import type { Recorder } from './recorder.ts';

/** What the page is told as it happens. */
export interface LiveSink {
  event(event: WatchEvent): void;
  reading(reading: Reading): void;
  unjudged(tUs: number): void;
  setup(setup: Setup): void;
  /** Events that the page is told; those of a take-over are old news to it. */
  tell(event: WatchEvent): void;
}

/**
 * The run that is being watched now: every entry is judged, then kept. Before a run is opened there is no
 * recorder, and the entries go to the early log instead. Judging comes first, so that no fault of the record
 * can keep an alarm back.
 */
export interface Live {
  readonly run: Run;
  readonly early: EarlyLog | null;
  readonly recorder: Recorder | null;
  entry(entry: LogEntry): void;
  /** Ticks up to now (µs on the run clock). */
  advance(tUs: number): void;
  /** Entries that were judged elsewhere before (opening, resuming): judged and kept, not told to the page. */
  takeOver(entries: readonly LogEntry[]): void;
}

export function createEarlyLive(head: LogHead, sink: LiveSink): Live {
  return makeLive(createRun(head), createEarlyLog(), null, sink);
}

export function createRecordedLive(run: Run, recorder: Recorder, sink: LiveSink): Live {
  return makeLive(run, null, recorder, sink);
}

function makeLive(run: Run, early: EarlyLog | null, recorder: Recorder | null, sink: LiveSink): Live {
  let quiet = false;
  const out = {
    event(event: WatchEvent): void {
      recorder?.event(event);
      sink.event(event);
      if (!quiet) sink.tell(event);
    },
    reading(reading: Reading): void {
      sink.reading(reading);
    },
    unjudged(tUs: number): void {
      sink.unjudged(tUs);
    },
  };
  const live: Live = {
    run,
    early,
    recorder,
    entry(entry) {
      if (entry.l === 'setup') sink.setup(entry.setup);
      stepRun(run, entry, out);
      early?.add(entry);
      recorder?.entry(entry);
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
