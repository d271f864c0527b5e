import { type ByteSource, fileSource } from '../record/byte-source.ts';
import { sameBytes } from '../record/bytes.ts';
import type { LogHead } from '../record/log.ts';
import { pageEntries } from '../record/page.ts';
import { scanChunks } from '../record/page-scanner.ts';
import type { RunScan } from '../record/reader.ts';
import { recoverFile } from '../record/recovery.ts';
import type { SideFiles } from '../record/side-files.ts';
import type { AppendFile } from '../record/stores/store.ts';
import { createRun, type Run, stepRun } from './core.ts';
import type { HostDeps } from './deps.ts';
import { EngineError } from './errors.ts';
import { fileOf } from './run-list.ts';
import { createSlices, inSlices, type Slices } from './slices.ts';
import { loadSnapshot, type Snapshot } from './snapshot.ts';
import { restoredRows } from './trace.ts';
import { createWatched, type Watched } from './watched.ts';

/** Entries that are judged in about a millisecond. */
const BETWEEN_BREATHS = 64;

/**
 * Judges every entry of a run's file again, or those behind a snapshot, and gives the run as it stood at the
 * file's end. null: the snapshot is not of these pages.
 */
export async function rejudge(
  pages: ByteSource,
  head: LogHead,
  watched: Watched,
  slices: Slices,
  snapshot: Snapshot | null = null,
): Promise<Run | null> {
  const run = snapshot?.run ?? createRun(head);
  let n = 0;
  for await (const items of scanChunks(inSlices(pages, slices), { chain: false }))
    for (const item of items) {
      if (item.kind !== 'page') continue;
      const { header } = item.page;
      if (snapshot !== null && header.index < snapshot.index) continue;
      if (snapshot?.index === header.index && !sameBytes(header.previous, snapshot.previous)) return null;
      for (const entry of pageEntries(item.page)) {
        if (entry.l === 'setup') watched.setup(entry.setup);
        stepRun(run, entry, watched);
        if (++n % BETWEEN_BREATHS === 0) await slices.breathe();
      }
    }
  return run;
}

/**
 * The run as it stood at the end of its pages, judged from the newest snapshot on or from the start.
 * @param scan has a head
 */
export async function revive(
  deps: Pick<HostDeps, 'files' | 'timers' | 'software'>,
  pages: ByteSource,
  scan: RunScan,
  side: SideFiles | null,
): Promise<{ readonly run: Run; readonly watched: Watched }> {
  const slices = createSlices(deps.timers);
  const snapshot = await loadSnapshot(deps.files, scan, deps.software);
  // Without the readings before it the trace would have a hole that the run has not.
  if (snapshot !== null && side !== null && restoredRows(side) >= snapshot.rows) {
    const watched = createWatched(side, snapshot);
    const run = await rejudge(pages, snapshot.run.head, watched, slices, snapshot);
    if (run !== null) return { run, watched };
  }
  const watched = createWatched(side ?? undefined);
  const run = scan.head === null ? null : await rejudge(pages, scan.head, watched, slices);
  if (run === null) throw new EngineError('corrupt', 'nothing of the run can be judged');
  return { run, watched };
}

/** Opens the file of a run that was left open and cuts its torn tail off. */
export async function openLeft(
  { files, timers }: Pick<HostDeps, 'files' | 'timers'>,
  runId: string,
): Promise<{ file: AppendFile; scan: RunScan; head: LogHead }> {
  const file = await files.open(fileOf(runId));
  try {
    const { scan } = await recoverFile(file, inSlices(fileSource(file), createSlices(timers)));
    if (scan.head === null) throw new EngineError('corrupt', 'the first page of the run is not readable');
    if (scan.end !== null) throw new EngineError('refused', 'the run was closed');
    return { file, scan, head: scan.head };
  } catch (cause) {
    file.close();
    throw cause;
  }
}
