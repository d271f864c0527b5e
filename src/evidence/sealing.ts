/** Sealing a run of this tablet, what is added afterwards, and the file that leaves it. */

import { createRunList, fileOf } from '../engine/run-list.ts';
import type { Wording } from '../job/wording.ts';
import { bytesSource } from '../record/byte-source.ts';
import { buildJobFile, jobFileName } from '../record/job-file.ts';
import { isPage } from '../record/manifest.ts';
import { addToSealed, type Sealed, seal } from '../record/seal.ts';
import { loadSigner } from '../record/stores/keys.ts';
import { keepAdditions, keepSealed, loadSealed } from '../record/stores/sealed-store.ts';
import { StoreError } from '../record/stores/store.ts';
import type { EvidenceDeps, Tell } from './deps.ts';
import { deriving } from './deriving.ts';
import { addedParts, enclosedForSeal, noteSealed } from './enclosed/enclosed.ts';
import { EvidenceError } from './faults.ts';
import type { EvidenceAnswers, EvidenceRequest } from './messages.ts';
import type { OpenRecord } from './open.ts';
import { bundleIn, papersOf } from './papers.ts';
import { signerFor } from './signers.ts';
import type { OwnLog } from './witness/own-log.ts';
import { logName, proved } from './witness/proving.ts';

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
 * @throws EvidenceError 'open', 'unreadable', 'sealed', 'key-missing'
 */
export function sealRun(
  deps: EvidenceDeps,
  log: OwnLog,
  runId: string,
  wording: Wording,
  page: string | null,
): Promise<EvidenceAnswers['seal']> {
  return locked(deps, runId, async () => {
    const runList = createRunList(deps.documents, deps.files, deps.utcMs);
    const summary = await runList.find(runId);
    if (summary.state === 'open') throw new EvidenceError('open', 'the run has no end');
    if ((await loadSealed(deps.documents, runId)) !== null)
      throw new EvidenceError('sealed', 'the run is sealed already');
    const pages = await deps.files.readAll(fileOf(runId));
    const { signer, made } = await signerFor(deps);
    if (made !== null) await log.event({ leaf: 'key', key: signer.fingerprint, why: made });
    const sealedUtcMs = deps.utcMs();
    const job = await papersOf(deps.documents, summary.jobId);
    // Practice is no work: the witness log, by which works are found again, knows only that it was opened.
    const name = summary.practice ? null : await noted(() => logName(log));
    const beside = { jobId: summary.jobId, runId };
    const enclosed = await enclosedForSeal(deps, beside, summary.openedUtcMs);
    const input = {
      pages,
      job,
      enclosed,
      log: name,
      page: reachable(page),
      sealedUtcMs,
      software: deps.software,
      wording,
    };
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
    if (enclosed !== null) await noted(() => noteSealed(deps, beside, enclosed));
    await noted(() => proved(deps, log, runId, result.sealed));
    return { fingerprint: signer.fingerprint, newKey: made };
  });
}

/**
 * What is noted in the witness log stops no sealing: what a store refuses now is noted when the file is built.
 * @returns null where it was refused
 */
async function noted<T>(work: () => Promise<T>): Promise<T | null> {
  try {
    return await work();
  } catch (cause) {
    if (cause instanceof StoreError) return null;
    throw cause;
  }
}

/** An address that means something elsewhere: not this computer's own. */
const reachable = (page: string | null): string | null =>
  page !== null && isPage(page) && !/^https?:\/\/(localhost|127\.|\[)/.test(page) ? page : null;

/** Marks the run's line in the list. Only a label: the seal itself is what counts. */
export async function label(deps: EvidenceDeps, runId: string, sealedUtcMs: number): Promise<void> {
  const resting = await deps.documents.get('run', runId);
  const body = resting?.body as { sealedUtcMs?: unknown } | undefined;
  if (resting === null || body === undefined || body.sealedUtcMs === sealedUtcMs) return;
  await deps.documents.put({ ...resting, body: { ...body, sealedUtcMs } });
}

/**
 * Marks the run's line in the list: its record file was handed out as it is now; null: not any more. Only a label, which stops
 * nothing: what a store refuses is told by whatever is written next.
 */
export async function labelSent(deps: EvidenceDeps, runId: string, sentUtcMs: number | null): Promise<void> {
  await noted(async () => {
    const resting = await deps.documents.get('run', runId);
    if (resting === null) return;
    const { sentUtcMs: before, ...body } = resting.body as { sentUtcMs?: unknown };
    if (sentUtcMs === null && before === undefined) return;
    await deps.documents.put({ ...resting, body: sentUtcMs === null ? body : { ...body, sentUtcMs } });
  });
}

/** @throws EvidenceError 'not-sealed', 'bad-request' */
export function addTo(
  deps: EvidenceDeps,
  log: OwnLog,
  runId: string,
  addition: Omit<Extract<EvidenceRequest, { q: 'add' }>, 'q' | 'runId'>,
): Promise<null> {
  return locked(deps, runId, async () => {
    const [text, by] = [addition.text.trim().slice(0, 4000), addition.by.trim().slice(0, 80)];
    if (text === '' || by === '') throw new EvidenceError('bad-request', 'a text and its author, please');
    const sealed = await loadSealed(deps.documents, runId);
    if (sealed === null) throw new EvidenceError('not-sealed', 'the run is not sealed');
    const parts = await addedParts(deps, addition);
    const { signer } = await signerFor(deps);
    const utcMs = deps.utcMs();
    const more = { kind: addition.kind, body: { text, by, ...parts }, utcMs };
    const added = await addToSealed(sealed, more, signer, deps.crypto);
    await keepAdditions(deps.documents, runId, added, utcMs);
    // What was sent before does not hold this.
    await labelSent(deps, runId, null);
    await noted(() => proved(deps, log, runId, added));
    return null;
  });
}

/** A sealed record with what witnesses gave by now. @param runId of a run that is kept here; null: as it came */
export async function sealedNow(
  deps: EvidenceDeps,
  log: OwnLog,
  sealed: Sealed,
  runId: string | null,
): Promise<Sealed> {
  const resting = runId === null ? null : await loadSealed(deps.documents, runId);
  if (runId === null || resting === null) return sealed;
  return (await noted(() => proved(deps, log, runId, resting))) ?? resting;
}

/** @param runId of a run that is kept here, whose proof is renewed; null: the file's own */
export async function buildFile(
  deps: EvidenceDeps,
  log: OwnLog,
  record: OpenRecord,
  runId: string | null,
  tell: Tell,
): Promise<EvidenceAnswers['job-file']> {
  const { manifest, pages } = record;
  if (record.sealed === null || manifest === null)
    throw new EvidenceError('not-sealed', 'the run is not sealed');
  const sealed = await sealedNow(deps, log, record.sealed, runId);
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
      photo: record.photo,
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
