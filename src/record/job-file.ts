/**
 * One file a job: a zip of one form that holds the sealed record and what follows from it. Built after the
 * sealing and any number of times; everything in it but the signatures is made again by whoever verifies it.
 */
import { canonicalText } from './canonical.ts';
import { type CheckWordsOf, checkText } from './check-text.ts';
import { fromHex, toHex } from './hex.ts';
import { type Manifest, parseManifest } from './manifest.ts';
import type { Addition, Sealed } from './seal.ts';
import { pemOf, type RecordCrypto, type Signer } from './signing.ts';
import { logFiles, traceFiles } from './trace-files.ts';
import type { SenseRun } from './trace-rows.ts';
import { isMemberName, type ZipMember, zipChunks } from './zip.ts';

export const FILE = {
  check: 'CHECK.txt',
  manifest: 'manifest.json',
  signature: 'manifest.sig',
  signer: 'signer.pem',
  pages: 'pages.bin',
  events: 'events.jsonl',
  log: 'log.jsonl',
  csv: 'trace.csv',
  parquet: 'trace.parquet',
  sums: 'SHA256SUMS',
  sumsSignature: 'SHA256SUMS.sig',
} as const;

/** The members before the extra ones, in the order of the file. */
export const CORE_FILES: readonly string[] = [
  FILE.check,
  FILE.manifest,
  FILE.signature,
  FILE.signer,
  FILE.pages,
  FILE.events,
  FILE.log,
  FILE.csv,
  FILE.parquet,
];

export const additionName = (number: number, ending: 'json' | 'sig' | 'pem'): string =>
  `additions/${String(number).padStart(4, '0')}.${ending}`;

/** A file made from the record by another room, such as the certificate. */
export interface ExtraFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface RecordView {
  readonly manifest: Manifest;
  readonly manifestSha256: string;
  readonly pages: Uint8Array;
}

/** Makes the extra files; the same record must give the same bytes. */
export type ExtraFiles = (record: RecordView) => Promise<readonly ExtraFile[]>;

/** A name that an extra file may have: no folder, and none of the names that have a meaning here. */
export const isExtraName = (name: string): boolean => {
  const taken = [...CORE_FILES, FILE.sums, FILE.sumsSignature, 'additions'].map((n) => n.toLowerCase());
  return isMemberName(name) && !name.includes('/') && !taken.includes(name.toLowerCase());
};

export interface JobFileInput {
  readonly pages: Uint8Array;
  readonly sealed: Sealed;
  readonly sense: SenseRun;
  readonly words: CheckWordsOf;
  readonly extras?: ExtraFiles;
  /**
   * The key that sealed the record, to sign the sums of all files too. When it is gone meanwhile (null, or
   * another key) the file is built without sums.
   */
  readonly signer: Signer | null;
}

/** Told the share done, 0…1. May wait, so that others get their turn, and may throw to give up. */
export type Progress = (share: number) => void | Promise<void>;

export const parquetFacts = (manifest: Manifest): Record<string, string> => ({
  'steadybar.schema': manifest.schema,
  'steadybar.run': manifest.runId,
  'steadybar.job': manifest.jobId ?? '',
  'steadybar.chain': manifest.pages.chainHead,
  'steadybar.papers': canonicalText(manifest.job),
});

/**
 * The derived files of data, handed out in pieces: each file's in order, files mixed.
 * @param take a piece is its taker's own
 */
export async function deriveFiles(
  pages: Uint8Array,
  manifest: Manifest,
  sense: SenseRun,
  progress: Progress,
  take: (file: string, piece: Uint8Array) => void,
): Promise<void> {
  const { log, events } = logFiles(pages);
  take(FILE.events, events);
  take(FILE.log, log);
  const sink = {
    csv: (piece: Uint8Array): void => take(FILE.csv, piece),
    parquet: (piece: Uint8Array): void => take(FILE.parquet, piece),
  };
  for (const share of traceFiles(pages, sense, parquetFacts(manifest), sink)) await progress(share);
}

/** CHECK.txt. @throws what `words` rejects with */
export async function deriveCheck(manifest: Manifest, words: CheckWordsOf): Promise<Uint8Array> {
  return new TextEncoder().encode(checkText(manifest, await words(manifest.wording)));
}

function sha256Of(chunks: readonly Uint8Array[], crypto: RecordCrypto): Uint8Array {
  const hash = crypto.hashing.hasher();
  for (const chunk of chunks) hash.update(chunk);
  return hash.digest();
}

/** One line a member, as sha256sum writes and reads them. */
function sumsOf(members: readonly ZipMember[], crypto: RecordCrypto): Uint8Array {
  const lines: string[] = [];
  for (const { name, chunks } of members) lines.push(`${toHex(sha256Of(chunks, crypto))}  ${name}\n`);
  return new TextEncoder().encode(lines.join(''));
}

function additionMembers(sealed: Sealed): ZipMember[] {
  return sealed.additions.flatMap(({ statement, signature }, i) => {
    const { signer } = JSON.parse(new TextDecoder().decode(statement)) as Addition;
    const pem = new TextEncoder().encode(pemOf(fromHex(signer.publicKey)!));
    return [
      { name: additionName(i + 1, 'json'), chunks: [statement] },
      { name: additionName(i + 1, 'sig'), chunks: [signature] },
      { name: additionName(i + 1, 'pem'), chunks: [pem] },
    ];
  });
}

/**
 * The job's file, in pieces to be written one after the other.
 * @throws RangeError when the sealed record is not one, or an extra file has a name that it can't have
 */
export async function buildJobFile(
  input: JobFileInput,
  crypto: RecordCrypto,
  progress: Progress = () => undefined,
): Promise<Uint8Array[]> {
  const { pages, sealed, signer } = input;
  const read = parseManifest(sealed.manifest);
  if (!read.ok) throw new RangeError('not a sealed record');
  const { manifest } = read;
  const derived = new Map<string, Uint8Array[]>([[FILE.check, [await deriveCheck(manifest, input.words)]]]);
  await deriveFiles(pages, manifest, input.sense, progress, (file, piece) => {
    const pieces = derived.get(file);
    if (pieces === undefined) derived.set(file, [piece]);
    else pieces.push(piece);
  });
  const given = new Map<string, readonly Uint8Array[]>([
    [FILE.manifest, [sealed.manifest]],
    [FILE.signature, [sealed.signature]],
    [FILE.signer, [new TextEncoder().encode(pemOf(fromHex(manifest.signer.publicKey)!))]],
    [FILE.pages, [pages]],
  ]);
  const members: ZipMember[] = CORE_FILES.map((name) => ({
    name,
    chunks: (given.get(name) ?? derived.get(name))!,
  }));
  const manifestSha256 = toHex(await crypto.sha256(sealed.manifest));
  const extras = (await input.extras?.({ manifest, manifestSha256, pages })) ?? [];
  for (const { name, bytes } of [...extras].sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (!isExtraName(name)) throw new RangeError(`an extra file can't be called ${name}`);
    members.push({ name, chunks: [bytes] });
  }
  if (signer !== null && signer.fingerprint === manifest.signer.fingerprint) {
    const sums = sumsOf(members, crypto);
    members.push({ name: FILE.sums, chunks: [sums] });
    members.push({ name: FILE.sumsSignature, chunks: [await signer.sign(sums)] });
  }
  members.push(...additionMembers(sealed));
  return zipChunks(members);
}

/** The file's name: letters that every system takes, so that nothing in a job's name can be a path. */
export function jobFileName(manifest: Manifest, title: string): string {
  const clean = title
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40);
  const day =
    manifest.openedUtcMs === null ? '' : `${new Date(manifest.openedUtcMs).toISOString().slice(0, 10)}_`;
  const run = manifest.runId.replace(/[^A-Za-z0-9]+/g, '').slice(0, 8);
  return `${day}${clean === '' ? 'job' : clean}_${run}.steadybar.zip`;
}
