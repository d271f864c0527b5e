import { pause } from '../link/timers.ts';
import { sweepImports } from '../record/stores/imports.ts';
import type { HostDeps } from './deps.ts';
import type { RunSummary } from './messages.ts';
import { recoverRestore } from './restore-journal.ts';
import type { RunList } from './run-list.ts';
import { runLocks } from './run-locks.ts';
import { createSlices } from './slices.ts';

/** Puts the stores in order at the start, before the list of runs is believed. */
export interface Settling {
  /**
   * What a process that died left half done is finished, taken back, or given its list entry. Gives the runs that
   * were left open.
   */
  begin(): Promise<OpenRuns>;
  /** The runs that are open now. */
  open(): Promise<OpenRuns>;
  /** The list of runs, after that; a start that failed says so by its own answer. */
  listed(): Promise<readonly RunSummary[]>;
}

export interface OpenRuns {
  /** Left open by a crash: nobody holds them. */
  readonly left: readonly RunSummary[];
  /** Recorded now, by this tab or another. */
  readonly held: readonly string[];
}

/** The list of runs waits this long for the stores, then shows what there is. */
const SETTLE_MS = 3000;

export function createSettling(
  deps: Pick<HostDeps, 'files' | 'documents' | 'locks' | 'timers' | 'utcMs'>,
  runList: RunList,
): Settling {
  // The list of runs waits for it: a run whose list entry was lost must not be missing from the first look.
  let settled: Promise<void> = Promise.resolve();

  /** Bytes of an import that died. Where the disk refuses, they are tried again at the next start. */
  async function sweep(): Promise<void> {
    await sweepImports(deps.files, deps.documents, deps.locks.acquire).catch(() => undefined);
  }

  async function settle(): Promise<void> {
    // Files of a restore that does not count yet are no orphans, neither runs nor imports.
    const restored = await recoverRestore(deps, sweep).catch(() => null);
    if (restored !== null) await runList.adoptOrphans(createSlices(deps.timers));
  }

  async function open(): Promise<OpenRuns> {
    const left: RunSummary[] = [];
    const held: string[] = [];
    for (const summary of await runList.list()) {
      if (summary.state !== 'open') continue;
      const release = await deps.locks.acquire(runLocks(summary)[0]!);
      if (release === null) {
        held.push(summary.runId);
        continue;
      }
      release();
      left.push(summary);
    }
    return { left, held };
  }

  return {
    async begin() {
      settled = settle();
      await settled;
      return open();
    },
    open,
    async listed() {
      await Promise.race([settled.catch(() => undefined), pause(deps.timers, SETTLE_MS)]);
      return runList.list();
    },
  };
}
