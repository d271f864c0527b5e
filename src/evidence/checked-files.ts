/** Files from elsewhere: checked byte by byte, looked into, and kept when somebody says so. */
import { type ByteSource, chunksOf, readAll } from '../record/byte-source.ts';
import { isWhole } from '../record/findings.ts';
import { hashOf } from '../record/hashing.ts';
import { toHex } from '../record/hex.ts';
import { FILE } from '../record/members.ts';
import { recordInPacket } from '../record/packet-in.ts';
import { reservationsOf } from '../record/reservations.ts';
import { blobSource } from '../record/stores/blob-source.ts';
import { importLock, importSource, keepImport, listImports, removeImport } from '../record/stores/imports.ts';
import { type Verification, type VerifyOptions, verifyBySums, verifyJobFile } from '../record/verify.ts';
import type { Digests } from '../record/verify-members.ts';
import type { FileProof } from '../record/verify-witness.ts';
import type { EvidenceDeps, Tell } from './deps.ts';
import { type Deriving, deriving } from './deriving.ts';
import { EvidenceError } from './faults.ts';
import { judge } from './judge.ts';
import type { EvidenceAnswers, VerifyView } from './messages.ts';
import type { OpenRecord, Values } from './open.ts';
import { recordOfFile } from './opened-records.ts';
import { bundleIn } from './papers.ts';
import { inPieces } from './pieces/in-pieces.ts';
import { type Trust, trustOptions } from './signers.ts';

/** Larger than any job, and small enough to stand in memory. */
export const MOST_BYTES = 1 << 30;
const NAME_MOST = 200;

export interface Checked {
  readonly view: VerifyView;
  readonly record: OpenRecord | null;
  readonly file: Blob;
  /** What it carries of a witness log, where that holds. */
  readonly proof: FileProof | null;
}

/** A valid signature of RFC 8032 (test 1), to learn whether this browser can check any. */
const PROBE = {
  key: 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
  signature:
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
} as const;

const bytesOf = (hex: string): Uint8Array =>
  Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));

/** @throws EvidenceError 'key-missing' where signatures can't be checked at all */
export async function needSignatures(deps: EvidenceDeps): Promise<void> {
  if (!(await deps.crypto.verify(bytesOf(PROBE.key), new Uint8Array(0), bytesOf(PROBE.signature))))
    throw new EvidenceError('key-missing', 'this browser checks no Ed25519 signatures');
}

/** What is verified of a file that was handed in: of a client's packet the record file in it. */
async function handedIn(
  given: Blob,
  name: string,
): Promise<{ readonly file: Blob; readonly name: string; readonly packet: string | null }> {
  const inner = await recordInPacket(blobSource(given));
  if (inner === null) return { file: given, name, packet: null };
  const file = given.slice(inner.start, inner.start + inner.size, 'application/zip');
  return { file, name: inner.name, packet: name.slice(0, NAME_MOST) };
}

export async function checkFile(
  deps: EvidenceDeps,
  given: Blob,
  givenName: string,
  trust: Trust,
  tell: Tell,
): Promise<Checked> {
  const { file, name, packet } = await handedIn(given, givenName);
  if (file.size > MOST_BYTES) throw new EvidenceError('too-large', `${file.size} bytes`);
  await needSignatures(deps);
  const source = blobSource(file);
  const made = deriving(deps.catalogueOf);
  const { values } = made;
  const options = { crypto: deps.crypto, ...trustOptions(trust), ...made };
  const { v, sha256 } = await withHelp(deps, file, made, tell, async (help, progress) => {
    const whole = help.digests?.({ start: 0, size: file.size });
    const found = await verifyJobFile(source, { ...options, ...help, progress });
    return { v: found, sha256: (await whole)?.sha256 ?? (await hashOf(source, deps.crypto.hashing)) };
  });
  const record = v.verdict === 'refused' ? null : await recordOf(v, values());
  const kept = (await listImports(deps.documents).catch(() => [])).some((i) => i.sha256 === sha256);
  const additions = v.additions.map((a) => ({
    ...a,
    signedBy: trust.names.get(a.signer.fingerprint) ?? null,
  }));
  const manifestSha256 = v.sealed === null ? null : toHex(await deps.crypto.sha256(v.sealed.manifest));
  const facts = { name: name.slice(0, NAME_MOST), packet, bytes: file.size, sha256, manifestSha256, kept };
  const view = viewOf(v, facts, additions, record);
  const proof = v.witness?.check.faults.length === 0 ? v.witness : null;
  return { view, record, file, proof };
}

/** Pieces of the run are judged and made again by other workers meanwhile, where the platform can do that. */
async function withHelp<T>(
  deps: EvidenceDeps,
  file: Blob,
  { elsewhere }: Pick<Deriving, 'elsewhere'>,
  tell: Tell,
  work: (help: Pick<VerifyOptions, 'judge' | 'digests'>, progress: Tell) => Promise<T>,
): Promise<T> {
  const pool = deps.openPool?.() ?? null;
  if (pool === null) return work({ judge }, tell);
  // What is done here and what is done there go on at the same time: told is what is behind.
  const shares = { here: 0, there: 0 };
  const told = (more: Partial<typeof shares>): Promise<void> => {
    Object.assign(shares, more);
    return tell(Math.min(shares.here, shares.there));
  };
  const made = inPieces({
    file,
    source: blobSource(file),
    pool,
    least: 1,
    ...elsewhere,
    begins: (withTrace) => {
      if (withTrace) shares.here = 1;
    },
    // Cancelled: whoever works here is told so too.
    progress: (there) => void told({ there }).catch(() => pool.stop()),
  }).finally(() => Object.assign(shares, { there: 1 }));
  try {
    const digests: Digests = (stretch) => pool.ask({ q: 'digest', file, stretch }).catch(() => null);
    return await work({ judge: { ...judge, elsewhere: () => made }, digests }, (here) => told({ here }));
  } finally {
    pool.stop();
  }
}

/** Signature, pages, chain and witness log alone: nothing is made again, and the other members are not read. */
export async function firstLook(
  deps: EvidenceDeps,
  given: Blob,
  trust: Trust,
): Promise<EvidenceAnswers['verify-first']> {
  const { file } = await handedIn(given, '');
  if (file.size > MOST_BYTES) throw new EvidenceError('too-large', `${file.size} bytes`);
  await needSignatures(deps);
  const options = { crypto: deps.crypto, ...trustOptions(trust), sense: null, judge: null, firstOnly: true };
  const { verdict, findings } = await verifyJobFile(blobSource(file), options);
  return { verdict, findings };
}

/** The record in a verified file; null where it can't be read. */
async function recordOf(v: Verification, values: Values | null): Promise<OpenRecord | null> {
  const pages = v.files.get(FILE.pages);
  if (v.manifest === null || pages === undefined || v.sealed === null || !v.shown) return null;
  return recordOfFile(await readAll(pages), v.manifest, v.sealed, values, v.files);
}

function viewOf(
  v: Verification,
  facts: Pick<VerifyView, 'name' | 'packet' | 'bytes' | 'sha256' | 'manifestSha256' | 'kept'>,
  additions: VerifyView['additions'],
  record: OpenRecord | null,
): VerifyView {
  const { manifest } = v;
  return {
    verdict: v.verdict,
    findings: v.findings,
    remarks: v.remarks,
    reserved: reservationsOf(v.verdict, v.remarks),
    ...facts,
    fingerprint: v.fingerprint,
    publicKey: manifest?.signer.publicKey ?? null,
    signer: v.signer,
    record:
      manifest === null
        ? null
        : {
            title: bundleIn(manifest.job)?.job.title ?? manifest.runId,
            runId: manifest.runId,
            openedUtcMs: manifest.openedUtcMs,
            endedUtcMs: manifest.endedUtcMs,
            sealedUtcMs: manifest.sealedUtcMs,
            samples: manifest.pages.samples,
            firstSampleUs: manifest.pages.firstSampleUs ?? manifest.pages.firstUs ?? 0,
          },
    additions,
    readable: record !== null,
  };
}

/** One tab at a time writes, removes or sweeps a kept file. @throws EvidenceError 'run-locked' */
async function locked<T>(deps: EvidenceDeps, sha256: string, work: () => Promise<T>): Promise<T> {
  const release = await deps.locks.acquire(importLock(sha256));
  if (release === null) throw new EvidenceError('run-locked', 'the file is in use in another tab');
  try {
    return await work();
  } finally {
    release();
  }
}

export const removeKept = (deps: EvidenceDeps, sha256: string): Promise<void> =>
  locked(deps, sha256, () => removeImport(deps.files, deps.documents, sha256));

/** The bytes of a checked file. @throws EvidenceError 'stale' when they are others by now */
async function* asChecked(deps: EvidenceDeps, file: Blob, sha256: string): AsyncGenerator<Uint8Array> {
  const hash = deps.crypto.hashing.hasher();
  for await (const chunk of chunksOf(blobSource(file))) {
    hash.update(chunk);
    yield chunk;
  }
  if (toHex(hash.digest()) !== sha256)
    throw new EvidenceError('stale', 'the file was changed since it was checked');
}

/** Keeps a checked file. Only one whose every byte is as it was signed enters the archive. */
export async function keepChecked(
  deps: EvidenceDeps,
  { view, file, record }: Checked,
): Promise<EvidenceAnswers['keep-opened']> {
  if (!isWhole(view.verdict) || view.record === null || record === null)
    throw new EvidenceError('refused', 'only a whole and unchanged record is kept');
  const facts = { sha256: view.sha256, runId: view.record.runId, name: view.name };
  const outcome = await locked(deps, view.sha256, () =>
    keepImport(deps.files, deps.documents, asChecked(deps, file, view.sha256), facts, deps.utcMs()),
  );
  return {
    sha256: view.sha256,
    already: !outcome.kept,
    others: outcome.kept ? outcome.others.length : 0,
  };
}

/** A kept file, checked again by its signed sums: the record is as good as what rests. */
export async function loadKept(
  deps: EvidenceDeps,
  sha256: string,
  trust: Trust,
): Promise<{
  readonly record: OpenRecord;
  readonly verdict: VerifyView['verdict'];
  readonly file: ByteSource;
}> {
  const file = await importSource(deps.files, sha256);
  const made = deriving(deps.catalogueOf);
  const options = { crypto: deps.crypto, ...trustOptions(trust) };
  const v = await verifyBySums(file, options, () => made);
  const record = await recordOf(v, made.values());
  if (record === null) throw new EvidenceError('corrupt', 'the kept file is not readable any more');
  return { record, verdict: v.verdict, file };
}
