/**
 * Records opened to be looked into: a run of this tablet, or a sealed file. Values come from the side files where
 * they hold the whole run, else from the raw counts by judging them again.
 */
import type { Setup } from '../../job/setup.ts';
import type { ChannelFrame, HelloFrame } from '../../link/frames.ts';
import type { Manifest } from '../../record/manifest.ts';
import { pageEntries } from '../../record/page.ts';
import { scanPages, scanRun } from '../../record/reader.ts';
import { runFileNames } from '../../record/recovery.ts';
import type { Sealed } from '../../record/seal.ts';
import { type FileStore, StoreError } from '../../record/stores/store.ts';
import { openTraceCache, seriesOf } from '../../record/traceCache.ts';
import type { SenseRun } from '../../record/traceRows.ts';
import type { PageDamage, RunSummary } from '../../record/types.ts';
import type { Reading } from '../../sensing/reading.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { createRun, type RunSink, stepRun } from '../core.ts';
import { createMemoryFile } from '../memoryFile.ts';
import type { RunDetail, TraceWindow } from '../messages.ts';
import { traceWindow } from '../trace.ts';
import { createWatched, type Watched } from '../watched.ts';
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

/** As the engine senses a run; readings and events go to `watched` besides. */
export function tappedSense(watched: Watched): SenseRun {
  return (head) => {
    const run = createRun(head);
    let reading: Reading | null = null;
    const sink: RunSink = {
      event: (event) => watched.event(event),
      reading(r) {
        reading = r;
        watched.reading(r);
      },
      unjudged: (tUs) => watched.unjudged(tUs),
    };
    return (entry) => {
      reading = null;
      stepRun(run, entry, sink);
      return reading;
    };
  };
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

/** The message's three words for the record's finer ones. */
const shownDamage = ({ what }: PageDamage): 'crc' | 'torn' | 'missing' =>
  what === 'torn' || what === 'missing' ? what : 'crc';

/** What the pages say, for the review. @param of what the pages do not say themselves */
export function detailOfPages(
  pages: Uint8Array,
  of: (facts: {
    readonly events: readonly WatchEvent[];
    readonly seconds: number;
    readonly samples: number;
  }) => RunSummary,
): RunDetail {
  const setups: Setup[] = [];
  const events: WatchEvent[] = [];
  let hello: HelloFrame | null = null;
  let channels: ChannelFrame[] = [];
  const scan = scanRun(
    pages,
    {
      page(page) {
        for (const { entry } of page.placed) {
          if (entry.l === 'setup') setups.push(entry.setup);
          if (entry.l !== 'frame') continue;
          if (entry.frame.t === 'H') {
            hello = entry.frame;
            channels = [];
          } else if (entry.frame.t === 'C') channels.push(entry.frame);
        }
        for (const event of page.events) events.push(event);
      },
    },
    { chain: false },
  );
  const firstUs = scan.firstSampleUs ?? scan.firstUs ?? 0;
  const lastS = Math.max(0, (scan.lastUs - firstUs) / 1e6);
  return {
    summary: of({ events, seconds: lastS, samples: scan.samples }),
    firstS: 0,
    lastS,
    setups,
    firstUs,
    utcMs: scan.head?.utcMs ?? null,
    events,
    hello,
    channels,
    damage: scan.damage.map((d) => ({
      page: d.page,
      what: shownDamage(d),
      fromS: d.fromUs === null ? null : (d.fromUs - firstUs) / 1e6,
    })),
  };
}
