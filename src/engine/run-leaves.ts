/**
 * What the engine notes in the witness log: that a run was opened, how far its chain had come, that it ended. Nothing waits
 * for it: a leaf that the store refuses is told, kept and tried again, in order.
 */
import { SCRIPT_SHA256 } from '../record/hashing.ts';
import { toHex } from '../record/hex.ts';
import type { StoreErrorCode } from '../record/stores/store.ts';
import { StoreError } from '../record/stores/store.ts';
import { createWitnessLog } from '../record/stores/witness-log.ts';
import { type Leaf, leafText, runHash } from '../record/witness/leaves.ts';
import type { HostDeps } from './deps.ts';
import type { RunTitle } from './tally.ts';

export interface RunLeaves {
  opened(): void;
  /** @param at the number of the page that comes next and the hash of the last one; null: not known, nothing is noted */
  head(
    leaf: 'head' | 'resumed' | 'ended',
    at: { readonly index: number; readonly previous: Uint8Array } | null,
  ): void;
  /** Tries again what waits. */
  again(): void;
}

/** A refusing store is asked again for days before what waits is more than this. */
const MOST_WAITING = 4096;

/** @param tell a code while the log is refused, null when nothing waits any more */
export function createRunLeaves(
  { documents, utcMs }: Pick<HostDeps, 'documents' | 'utcMs'>,
  tell: (code: StoreErrorCode | null) => void,
): (title: Pick<RunTitle, 'runId' | 'practice'>) => RunLeaves {
  const log = createWitnessLog(documents, utcMs);
  const waiting: string[] = [];
  let busy = false;

  async function drain(): Promise<void> {
    if (busy) return;
    busy = true;
    try {
      for (let leaf = waiting[0]; leaf !== undefined; leaf = waiting[0]) {
        await log.append(leaf);
        waiting.shift();
      }
      tell(null);
    } catch (cause) {
      tell(cause instanceof StoreError ? cause.code : 'failed');
    } finally {
      busy = false;
    }
  }

  function note(leaf: Leaf): void {
    if (waiting.length < MOST_WAITING) waiting.push(leafText(leaf));
    void drain();
  }

  return ({ runId, practice }) => {
    const run = runHash(SCRIPT_SHA256, runId);
    const at = (): number => Math.round(utcMs());
    return {
      opened: () => note({ leaf: 'opened', at: at(), run, practice }),
      head(leaf, place) {
        if (place !== null && place.index > 0)
          note({ leaf, at: at(), run, page: place.index - 1, head: toHex(place.previous) });
      },
      again() {
        if (waiting.length > 0) void drain();
      },
    };
  };
}
