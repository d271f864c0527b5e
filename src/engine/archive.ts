import type { Timers } from '../link/timers.ts';
import { rebuildCapture } from '../record/capture.ts';
import { scanRun } from '../record/reader.ts';
import { runFileNames } from '../record/recovery.ts';
import { unlessMissing } from '../record/stores/missing.ts';
import { type FileStore, StoreError } from '../record/stores/store.ts';
import { openTraceCache, seriesOf, type TraceCache } from '../record/trace-cache.ts';
import { EngineError } from './errors.ts';
import { fileOf, type Ledger } from './ledger.ts';
import type { RunDetail, TraceWindow } from './messages.ts';
import { loadOutline, outlineName, outlineOf, saveOutline } from './outline.ts';
import { rejudge } from './resume.ts';
import { closeSide, type OpenSideFiles, openSideFiles } from './side-files.ts';
import { snapshotName } from './snapshot.ts';
import { traceWindow } from './trace.ts';
import { createWatched } from './watched.ts';

/** Saved runs, to look at: nothing here changes a run but remove(). */
export interface Archive {
  /**
   * A closed run that was looked at before is answered from its kept outline, with the damage that was found then.
   * @param check reads and checks the whole file again
   */
  detail(runId: string, check: boolean): Promise<RunDetail>;
  window(runId: string, fromS: number, toS: number, points: number): Promise<TraceWindow>;
  capture(runId: string): Promise<Uint8Array>;
  remove(runId: string): Promise<void>;
}

export interface ArchiveSite {
  readonly files: FileStore;
  readonly ledger: Ledger;
  readonly timers: Timers;
  /** The bytes of the run that is open now, if it is this one: its file is held by the recorder. */
  openBytes(runId: string): Uint8Array | null;
}

interface Shelf {
  readonly runId: string;
  readonly side: OpenSideFiles;
  readonly cache: TraceCache;
}

const NO_PLACES: ReadonlyMap<number, string | null> = new Map();

export function createArchive(site: ArchiveSite): Archive {
  // The run that is being looked at: zooming must not open its files again.
  let shelf: Shelf | null = null;
  let opening: Promise<unknown> = Promise.resolve();

  async function bytesOf(runId: string): Promise<Uint8Array> {
    return site.openBytes(runId) ?? (await site.files.readAll(fileOf(runId)));
  }

  function clear(): void {
    closeSide(shelf?.side ?? null);
    shelf = null;
  }

  function cacheOf(side: OpenSideFiles): TraceCache | null {
    const keys = seriesOf(side.buckets);
    return keys === null ? null : openTraceCache(keys, side);
  }

  /** Derived values are made anew from the raw counts where the side files hold less than the run. */
  async function derive(runId: string, side: OpenSideFiles): Promise<TraceCache | null> {
    const bytes = await bytesOf(runId);
    const { head } = scanRun(bytes, {}, { chain: false });
    if (head === null) throw new StoreError('corrupt', 'the first page of the run is not readable');
    const watched = createWatched(side);
    await rejudge(bytes, head, watched, site.timers);
    watched.trace.finish();
    return cacheOf(side);
  }

  async function load(runId: string): Promise<Shelf | null> {
    if (shelf?.runId === runId) return shelf;
    clear();
    const { readings } = await site.ledger.find(runId);
    const side = await openSideFiles(site.files, runId);
    if (side === null) throw new StoreError('busy', 'the trace is open in another tab');
    try {
      let cache = cacheOf(side);
      if (cache === null || cache.readings < readings) cache = await derive(runId, side);
      if (cache === null) {
        closeSide(side);
        return null;
      }
      shelf = { runId, side, cache };
      return shelf;
    } catch (cause) {
      closeSide(side);
      throw cause;
    }
  }

  /** One file is opened at a time: an access handle is exclusive. */
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const next = opening.then(work, work);
    opening = next.catch(() => undefined);
    return next;
  }

  return {
    async detail(runId, check) {
      const summary = await site.ledger.find(runId);
      const open = site.openBytes(runId);
      if (open !== null) return { summary, ...outlineOf(open) };
      const kept = check || summary.state === 'open' ? null : await loadOutline(site.files, runId);
      if (kept !== null) return { summary, ...kept };
      const outline = outlineOf(await site.files.readAll(fileOf(runId)));
      if (summary.state !== 'open') await saveOutline(site.files, runId, outline);
      return { summary, ...outline };
    },

    window: (runId, fromS, toS, points) =>
      inTurn(async () => {
        const found = await load(runId);
        const firstUs = found?.cache.firstUs ?? null;
        if (found === null || firstUs === null)
          return { fromS, toS, s: new Float64Array(0), series: [], readings: 0 };
        const picture = found.cache.picture(firstUs + fromS * 1e6, firstUs + toS * 1e6, points);
        return traceWindow(picture, firstUs, fromS, toS, NO_PLACES);
      }),

    async capture(runId) {
      await site.ledger.find(runId);
      return rebuildCapture(await bytesOf(runId));
    },

    remove: (runId) =>
      inTurn(async () => {
        const { state } = await site.ledger.find(runId);
        if (state === 'open' || site.openBytes(runId) !== null)
          throw new EngineError('refused', 'an open run cannot be removed');
        if (shelf?.runId === runId) clear();
        for (const name of [...Object.values(runFileNames(runId)), outlineName(runId), snapshotName(runId)]) {
          // Side files may never have been made.
          await unlessMissing(() => site.files.remove(name));
        }
        await site.ledger.remove(runId);
      }),
  };
}
