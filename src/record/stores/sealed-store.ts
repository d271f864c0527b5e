/**
 * Sealed records among the documents. A seal is one document, so it is there whole or not at all; it is never
 * exchanged for another, and only grows by additions.
 */
import { sameBytes } from '../bytes.ts';
import { type Sealed, sealedOf } from '../seal.ts';
import type { ProofMember } from '../witness/run-proof.ts';
import { type DocumentStore, StoreError } from './store.ts';

/** @throws StoreError 'stale' when the run is sealed already: nothing is sealed twice */
export async function keepSealed(
  documents: DocumentStore,
  runId: string,
  sealed: Sealed,
  utcMs: number,
): Promise<void> {
  await documents.put({ kind: 'seal', id: runId, revision: 0, savedUtcMs: utcMs, body: sealed });
}

/** null: the run is not sealed. @throws StoreError 'corrupt' when what rests is no sealed record */
export async function loadSealed(documents: DocumentStore, runId: string): Promise<Sealed | null> {
  const document = await documents.get('seal', runId);
  if (document === null) return null;
  const sealed = sealedOf(document.body);
  if (sealed === null) throw new StoreError('corrupt', `the seal of run ${runId} is not readable`);
  return sealed;
}

/**
 * Keeps a sealed record with additions more than the resting one has.
 * @throws StoreError 'missing' without a seal, 'stale' when it is not the resting record with more at its end
 */
export async function keepAdditions(
  documents: DocumentStore,
  runId: string,
  sealed: Sealed,
  utcMs: number,
): Promise<void> {
  const resting = await documents.get('seal', runId);
  const before = resting === null ? null : sealedOf(resting.body);
  if (resting === null || before === null) throw new StoreError('missing', `run ${runId} is not sealed`);
  const grown =
    sameBytes(before.manifest, sealed.manifest) &&
    sameBytes(before.signature, sealed.signature) &&
    sealed.additions.length > before.additions.length &&
    before.additions.every((a, i) => sameBytes(a.statement, sealed.additions[i]!.statement));
  if (!grown) throw new StoreError('stale', `run ${runId}: not the sealed record with something added`);
  await documents.put({ ...resting, savedUtcMs: utcMs, body: sealed });
}

/**
 * Keeps what the witness log says of a sealed record, in place of what it said before; nothing else of it changes.
 * @throws StoreError 'missing' without a seal, 'stale' when it was added to meanwhile
 */
export async function keepProof(
  documents: DocumentStore,
  runId: string,
  proof: readonly ProofMember[],
): Promise<void> {
  const resting = await documents.get('seal', runId);
  const sealed = resting === null ? null : sealedOf(resting.body);
  if (resting === null || sealed === null) throw new StoreError('missing', `run ${runId} is not sealed`);
  await documents.put({ ...resting, body: { ...sealed, proof } });
}
