/** Opens records by reference and keeps the last few, so that panning and overlays open nothing twice. */

import { outlineOf } from '../engine/outline.ts';
import { createRunList, fileOf } from '../engine/run-list.ts';
import { enclosedFiles } from '../job/enclosed.ts';
import { type ByteSource, bytesSource, readAll } from '../record/byte-source.ts';
import { toHex } from '../record/hex.ts';
import type { PhotosByHash } from '../record/job-file.ts';
import { type Manifest, parseManifest } from '../record/manifest.ts';
import { checkAddition, type Sealed } from '../record/seal.ts';
import { unlessMissing } from '../record/stores/missing.ts';
import { loadSealed } from '../record/stores/sealed-store.ts';
import type { RunSummary } from '../record/types.ts';
import { accountOf } from './account.ts';
import type { EvidenceDeps, Tell } from './deps.ts';
import { photoBytes } from './enclosed/enclosed.ts';
import { EvidenceError } from './faults.ts';
import { OPENED, type RecordRef, type RecordView, refText, type SealedFacts } from './messages.ts';
import { alarmCounts, lastLimited, numbersOf } from './numbers.ts';
import { deriveValues, type OpenRecord, storedValues, type Values } from './open.ts';
import { bundleIn } from './papers.ts';
import { signerAt, type Trust } from './signers.ts';

const KEPT = 6;

export function manifestOf(sealed: Sealed | null): Manifest | null {
  if (sealed === null) return null;
  const read = parseManifest(sealed.manifest);
  return read.ok ? read.manifest : null;
}

/** A sealed file's line, as the list of runs would have it. */
export function summaryOf(manifest: Manifest, peakBar: number | null): RunSummary {
  const { pages, events } = manifest;
  const alarms = alarmCounts(events);
  return {
    runId: manifest.runId,
    jobId: manifest.jobId,
    title: bundleIn(manifest.job)?.job.title ?? manifest.runId,
    practice: manifest.practice,
    openedUtcMs: manifest.openedUtcMs ?? manifest.sealedUtcMs,
    endedUtcMs: manifest.endedUtcMs,
    state: manifest.end === 'interrupted' ? 'interrupted' : 'ended',
    seconds: pages.firstSampleUs === null ? 0 : (pages.lastUs - pages.firstSampleUs) / 1e6,
    readings: pages.samples,
    peakBar,
    gaps: events.filter((e) => e.e === 'gap').length,
    alarms: alarms.urgent + alarms.high + alarms.low,
    bytes: pages.bytes,
  };
}

/** Small photographs of a record for its certificate. */
export async function smallPhotosOf({ manifest, photo }: OpenRecord): Promise<PhotosByHash> {
  const found = new Map<string, Uint8Array>();
  for (const { small } of manifest?.enclosed?.photos ?? []) {
    const bytes = await photo(small.sha256);
    if (bytes !== null) found.set(small.sha256, bytes);
  }
  return found;
}

/**
 * A record out of a sealed file.
 * @param derived values that checking the file made along the way
 * @param files the members that were found
 */
export async function recordOfFile(
  pages: Uint8Array,
  manifest: Manifest,
  sealed: Sealed,
  derived: Values | null,
  files: ReadonlyMap<string, ByteSource>,
): Promise<OpenRecord> {
  let values: Promise<Values> | null = derived === null ? null : Promise.resolve(derived);
  const detail = {
    summary: summaryOf(manifest, derived?.peakBar ?? null),
    ...(await outlineOf(bytesSource(pages))),
  };
  return {
    pages,
    manifest,
    sealed,
    detail,
    values(tell) {
      values ??= deriveValues(pages, detail.events, manifest.pages.samples, tell);
      return values;
    },
    async photo(sha256) {
      const named = enclosedFiles(manifest.enclosed ?? null).find((f) => f.sha256 === sha256);
      const there = named === undefined ? undefined : files.get(named.name);
      // A member of another size is another file: no more is read than the manifest says.
      return there === undefined || there.size !== named?.bytes ? null : readAll(there);
    },
  };
}

export interface OpenedRecords {
  open(ref: RecordRef): Promise<OpenRecord>;
  /** The file being looked at, or none. */
  lay(record: OpenRecord | null): void;
  drop(ref: RecordRef): void;
}

/** @param load opens a kept file */
export function createOpenedRecords(
  deps: EvidenceDeps,
  load: (sha256: string) => Promise<OpenRecord>,
): OpenedRecords {
  const kept = new Map<string, Promise<OpenRecord>>();
  const runList = createRunList(deps.documents, deps.files, deps.utcMs);

  async function openRun(runId: string): Promise<OpenRecord> {
    const summary = await runList.find(runId);
    const pages = await deps.files.readAll(fileOf(runId));
    const sealed = await loadSealed(deps.documents, runId);
    const detail = { summary, ...(await outlineOf(bytesSource(pages))) };
    let values: Promise<Values> | null = null;
    return {
      pages,
      manifest: manifestOf(sealed),
      sealed,
      detail,
      values(tell) {
        values ??= storedValues(deps.files, runId, summary.readings, summary.peakBar, detail.firstUs).then(
          (stored) => stored ?? deriveValues(pages, detail.events, summary.readings, tell),
        );
        return values;
      },
      photo: (sha256) => unlessMissing(() => photoBytes(deps, sha256)),
    };
  }

  return {
    open(ref) {
      const name = refText(ref);
      const found = kept.get(name);
      if (found !== undefined) {
        // Newest last.
        kept.delete(name);
        kept.set(name, found);
        return found;
      }
      if (ref.kind === 'opened') return Promise.reject(new EvidenceError('missing', 'no file is open'));
      const opening = ref.kind === 'run' ? openRun(ref.runId) : load(ref.sha256);
      kept.set(name, opening);
      opening.catch(() => kept.delete(name));
      for (const oldest of kept.keys()) {
        if (kept.size <= KEPT) break;
        if (oldest !== OPENED) kept.delete(oldest);
      }
      return opening;
    },
    lay(record) {
      kept.delete(OPENED);
      if (record !== null) kept.set(OPENED, Promise.resolve(record));
    },
    drop: (ref) => void kept.delete(refText(ref)),
  };
}

export async function sealedFacts(
  deps: EvidenceDeps,
  { sealed, manifest }: OpenRecord,
  trust: Trust,
): Promise<SealedFacts | null> {
  if (sealed === null || manifest === null) return null;
  const additions: SealedFacts['additions'][number][] = [];
  for (let i = 0; i < sealed.additions.length; i++) {
    const read = await checkAddition(sealed, manifest.runId, i, deps.crypto);
    if (!read.ok) break;
    const { addition } = read;
    additions.push({ ...addition, signedBy: signerAt(trust, addition.signer.fingerprint, addition.utcMs) });
  }

  return {
    sealedUtcMs: manifest.sealedUtcMs,
    sealedBy: manifest.sealedBy,
    fingerprint: manifest.signer.fingerprint,
    signer: signerAt(trust, manifest.signer.fingerprint, manifest.sealedUtcMs),
    own: trust.own.has(manifest.signer.fingerprint),
    previous: manifest.signer.previous,
    manifestSha256: toHex(await deps.crypto.sha256(sealed.manifest)),
    enclosed: manifest.enclosed ?? null,
    additions,
  };
}

export async function viewOf(
  deps: EvidenceDeps,
  ref: RecordRef,
  record: OpenRecord,
  trust: Trust,
  verdict: RecordView['verdict'],
  tell: Tell,
): Promise<RecordView> {
  const { detail } = record;
  const values = await record.values(tell);
  const endUs = detail.firstUs + detail.lastS * 1e6;
  const setup = lastLimited(detail.setups);
  return {
    ref,
    detail,
    sealed: await sealedFacts(deps, record, trust),
    verdict,
    numbers: numbersOf(detail.events, detail.firstUs, endUs, values, setup),
    account: accountOf(detail.events, detail.firstUs, endUs, values.peakBar, setup),
  };
}
