import { runFileNames } from '../record/recovery.ts';
import type { SideFiles } from '../record/side-files.ts';
import type { AppendFile, FileStore } from '../record/stores/store.ts';

/** Opens a run's side files; null when the store refuses. Without them the trace is only kept in memory. */
export async function openSideFiles(files: FileStore, runId: string): Promise<OpenSideFiles | null> {
  const names = runFileNames(runId);
  let rows: AppendFile | null = null;
  try {
    rows = await files.open(names.rows);
    return { buckets: await files.open(names.buckets), rows };
  } catch {
    rows?.close();
    return null;
  }
}

export interface OpenSideFiles extends SideFiles {
  readonly buckets: AppendFile;
  readonly rows: AppendFile;
}

export function syncSide(side: OpenSideFiles | null): void {
  side?.rows.flush();
  side?.buckets.flush();
}

export function closeSide(side: OpenSideFiles | null): void {
  side?.buckets.close();
  side?.rows.close();
}
