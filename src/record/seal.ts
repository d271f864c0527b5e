/**
 * Sealing: the manifest is made from the pages and signed; nothing is rewritten afterwards. A practice run is sealed as a
 * practice record, whose schema no job has. What has to be said later is an addition: a signed statement of its own that names what it adds to.
 */
import type { Enclosed } from '../job/enclosed.ts';
import type { Wording } from '../job/wording.ts';
import { canonicalBytes, type Json, parseCanonical, toJson } from './canonical.ts';
import { fromHex, toHex } from './hex.ts';
import { contentOf, type LogName, type Manifest, makeManifest } from './manifest.ts';
import { ALGORITHM, fingerprintOf, type RecordCrypto, type Signer } from './signing.ts';
import { isUtcMs } from './utc.ts';
import type { ProofMember } from './witness/run-proof.ts';

export type SealRefusal =
  | 'open' // no end mark: end it, or close it as interrupted, first
  | 'unreadable'; // the first page does not stand

/** A sealed record as it rests: the signed bytes themselves. */
export interface Sealed {
  readonly manifest: Uint8Array;
  /** 64 bytes over the manifest. */
  readonly signature: Uint8Array;
  readonly additions: readonly SealedAddition[];
  /** What its file carries of the witness log; empty where nothing is noted of it. Renewed as witnesses come. */
  readonly proof: readonly ProofMember[];
}

export interface SealedAddition {
  readonly statement: Uint8Array;
  readonly signature: Uint8Array;
}

export interface SealInput {
  /** The run's file. */
  readonly pages: Uint8Array;
  /** The job with packer, resin, sensors and calibrations as they are now; null for a run without a job. */
  readonly job: unknown;
  /** Photographs and signatures by hand; left out or null: none. */
  readonly enclosed?: Enclosed | null;
  /** In which it will be noted. */
  readonly log: LogName | null;
  /** Where the app is served, for a code on the certificate; left out: not told. */
  readonly page?: string | null;
  readonly sealedUtcMs: number;
  readonly software: string;
  /** In which the record's certificate and CHECK.txt are written. */
  readonly wording: Wording;
}

export type SealResult =
  | { readonly ok: true; readonly sealed: Sealed; readonly value: Manifest }
  | { readonly ok: false; readonly refusal: SealRefusal };

export async function seal(input: SealInput, signer: Signer, crypto: RecordCrypto): Promise<SealResult> {
  // The platform hashes the whole beside the chain.
  const whole = crypto.sha256(input.pages);
  const read = contentOf(input.pages, crypto.hashing);
  const pagesSha256 = toHex(await whole);
  if (read === null) return { ok: false, refusal: 'unreadable' };
  const { content } = read;
  if (content.end === null) return { ok: false, refusal: 'open' };
  const value = makeManifest(content, {
    pagesSha256,
    sealedUtcMs: input.sealedUtcMs,
    sealedBy: input.software,
    job: input.job,
    enclosed: input.enclosed ?? null,
    log: input.log,
    page: input.page ?? null,
    wording: input.wording,
    signer,
  });
  const manifest = canonicalBytes(value);
  const signature = await signer.sign(manifest);
  return { ok: true, sealed: { manifest, signature, additions: [], proof: [] }, value };
}

export const ADDITION_SCHEMA = 'steadybar-addition/1';
export const MAX_ADDITIONS = 200;
export const MAX_ADDITION_BYTES = 1 << 16;

export interface Addition {
  readonly schema: typeof ADDITION_SCHEMA;
  readonly runId: string;
  /** From 1, without holes. */
  readonly number: number;
  /** SHA-256 of the manifest, hex. */
  readonly manifestSha256: string;
  /** SHA-256 of the addition before; of the manifest for the first. */
  readonly previousSha256: string;
  readonly utcMs: number;
  /** What it is: a correction, a note, a status that a person set. */
  readonly kind: 'correction' | 'note' | 'status';
  readonly body: Json;
  readonly signer: {
    readonly algorithm: typeof ALGORITHM;
    readonly publicKey: string;
    readonly fingerprint: string;
  };
}

/**
 * The sealed record with one signed statement more.
 * @throws RangeError when the body is not JSON or too long, or the record is full
 */
export async function addToSealed(
  sealed: Sealed,
  addition: { readonly kind: Addition['kind']; readonly body: unknown; readonly utcMs: number },
  signer: Signer,
  crypto: RecordCrypto,
): Promise<Sealed> {
  const value = parseCanonical(sealed.manifest) as { runId: string } | undefined;
  if (value === undefined) throw new RangeError('not a sealed record');
  if (sealed.additions.length >= MAX_ADDITIONS) throw new RangeError('no more additions to this record');
  const manifestSha256 = toHex(await crypto.sha256(sealed.manifest));
  const last = sealed.additions.at(-1);
  const statement: Addition = {
    schema: ADDITION_SCHEMA,
    runId: value.runId,
    number: sealed.additions.length + 1,
    manifestSha256,
    previousSha256: last === undefined ? manifestSha256 : toHex(await crypto.sha256(last.statement)),
    utcMs: addition.utcMs,
    kind: addition.kind,
    body: toJson(addition.body ?? null),
    signer: { algorithm: ALGORITHM, publicKey: toHex(signer.publicKey), fingerprint: signer.fingerprint },
  };
  const bytes = canonicalBytes(statement);
  if (bytes.length > MAX_ADDITION_BYTES) throw new RangeError('the addition is too long');
  const signed: SealedAddition = { statement: bytes, signature: await signer.sign(bytes) };
  return { ...sealed, additions: [...sealed.additions, signed] };
}

export type AdditionFault =
  | 'form'
  | 'version'
  | 'signature'
  | 'fingerprint' // the fingerprint named is not the key's
  | 'order' // its number, or the statement it follows, is another
  | 'record' // it belongs to another record
  | 'too-many'; // more than a record takes: none of those is read

export type AdditionReading =
  | { readonly ok: true; readonly addition: Addition }
  | { readonly ok: false; readonly fault: AdditionFault };

/**
 * Checks one addition against the manifest and the statement before it.
 * @param runId the manifest's
 */
export async function checkAddition(
  sealed: Sealed,
  runId: string,
  index: number,
  crypto: RecordCrypto,
): Promise<AdditionReading> {
  const fault = (f: AdditionFault): AdditionReading => ({ ok: false, fault: f });
  const signed = sealed.additions[index]!;
  if (signed.statement.length > MAX_ADDITION_BYTES) return fault('form');
  const value = parseCanonical(signed.statement);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return fault('form');
  const a = value as unknown as Addition;
  if (a.schema !== ADDITION_SCHEMA)
    return fault(/^steadybar-addition\/\d+$/.test(String(a.schema)) ? 'version' : 'form');
  const kinds: readonly string[] = ['correction', 'note', 'status'];
  if (!kinds.includes(a.kind) || !isUtcMs(a.utcMs) || typeof a.signer !== 'object') return fault('form');
  if (a.signer === null || a.signer.algorithm !== ALGORITHM) return fault('form');
  const key = typeof a.signer.publicKey === 'string' ? fromHex(a.signer.publicKey) : null;
  if (key?.length !== 32) return fault('form');
  if (a.signer.fingerprint !== (await fingerprintOf(crypto, key))) return fault('fingerprint');
  if (!(await crypto.verify(key, signed.statement, signed.signature))) return fault('signature');
  const manifestSha256 = toHex(await crypto.sha256(sealed.manifest));
  if (a.manifestSha256 !== manifestSha256 || a.runId !== runId) return fault('record');
  const before = index === 0 ? sealed.manifest : sealed.additions[index - 1]!.statement;
  if (a.number !== index + 1 || a.previousSha256 !== toHex(await crypto.sha256(before)))
    return fault('order');
  return { ok: true, addition: a };
}

/** A sealed record as a store gave it back; null when it is not one. Signatures are for the verifier. */
export function sealedOf(body: unknown): Sealed | null {
  if (typeof body !== 'object' || body === null) return null;
  const { manifest, signature, additions, proof } = body as Partial<Record<keyof Sealed, unknown>>;
  if (!(manifest instanceof Uint8Array) || !(signature instanceof Uint8Array) || !Array.isArray(additions))
    return null;
  const whole = additions.every(
    (a: Partial<SealedAddition> | null) =>
      a?.statement instanceof Uint8Array && a.signature instanceof Uint8Array,
  );
  const noted =
    Array.isArray(proof) &&
    proof.every(
      (p: Partial<ProofMember> | null) => typeof p?.name === 'string' && p.bytes instanceof Uint8Array,
    );
  return whole && noted
    ? { manifest, signature, additions: additions as SealedAddition[], proof: proof as ProofMember[] }
    : null;
}
