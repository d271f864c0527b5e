/**
 * Records opened to be looked into: a run of this tablet, or a sealed file. Values come from the side files where
 * they hold the whole run, else from the raw counts by sensing them again.
 */

import { createMemoryFile } from '../engine/memory-file.ts';
import type { RunDetail, TraceWindow } from '../engine/messages.ts';
import { sensing } from '../engine/sense-run.ts';
import { createTally, tallyReading } from '../engine/tally.ts';
import { createLiveTrace, type Traced, traceWindow } from '../engine/trace.ts';
import type { Manifest } from '../record/manifest.ts';
import { pageEntries } from '../record/page.ts';
import { scanPages } from '../record/page-scanner.ts';
import { runFileNames } from '../record/recovery.ts';
import type { Sealed } from '../record/seal.ts';
import { type FileStore, StoreError } from '../record/stores/store.ts';
import { openTraceCache, seriesOf } from '../record/trace-cache.ts';
import type { SenseRun } from '../record/trace-rows.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Tell } from './deps.ts';
import { type ReadingColumns, unpack } from './pieces/columns.ts';

/** The derived values of a record. */
export interface Values {
  readonly peakBar: number | null;
  /** Seconds from the first sample. */
  window(fromS: number, toS: number, points: number): TraceWindow;
}

export interface OpenRecord {
  readonly pages: Uint8Array;
  readonly manifest: Manifest | null;
  readonly sealed: Sealed | null;
  readonly detail: RunDetail;
  values(tell?: Tell): Promise<Values>;
  /** A sealed photograph by the hash of its bytes; null: it is not there. */
  photo(sha256: string): Promise<Uint8Array | null>;
}

/** Readings between two moves of what waits into the trace's files: what waits is copied whenever it grows. */
const FLUSH = 4096;

/** Takes down the values of a record while its counts are sensed. */
export interface ValueTap {
  readonly sense: SenseRun;
  /** Takes rows down that were sensed elsewhere. @param peakBar highest of them */
  rows(columns: readonly ReadingColumns[], peakBar: number | null): void;
  /** Once all entries were sensed. */
  values(): Values;
}

export function createValueTap(): ValueTap {
  const trace = createLiveTrace({ buckets: createMemoryFile(), rows: createMemoryFile() });
  const tally = createTally();
  let waiting = 0;
  let finished = false;
  const add = (reading: Traced, gap: boolean): void => {
    trace.add(reading, gap);
    if (++waiting < FLUSH) return;
    waiting = 0;
    trace.flush();
  };
  const unjudged = (tUs: number): void => trace.blank(tUs);
  const sense = sensing({
    reading(reading, gap) {
      add(reading, gap);
      tallyReading(tally, reading);
    },
    unjudged,
  });
  return {
    sense,
    rows(columns, peakBar) {
      for (const some of columns) unpack(some, { reading: add, unjudged });
      if (peakBar !== null) tally.peakBar = Math.max(tally.peakBar ?? peakBar, peakBar);
    },
    values() {
      if (!finished) trace.finish();
      finished = true;
      const { peakBar } = tally;
      return {
        peakBar: peakBar === null ? null : Math.round(peakBar * 1000) / 1000,
        window: (fromS, toS, points) => trace.window(fromS, toS, points),
      };
    },
  };
}

/** Entries between two looks at whether somebody waits. */
const SLICE = 4000;

/**
 * Senses the raw counts again for their values.
 * @param events all of the run's
 */
export async function deriveValues(
  pages: Uint8Array,
  events: readonly WatchEvent[],
  samples: number,
  tell: Tell = async () => undefined,
): Promise<Values> {
  const tap = createValueTap();
  let step: ReturnType<SenseRun> | null = null;
  let seen = 0;
  for (const item of scanPages(pages, { chain: false })) {
    if (item.kind !== 'page') continue;
    if (item.page.head !== null && step === null) step = tap.sense(item.page.head, events);
    if (step === null) continue;
    for (const entry of pageEntries(item.page)) {
      step(entry);
      if (++seen % SLICE === 0) await tell(Math.min(1, seen / Math.max(1, samples)));
    }
  }
  return tap.values();
}

/** The values that lie beside the run; null where they hold less than the run. */
export async function storedValues(
  files: FileStore,
  runId: string,
  samples: number,
  peakBar: number | null,
  firstUs: number,
): Promise<Values | null> {
  const names = runFileNames(runId);
  const buckets = createMemoryFile();
  const rows = createMemoryFile();
  try {
    buckets.append(await files.readAll(names.buckets));
    rows.append(await files.readAll(names.rows));
  } catch (cause) {
    if (cause instanceof StoreError) return null;
    throw cause;
  }
  const keys = seriesOf(buckets);
  if (keys === null) return null;
  const cache = openTraceCache(keys, { buckets, rows });
  if (cache.readings < samples) return null;
  return {
    peakBar,
    window(fromS, toS, points) {
      const picture = cache.picture(firstUs + fromS * 1e6, firstUs + toS * 1e6, points);
      return traceWindow(picture, firstUs, fromS, toS, new Map());
    },
  };
}
