import { pause, type Timers } from '../link/timers.ts';
import type { LogHead } from '../record/log.ts';
import { pageEntries } from '../record/page.ts';
import { scanPages } from '../record/page-scanner.ts';
import type { RunScan } from '../record/reader.ts';
import { recoverFile } from '../record/recovery.ts';
import type { SideFiles } from '../record/side-files.ts';
import type { AppendFile, FileStore } from '../record/stores/store.ts';
import { createRun, type Run, stepRun } from './core.ts';
import type { HostDeps } from './deps.ts';
import { EngineError } from './errors.ts';
import { fileOf } from './ledger.ts';
import { loadSnapshot, type Snapshot } from './snapshot.ts';
import { restoredRows } from './trace.ts';
import { createWatched, type Watched } from './watched.ts';

/** Re-judging a long run is done in slices, so that the early guard goes on meanwhile. */
const SLICE_US = 20_000;

const same = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((v, i) => v === b[i]);

/**
 * Judges every entry of a run's file again, or those behind a snapshot, and gives the run as it stood at the
 * file's end. null: the snapshot is not of these pages.
 */
export async function rejudge(
  bytes: Uint8Array,
  head: LogHead,
  watched: Watched,
  timers: Timers,
  snapshot: Snapshot | null = null,
): Promise<Run | null> {
  const run = snapshot?.run ?? createRun(head);
  let sliceUs = timers.nowUs();
  for (const item of scanPages(bytes, { chain: false })) {
    if (item.kind !== 'page') continue;
    const { header } = item.page;
    if (snapshot !== null && header.index < snapshot.index) continue;
    if (snapshot?.index === header.index && !same(header.previous, snapshot.previous)) return null;
    for (const entry of pageEntries(item.page)) {
      if (entry.l === 'setup') watched.setup(entry.setup);
      stepRun(run, entry, watched);
      if (timers.nowUs() - sliceUs < SLICE_US) continue;
      await pause(timers, 0);
      sliceUs = timers.nowUs();
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
  bytes: Uint8Array,
  scan: RunScan,
  side: SideFiles | null,
): Promise<{ readonly run: Run; readonly watched: Watched }> {
  const snapshot = await loadSnapshot(deps.files, scan, deps.software);
  // Without the readings before it the trace would have a hole that the run has not.
  if (snapshot !== null && side !== null && restoredRows(side) >= snapshot.rows) {
    const watched = createWatched(side, snapshot);
    const run = await rejudge(bytes, snapshot.run.head, watched, deps.timers, snapshot);
    if (run !== null) return { run, watched };
  }
  const watched = createWatched(side ?? undefined);
  const run = scan.head === null ? null : await rejudge(bytes, scan.head, watched, deps.timers);
  if (run === null) throw new EngineError('corrupt', 'nothing of the run can be judged');
  return { run, watched };
}

/** Opens the file of a run that was left open and cuts its torn tail off. */
export async function openLeft(
  files: FileStore,
  runId: string,
): Promise<{ file: AppendFile; scan: RunScan; head: LogHead }> {
  const file = await files.open(fileOf(runId));
  try {
    const { scan } = recoverFile(file);
    if (scan.head === null) throw new EngineError('corrupt', 'the first page of the run is not readable');
    if (scan.end !== null) throw new EngineError('refused', 'the run was closed');
    return { file, scan, head: scan.head };
  } catch (cause) {
    file.close();
    throw cause;
  }
}
