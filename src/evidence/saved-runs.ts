import type { RunDetail, TraceWindow } from '../engine/messages.ts';
import { loadOutline, outlineName, outlineOf, saveOutline } from '../engine/outline.ts';
import { rejudge } from '../engine/resume.ts';
import { createRunList, fileOf } from '../engine/run-list.ts';
import { runLocks } from '../engine/run-locks.ts';
import { closeSide, type OpenSideFiles, openSideFiles } from '../engine/side-files.ts';
import type { Slices } from '../engine/slices.ts';
import { snapshotName } from '../engine/snapshot.ts';
import { traceWindow } from '../engine/trace.ts';
import { createWatched } from '../engine/watched.ts';
import type { ByteSource } from '../record/byte-source.ts';
import { readRun } from '../record/reader.ts';
import { runFileNames } from '../record/recovery.ts';
import { unlessMissing } from '../record/stores/missing.ts';
import { StoreError } from '../record/stores/store.ts';
import { openTraceCache, seriesOf, type TraceCache } from '../record/trace-cache.ts';
import { captureOf } from './capture.ts';
import type { EvidenceDeps } from './deps.ts';
import { EvidenceError } from './faults.ts';

/** Runs of this tablet that nobody records now, to look at: nothing here changes a run but remove(). */
export interface SavedRuns {
  /**
   * A closed run that was looked at before is answered from its kept outline, with the damage that was found then.
   * @param check reads and checks the whole file again
   */
  detail(runId: string, check: boolean): Promise<RunDetail>;
  window(runId: string, fromS: number, toS: number, points: number): Promise<TraceWindow>;
  capture(runId: string): Promise<Blob>;
  remove(runId: string): Promise<void>;
  /** Closes the files of the run that was looked at: whoever takes it up again needs them for itself. */
  letGo(): Promise<void>;
}

interface OpenedRun {
  readonly runId: string;
  readonly side: OpenSideFiles;
  readonly cache: TraceCache;
}

/** Other requests wait no longer than this while a run is judged again, ms. */
const SLICE_MS = 50;

function slicesOf(deps: Pick<EvidenceDeps, 'utcMs' | 'pause'>): Slices {
  let sinceMs = deps.utcMs();
  return {
    async breathe() {
      if (Math.abs(deps.utcMs() - sinceMs) < SLICE_MS) return;
      await deps.pause();
      sinceMs = deps.utcMs();
    },
  };
}

const NO_PLACES: ReadonlyMap<number, string | null> = new Map();

export function createSavedRuns(
  deps: Pick<EvidenceDeps, 'files' | 'documents' | 'locks' | 'utcMs' | 'pause'>,
): SavedRuns {
  const runList = createRunList(deps.documents, deps.files, deps.utcMs);
  const slices = slicesOf(deps);
  // The run that is being looked at: zooming must not open its files again.
  let opened: OpenedRun | null = null;
  let opening: Promise<unknown> = Promise.resolve();

  const pagesOf = (runId: string): Promise<ByteSource> => deps.files.source(fileOf(runId));

  function clear(): void {
    closeSide(opened?.side ?? null);
    opened = null;
  }

  function cacheOf(side: OpenSideFiles): TraceCache | null {
    const keys = seriesOf(side.buckets);
    return keys === null ? null : openTraceCache(keys, side);
  }

  /** Derived values are made anew from the raw counts where the side files hold less than the run. */
  async function derive(runId: string, side: OpenSideFiles): Promise<TraceCache | null> {
    const pages = await pagesOf(runId);
    const { head } = await readRun(pages, {}, { chain: false });
    if (head === null) throw new StoreError('corrupt', 'the first page of the run is not readable');
    const watched = createWatched(side);
    await rejudge(pages, head, watched, slices);
    watched.trace.finish();
    return cacheOf(side);
  }

  async function load(runId: string): Promise<OpenedRun | null> {
    if (opened?.runId === runId) return opened;
    clear();
    const { readings } = await runList.find(runId);
    const side = await openSideFiles(deps.files, runId);
    if (side === null) throw new StoreError('busy', 'the trace is open in another tab');
    try {
      let cache = cacheOf(side);
      if (cache === null || cache.readings < readings) cache = await derive(runId, side);
      if (cache === null) {
        closeSide(side);
        return null;
      }
      opened = { runId, side, cache };
      return opened;
    } catch (cause) {
      closeSide(side);
      throw cause;
    }
  }

  async function removeFiles(runId: string): Promise<void> {
    for (const name of [...Object.values(runFileNames(runId)), outlineName(runId), snapshotName(runId)]) {
      // Side files may never have been made.
      await unlessMissing(() => deps.files.remove(name));
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
      const summary = await runList.find(runId);
      const kept = check || summary.state === 'open' ? null : await loadOutline(deps.files, runId);
      if (kept !== null) return { summary, ...kept };
      const outline = await outlineOf(await pagesOf(runId));
      if (summary.state !== 'open') await saveOutline(deps.files, runId, outline);
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
      await runList.find(runId);
      return captureOf(await pagesOf(runId));
    },

    letGo: () => inTurn(async () => clear()),

    remove: (runId) =>
      inTurn(async () => {
        const summary = await runList.find(runId);
        if (summary.state === 'open') throw new EvidenceError('refused', 'an open run cannot be removed');
        const release = await deps.locks.acquire(runLocks(summary)[0]!);
        if (release === null) throw new EvidenceError('run-locked', 'another tab has taken the run up');
        try {
          if (opened?.runId === runId) clear();
          await removeFiles(runId);
          await runList.remove(runId);
        } finally {
          release();
        }
      }),
  };
}
