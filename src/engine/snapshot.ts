import { fromHex, toHex } from '../record/hex.ts';
import type { RunScan } from '../record/reader.ts';
import type { FileStore } from '../record/stores/store.ts';
import { ENGINE } from '../watch/codes.ts';
import type { Run } from './core.ts';
import type { Tally } from './tally.ts';

/**
 * The judged state of an open run, kept beside its pages once a minute, so that a run that is resumed after hours
 * need not be judged again from its start. A convenience only: the pages are the truth, and a snapshot that is
 * torn, of another program or not of these pages is left aside.
 */
export interface Snapshot {
  /** The page that follows the state, and the SHA-256 of the one before it. */
  readonly index: number;
  readonly previous: Uint8Array;
  /** Readings in the trace's side files up to here. */
  readonly rows: number;
  readonly tally: Tally;
  readonly run: Run;
}

interface SnapshotFile {
  readonly schema: 'steadybar-snapshot/5';
  readonly engine: number;
  readonly software: string;
  readonly index: number;
  readonly previous: string;
  readonly rows: number;
  readonly tally: Tally;
  readonly run: Run;
}

export const snapshotName = (runId: string): string => `${runId}.snap`;

/** The text of a snapshot: everything in it is plain data. */
export function snapshotText(snapshot: Snapshot, software: string): string {
  const file: SnapshotFile = {
    schema: 'steadybar-snapshot/5',
    engine: ENGINE,
    software,
    ...snapshot,
    previous: toHex(snapshot.previous),
  };
  return JSON.stringify(file);
}

export async function saveSnapshot(files: FileStore, runId: string, text: string): Promise<void> {
  const file = await files.open(snapshotName(runId));
  try {
    file.truncate(0);
    file.append(new TextEncoder().encode(text));
    file.flush();
  } finally {
    file.close();
  }
}

/** The snapshot of a run, or null when there is none that this program can go on from. */
export async function loadSnapshot(
  files: FileStore,
  scan: RunScan,
  software: string,
): Promise<Snapshot | null> {
  if (scan.runId === null) return null;
  let file: Partial<SnapshotFile>;
  try {
    const bytes = await files.readAll(snapshotName(scan.runId));
    file = JSON.parse(new TextDecoder().decode(bytes)) as Partial<SnapshotFile>;
  } catch {
    // None was kept yet, or it was torn: the pages are judged from their start.
    return null;
  }
  const { run, tally, rows, index } = file;
  const previous = typeof file.previous === 'string' ? fromHex(file.previous) : null;
  const known =
    file.schema === 'steadybar-snapshot/5' && file.engine === ENGINE && file.software === software;
  if (!known || previous === null || run === undefined || tally === undefined) return null;
  if (typeof rows !== 'number' || typeof index !== 'number' || index > scan.nextIndex) return null;
  return run.head.runId === scan.runId ? { run, tally, rows, index, previous } : null;
}

export async function removeSnapshot(files: FileStore, runId: string): Promise<void> {
  // It may never have been made, and nothing hangs on it.
  await files.remove(snapshotName(runId)).catch(() => undefined);
}
