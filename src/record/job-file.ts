/**
 * One file a job: a zip of one form that holds the sealed record and what follows from it. Built after the
 * sealing and any number of times; everything in it but the signatures is made again by whoever verifies it.
 */
import { enclosedFiles } from '../job/enclosed.ts';
import type { ByteSource } from './byte-source.ts';
import type { CheckWordsOf } from './check-text.ts';
import { deriveCheck, deriveFiles, Inventory, type Played, type Progress } from './derived-files.ts';
import type { Hasher } from './hashing.ts';
import { fromHex, toHex } from './hex.ts';
import { type Manifest, parseManifest } from './manifest.ts';
import { additionName, CORE_FILES, FILE, isExtraName } from './members.ts';
import { readRun } from './reader.ts';
import type { Addition, Sealed } from './seal.ts';
import { pemOf, type RecordCrypto, type Signer } from './signing.ts';
import type { SenseRun } from './trace-rows.ts';
import { checkSealedProof, type Witnessed } from './witness/check-proof.ts';
import { zipWriter } from './zip-writer.ts';

const utf8 = new TextEncoder();

export type PhotosByHash = ReadonlyMap<string, Uint8Array>;

/** A file made from the record by another room, such as the certificate. */
export interface ExtraFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface RecordView {
  readonly manifest: Manifest;
  readonly manifestSha256: string;
  /** What the witness log says of it, where it holds. */
  readonly witnessed: Witnessed | null;
  /** Its small photographs that are there and as they were sealed, by the hash of their bytes. */
  readonly photos: PhotosByHash;
  /** What the crew said, and the practice rig where it was one. */
  readonly played: readonly Played[];
}

/** Makes the extra files; the same record must give the same bytes. */
export type ExtraFiles = (record: RecordView) => Promise<readonly ExtraFile[]>;

export interface JobFileInput {
  /** The run's file. */
  readonly pages: ByteSource;
  readonly sealed: Sealed;
  readonly sense: SenseRun;
  readonly words: CheckWordsOf;
  readonly extras?: ExtraFiles;
  /** A photograph's bytes by their hash; null: it is gone, and the file is built without it. Left out: there are none. */
  readonly photo?: (sha256: string) => Promise<Uint8Array | null>;
  /**
   * The key that sealed the record, to sign the sums of all files too. When it is gone meanwhile (null, or
   * another key) the file is built without sums.
   */
  readonly signer: Signer | null;
}

/** Where a piece of the file rests until the file is put together: a Blob, a stretch of a file, memory. */
export type Keep<P> = (piece: Uint8Array) => P;

/** A member as it is made. */
class Member<P> {
  readonly pieces: P[] = [];
  crc = 0;
  size = 0;
  private readonly hash: Hasher;

  constructor(
    private readonly keep: Keep<P>,
    private readonly crypto: RecordCrypto,
  ) {
    this.hash = crypto.hashing.hasher();
  }

  take(piece: Uint8Array): this {
    this.crc = this.crypto.crc32(piece, this.crc);
    this.size += piece.length;
    this.hash.update(piece);
    this.pieces.push(this.keep(piece));
    return this;
  }

  sha256(): string {
    return toHex(this.hash.digest());
  }
}

/** Members by name, in the order in which they were asked for. */
class Members<P> {
  private readonly all = new Map<string, Member<P>>();

  constructor(
    private readonly keep: Keep<P>,
    private readonly crypto: RecordCrypto,
  ) {}

  of(name: string): Member<P> {
    const found = this.all.get(name);
    if (found !== undefined) return found;
    const made = new Member(this.keep, this.crypto);
    this.all.set(name, made);
    return made;
  }

  /** One line a member, as sha256sum writes and reads them. */
  sums(): Uint8Array {
    return utf8.encode([...this.all].map(([name, member]) => `${member.sha256()}  ${name}\n`).join(''));
  }

  /** The whole file. @throws RangeError on a name or size that the zip can't have */
  file(): P[] {
    const zip = zipWriter();
    const out: P[] = [];
    for (const [name, { crc, size, pieces }] of this.all)
      out.push(this.keep(zip.add(name, crc, size)), ...pieces);
    return [...out, ...zip.finish().map(this.keep)];
  }
}

function addAdditions<P>(members: Members<P>, sealed: Sealed): void {
  sealed.additions.forEach(({ statement, signature }, i) => {
    const { signer } = JSON.parse(new TextDecoder().decode(statement)) as Addition;
    members.of(additionName(i + 1, 'json')).take(statement);
    members.of(additionName(i + 1, 'sig')).take(signature);
    members.of(additionName(i + 1, 'pem')).take(utf8.encode(pemOf(fromHex(signer.publicKey)!)));
  });
}

/**
 * The job's file, in pieces to be put together in order.
 * @param keep may not hold on to the piece that it is given: its memory is used again
 * @throws RangeError when the sealed record is not one, or an extra file has a name that it can't have
 */
export async function buildJobFile<P>(
  input: JobFileInput,
  crypto: RecordCrypto,
  keep: Keep<P>,
  progress: Progress = () => undefined,
): Promise<P[]> {
  const { pages, sealed, signer } = input;
  const read = parseManifest(sealed.manifest);
  if (!read.ok) throw new RangeError('not a sealed record');
  const { manifest } = read;
  const members = new Members(keep, crypto);
  for (const name of CORE_FILES) members.of(name);
  members.of(FILE.check).take(await deriveCheck(manifest, input.words));
  members.of(FILE.manifest).take(sealed.manifest);
  members.of(FILE.signature).take(sealed.signature);
  members.of(FILE.signer).take(utf8.encode(pemOf(fromHex(manifest.signer.publicKey)!)));
  const inventory = new Inventory();
  const scan = await readRun(
    pages,
    inventory,
    { chain: false },
    (chunk) => void members.of(FILE.pages).take(chunk),
  );
  inventory.sound = scan.damage.length === 0;
  const take = (file: string, piece: Uint8Array): void => void members.of(file).take(piece);
  await deriveFiles(pages, inventory, manifest, input.sense, take, progress);
  const manifestSha256 = toHex(await crypto.sha256(sealed.manifest));
  const proof = sealed.proof.length === 0 ? null : await checkSealedProof(crypto, sealed, manifest);
  const witnessed = proof?.faults.length === 0 ? proof.witnessed : null;
  const photos = new Map<string, Uint8Array>();
  const small = new Set(manifest.enclosed?.photos.map((p) => p.small.sha256));
  for (const { sha256 } of enclosedFiles(manifest.enclosed ?? null).filter((f) => small.has(f.sha256))) {
    const bytes = (await input.photo?.(sha256)) ?? null;
    if (bytes !== null) photos.set(sha256, bytes);
  }
  const made =
    (await input.extras?.({ manifest, manifestSha256, witnessed, photos, played: inventory.played })) ?? [];
  const extras = [
    ...made.map(({ name, bytes }) => ({ name, bytes: async () => bytes })),
    // One in memory at a time: an original may be large.
    ...enclosedFiles(manifest.enclosed ?? null).map(({ name, sha256 }) => ({
      name,
      bytes: async () => (await input.photo?.(sha256)) ?? null,
    })),
  ];
  for (const { name, bytes } of extras.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (!isExtraName(name)) throw new RangeError(`an extra file can't be called ${name}`);
    const there = await bytes();
    if (there !== null) members.of(name).take(there);
  }
  for (const { name, bytes } of sealed.proof) members.of(name).take(bytes);
  if (signer !== null && signer.fingerprint === manifest.signer.fingerprint) {
    const sums = members.sums();
    const signature = await signer.sign(sums);
    members.of(FILE.sums).take(sums);
    members.of(FILE.sumsSignature).take(signature);
  }
  addAdditions(members, sealed);
  return members.file();
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
  const practice = manifest.practice ? 'practice_' : '';
  return `${practice}${day}${clean === '' ? 'job' : clean}_${run}.steadybar.zip`;
}
