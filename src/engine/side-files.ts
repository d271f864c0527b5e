import { runFileNames } from '../record/recovery.ts';
import type { AppendFile, FileStore } from '../record/stores/store.ts';
import type { TraceFiles } from '../record/trace-cache.ts';

/** Opens a run's side files; null when the store refuses. Without them the trace is only kept in memory. */
export async function openSideFiles(files: FileStore, runId: string): Promise<SideFiles | null> {
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

export interface SideFiles extends TraceFiles {
  readonly buckets: AppendFile;
  readonly rows: AppendFile;
}

export function syncSide(side: SideFiles | null): void {
  side?.rows.flush();
  side?.buckets.flush();
}

export function closeSide(side: SideFiles | null): void {
  side?.buckets.close();
  side?.rows.close();
}
