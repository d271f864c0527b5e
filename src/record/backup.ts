/**
 * The backup: one zip of our own form (zip.ts) with the runs' files, kept job files, all documents, their SHA-256
 * sums and a canonical manifest. Everything but the signing key, which can't be taken out. docs/backup.md holds the
 * same in prose.
 */
import { toBase64 } from './base64.ts';
import { canonicalBytes, canonicalText, type Json, parseCanonical } from './canonical.ts';

export const BACKUP_SCHEMA = 'steadybar-backup/1';
export const BACKUP_FILE = {
  readme: 'README.txt',
  documents: 'documents.jsonl',
  sums: 'SHA256SUMS',
  manifest: 'backup.json',
} as const;
export const FOLDER = 'files/';
/** A tablet's runs of many years; the zip's own bound of 4 GiB comes first. */
export const MOST_BACKUP_MEMBERS = 20_000;
/** Longest list of documents, manifest and list of sums that is looked at, bytes. */
export const MOST_LIST_BYTES = 256 << 20;
export const MOST_DOCUMENTS = 200_000;
/** Longest single file in a backup, bytes. */
export const MOST_FILE_BYTES = 1 << 30;

export interface BackupManifest {
  readonly schema: typeof BACKUP_SCHEMA;
  readonly madeUtcMs: number;
  readonly software: string;
  readonly documents: number;
  readonly files: number;
  /** SHA-256 of SHA256SUMS, hex. */
  readonly sumsSha256: string;
  /** Runs that had no end when the backup was made, and are not in it. */
  readonly leftOut: readonly string[];
  /** Fingerprint of the key that signed on that tablet; the key itself is not in the backup. */
  readonly key: string | null;
}

/** A document in a backup. */
export interface BackupDocument {
  readonly kind: BackupKind;
  readonly id: string;
  readonly savedUtcMs: number;
  readonly body: unknown;
}

export const README = `Backup of Steadybar.

${BACKUP_FILE.documents}  every document, a line of JSON each: jobs, packers, resins, sensors, maps, checklists, bench records, settings, seals, reviews, what photos are of
${FOLDER}<run>.run     the pages of a run; files/import-<sha256>.zip a job's file kept from elsewhere; files/photo-<sha256> a photo
${BACKUP_FILE.sums}       check with: sha256sum -c ${BACKUP_FILE.sums}
${BACKUP_FILE.manifest}      when and by which version it was made

The signing key is not in here: it can't be taken out of a tablet. Restore under Settings, Backup.
`;

const KINDS = [
  'job',
  'packer',
  'resin',
  'sensor',
  'registers',
  'columns',
  'checklist',
  'bench',
  'settings',
  'run',
  'seal',
  'review',
  'enclosed',
  'key',
] as const;
export type BackupKind = (typeof KINDS)[number];
/** Public facts among the documents of kind 'key'; the private key's own document is never touched. */
const KEY_DOCUMENTS: readonly string[] = ['history', 'known'];
const ID = /^[A-Za-z0-9][A-Za-z0-9._-]{0,119}$/;

/** Whether a document belongs in a backup; on the way in, whether it may come out of one. */
export const isBackedUp = (kind: string, id: string): kind is BackupKind =>
  // Labels of the archive's list are made anew from the files.
  !id.startsWith('label-') &&
  (KINDS as readonly string[]).includes(kind) &&
  ID.test(id) &&
  (kind !== 'key' || KEY_DOCUMENTS.includes(id));
export const BACKED_UP_KINDS: readonly BackupKind[] = KINDS;

const BYTES = '$bytes';

/** Documents hold bytes (seals); in JSON they stand as {"$bytes": base64}. */
export function packBody(value: unknown): Json {
  if (value instanceof Uint8Array) return { [BYTES]: toBase64(value) };
  if (Array.isArray(value)) return value.map((v) => packBody(v ?? null));
  if (typeof value === 'object' && value !== null) {
    const out: Record<string, Json> = {};
    for (const [key, v] of Object.entries(value))
      if (v !== undefined) out[key.startsWith('$') ? `$${key}` : key] = packBody(v);
    return out;
  }
  return value as Json;
}

/** @throws RangeError where bytes are not base64 */
export function unpackBody(value: Json): unknown {
  if (Array.isArray(value)) return value.map((v: Json) => unpackBody(v));
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value);
  const [only] = entries;
  if (entries.length === 1 && only?.[0] === BYTES) {
    if (typeof only[1] !== 'string' || !/^[A-Za-z0-9+/]*={0,2}$/.test(only[1]) || only[1].length % 4 !== 0)
      throw new RangeError('not base64');
    return Uint8Array.from(atob(only[1]), (c) => c.charCodeAt(0));
  }
  return Object.fromEntries(entries.map(([k, v]) => [k.startsWith('$$') ? k.slice(1) : k, unpackBody(v)]));
}

/** A body's one text, by which two are the same or not. */
export const bodyText = (body: unknown): string => canonicalText(packBody(body));

export function documentLine({ kind, id, savedUtcMs, body }: BackupDocument): string {
  return `${canonicalText({ kind, id, savedUtcMs, body: packBody(body) })}\n`;
}

const isObject = (v: unknown): v is Readonly<Record<string, unknown>> =>
  typeof v === 'object' && v !== null && !Array.isArray(v);

/** Reads documents.jsonl. Lines that are no documents, or not of a kind that a backup holds, are counted. */
export function readDocuments(text: string): {
  readonly documents: readonly BackupDocument[];
  readonly strange: number;
} {
  const documents: BackupDocument[] = [];
  const seen = new Set<string>();
  let strange = 0;
  for (const line of text.split('\n')) {
    if (line === '') continue;
    try {
      const value: unknown = JSON.parse(line);
      if (!isObject(value) || documents.length >= MOST_DOCUMENTS) throw new RangeError('not a document');
      const { kind, id, savedUtcMs, body } = value;
      if (typeof kind !== 'string' || typeof id !== 'string' || !isBackedUp(kind, id))
        throw new RangeError('not a document');
      if (seen.has(`${kind}/${id}`)) throw new RangeError('twice');
      seen.add(`${kind}/${id}`);
      const saved = typeof savedUtcMs === 'number' && Number.isSafeInteger(savedUtcMs) ? savedUtcMs : 0;
      documents.push({ kind, id, savedUtcMs: saved, body: unpackBody((body ?? null) as Json) });
    } catch {
      strange++;
    }
  }
  return { documents, strange };
}

export const manifestBytes = (manifest: BackupManifest): Uint8Array => canonicalBytes(manifest);

export type BackupReading =
  | { readonly ok: true; readonly manifest: BackupManifest }
  /** 'version': of a later program; 'form': not canonical JSON, or members of wrong types. */
  | { readonly ok: false; readonly what: 'form' | 'version' };

export function readManifest(bytes: Uint8Array): BackupReading {
  const value = parseCanonical(bytes);
  if (!isObject(value) || typeof value.schema !== 'string') return { ok: false, what: 'form' };
  if (value.schema !== BACKUP_SCHEMA)
    return { ok: false, what: /^steadybar-backup\/\d+$/.test(value.schema) ? 'version' : 'form' };
  const m = value as unknown as BackupManifest;
  const whole =
    [m.madeUtcMs, m.documents, m.files].every((n) => Number.isSafeInteger(n) && n >= 0) &&
    typeof m.software === 'string' &&
    typeof m.sumsSha256 === 'string' &&
    Array.isArray(m.leftOut) &&
    m.leftOut.every((r) => typeof r === 'string') &&
    (m.key === null || typeof m.key === 'string');
  return whole ? { ok: true, manifest: m } : { ok: false, what: 'form' };
}

/** The sums by member, as sha256sum writes them; null when a line is none. */
export function readSums(text: string): ReadonlyMap<string, string> | null {
  const sums = new Map<string, string>();
  for (const line of text.split('\n')) {
    if (line === '') continue;
    const m = /^([0-9a-f]{64}) {2}(\S+)$/.exec(line);
    if (m === null) return null;
    sums.set(m[2]!, m[1]!);
  }
  return sums;
}
