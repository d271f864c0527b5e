/**
 * Records opened to be looked into: a run of this tablet, or a sealed file. Values come from the side files where
 * they hold the whole run, else from the raw counts by judging them again.
 */

import { createMemoryFile } from '../engine/memory-file.ts';
import type { RunDetail, TraceWindow } from '../engine/messages.ts';
import { senseWith } from '../engine/sense-run.ts';
import { traceWindow } from '../engine/trace.ts';
import { createWatched, type Watched } from '../engine/watched.ts';
import type { Manifest } from '../record/manifest.ts';
import { pageEntries } from '../record/page.ts';
import { scanPages } from '../record/reader.ts';
import { runFileNames } from '../record/recovery.ts';
import type { Sealed } from '../record/seal.ts';
import { type FileStore, StoreError } from '../record/stores/store.ts';
import { openTraceCache, seriesOf } from '../record/trace-cache.ts';
import type { SenseRun } from '../record/trace-rows.ts';
import type { Tell } from './deps.ts';

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
}

/** Readings between two moves of what waits into the trace's files: what waits is copied whenever it grows. */
const FLUSH = 4096;

/** As the engine senses a run; its readings and events are taken down besides. */
export function tappedSense(watched: Watched): SenseRun {
  let waiting = 0;
  return senseWith({
    event: (event) => watched.event(event),
    reading(reading) {
      watched.reading(reading);
      if (++waiting < FLUSH) return;
      waiting = 0;
      watched.trace.flush();
    },
    unjudged: (tUs) => watched.unjudged(tUs),
  });
}

export function valuesOf(watched: Watched): Values {
  return {
    get peakBar() {
      const { peakBar } = watched.tally;
      return peakBar === null ? null : Math.round(peakBar * 1000) / 1000;
    },
    window: (fromS, toS, points) => watched.trace.window(fromS, toS, points),
  };
}

/** Entries between two looks at whether somebody waits. */
const SLICE = 4000;

/** Judges the raw counts again for their values. */
export async function deriveValues(
  pages: Uint8Array,
  samples: number,
  tell: Tell = async () => undefined,
): Promise<Values> {
  const watched = createWatched();
  const sense = tappedSense(watched);
  let step: ReturnType<SenseRun> | null = null;
  let seen = 0;
  for (const item of scanPages(pages, { chain: false })) {
    if (item.kind !== 'page') continue;
    if (item.page.head !== null && step === null) step = sense(item.page.head);
    if (step === null) continue;
    for (const entry of pageEntries(item.page)) {
      step(entry);
      if (++seen % SLICE === 0) await tell(Math.min(1, seen / Math.max(1, samples)));
    }
  }
  watched.trace.finish();
  return valuesOf(watched);
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
