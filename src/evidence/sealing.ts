/** Sealing a run of this tablet, what is added afterwards, and the file that leaves it. */

import { createRunList, fileOf } from '../engine/run-list.ts';
import type { Wording } from '../job/wording.ts';
import { bytesSource } from '../record/byte-source.ts';
import { buildJobFile, jobFileName } from '../record/job-file.ts';
import { addToSealed, seal } from '../record/seal.ts';
import { loadSigner } from '../record/stores/keys.ts';
import { keepAdditions, keepSealed, loadSealed } from '../record/stores/sealed-store.ts';
import { StoreError } from '../record/stores/store.ts';
import type { EvidenceDeps, Tell } from './deps.ts';
import { deriving } from './deriving.ts';
import { EvidenceError } from './faults.ts';
import type { EvidenceAnswers } from './messages.ts';
import type { OpenRecord } from './open.ts';
import { bundleIn, papersOf } from './papers.ts';
import { signerFor } from './signers.ts';

/** One sealing at a time, in whatever tab. */
async function locked<T>(deps: EvidenceDeps, runId: string, work: () => Promise<T>): Promise<T> {
  const release = await deps.locks.acquire(`run-${runId}`);
  if (release === null) throw new EvidenceError('run-locked', 'the run is in use in another tab');
  try {
    return await work();
  } finally {
    release();
  }
}

/**
 * Makes the manifest, signs it and keeps both in one document: there whole or not at all.
 * @throws EvidenceError 'practice', 'open', 'unreadable', 'sealed', 'key-missing'
 */
export function sealRun(
  deps: EvidenceDeps,
  runId: string,
  wording: Wording,
): Promise<EvidenceAnswers['seal']> {
  return locked(deps, runId, async () => {
    const runList = createRunList(deps.documents, deps.files, deps.utcMs);
    const summary = await runList.find(runId);
    if (summary.practice) throw new EvidenceError('practice', 'a practice run is never sealed');
    if (summary.state === 'open') throw new EvidenceError('open', 'the run has no end');
    if ((await loadSealed(deps.documents, runId)) !== null)
      throw new EvidenceError('sealed', 'the run is sealed already');
    const pages = await deps.files.readAll(fileOf(runId));
    const { signer, made } = await signerFor(deps);
    const sealedUtcMs = deps.utcMs();
    const job = await papersOf(deps.documents, summary.jobId);
    const input = { pages, job, sealedUtcMs, software: deps.software, wording };
    const result = await seal(input, signer, deps.crypto);
    if (!result.ok) throw new EvidenceError(result.refusal, 'the run cannot be sealed');
    try {
      await keepSealed(deps.documents, runId, result.sealed, sealedUtcMs);
    } catch (cause) {
      if (cause instanceof StoreError && cause.code === 'stale')
        throw new EvidenceError('sealed', 'the run is sealed already');
      throw cause;
    }
    await label(deps, runId, sealedUtcMs);
    return { fingerprint: signer.fingerprint, newKey: made };
  });
}

/** Marks the run's line in the list. Only a label: the seal itself is what counts. */
export async function label(deps: EvidenceDeps, runId: string, sealedUtcMs: number): Promise<void> {
  const resting = await deps.documents.get('run', runId);
  const body = resting?.body as { sealedUtcMs?: unknown } | undefined;
  if (resting === null || body === undefined || body.sealedUtcMs === sealedUtcMs) return;
  await deps.documents.put({ ...resting, body: { ...body, sealedUtcMs } });
}

/** @throws EvidenceError 'not-sealed', 'bad-request' */
export function addTo(
  deps: EvidenceDeps,
  runId: string,
  addition: { readonly kind: 'correction' | 'note'; readonly text: string; readonly by: string },
): Promise<null> {
  return locked(deps, runId, async () => {
    const [text, by] = [addition.text.trim().slice(0, 4000), addition.by.trim().slice(0, 80)];
    if (text === '' || by === '') throw new EvidenceError('bad-request', 'a text and its author, please');
    const sealed = await loadSealed(deps.documents, runId);
    if (sealed === null) throw new EvidenceError('not-sealed', 'the run is not sealed');
    const { signer } = await signerFor(deps);
    const utcMs = deps.utcMs();
    const more = { kind: addition.kind, body: { text, by }, utcMs };
    await keepAdditions(deps.documents, runId, await addToSealed(sealed, more, signer, deps.crypto), utcMs);
    return null;
  });
}

export async function buildFile(
  deps: EvidenceDeps,
  record: OpenRecord,
  tell: Tell,
): Promise<EvidenceAnswers['job-file']> {
  const { sealed, manifest, pages } = record;
  if (sealed === null || manifest === null) throw new EvidenceError('not-sealed', 'the run is not sealed');
  const key = await loadSigner(deps.documents, deps.subtle);
  const { sense, words, extras } = deriving(deps.catalogueOf);
  const blob = (piece: Uint8Array): Blob => new Blob([piece as Uint8Array<ArrayBuffer>]);
  const pieces = await buildJobFile(
    {
      pages: bytesSource(pages),
      sealed,
      sense,
      words,
      extras,
      signer: key.state === 'ready' ? key.signer : null,
    },
    deps.crypto,
    blob,
    tell,
  );
  const title = bundleIn(manifest.job)?.job.title ?? record.detail.summary.title;
  return {
    name: jobFileName(manifest, title),
    file: new Blob(pieces, { type: 'application/zip' }),
  };
}
