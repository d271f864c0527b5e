import { StoreError } from '../record/stores/store.ts';
import { createWitnessLog } from '../record/stores/witness-log.ts';
import { readLeaf } from '../record/witness/leaves.ts';
import type { HostDeps } from './deps.ts';

/** A run is not kept waiting for it longer than this, ms: it is recorded without. */
const PATIENCE_MS = 1500;

/**
 * What a witness has signed last, as a run's first page names it: SHA-256 of the note, hex. null where none is at hand, or the
 * store refuses to say or takes too long over it: then the run carries no proof of being later than anything.
 */
export function lastSeen({
  documents,
  utcMs,
  timers,
}: Pick<HostDeps, 'documents' | 'utcMs' | 'timers'>): Promise<string | null> {
  const asked = createWitnessLog(documents, utcMs)
    .newest((text) => cosignedIn(text) !== null)
    .then(
      (leaf) => (leaf === null ? null : cosignedIn(leaf)),
      (cause: unknown) => {
        if (cause instanceof StoreError) return null;
        throw cause;
      },
    );
  return new Promise((resolve, reject) => {
    const late = timers.after(PATIENCE_MS, () => resolve(null));
    asked.then(resolve, reject).finally(late);
  });
}

/** null: another leaf. */
function cosignedIn(text: string): string | null {
  const leaf = readLeaf(text);
  return leaf?.leaf === 'witnessed' && leaf.what === 'cosignature' ? leaf.sha256 : null;
}
