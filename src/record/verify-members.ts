/** The members of a job's file as they go by once: each held against its CRC, hashed, and the pages read. */
import { type ByteSource, chunksOf, readAll } from './byte-source.ts';
import { toHex } from './hex.ts';
import {
  MAX_MANIFEST_BYTES,
  type Manifest,
  parseManifest,
  type ReadContent,
  readContent,
} from './manifest.ts';
import { FILE } from './members.ts';
import type { RunVisitor } from './reader.ts';
import { apartFromHeads, type NamedPages } from './signed-heads.ts';
import type { RecordCrypto } from './signing.ts';
import { contentOf, type ZipEntry } from './zip-reader.ts';

export interface Member extends ZipEntry {
  readonly content: ByteSource;
  /** Its bytes have the CRC that its header names. */
  readonly sound: boolean;
  /** SHA-256, hex. */
  readonly sha256: string;
}

/** What a member's bytes are told by. */
export interface Digest {
  /** Hex. */
  readonly sha256: string;
  readonly crc: number;
}

/** Has a stretch of the file hashed elsewhere; null: nobody did. Never rejects. */
export type Digests = (stretch: Pick<ZipEntry, 'start' | 'size'>) => Promise<Digest | null>;

/** Shorter ones are hashed while they go by, bytes. */
const LEAST_ELSEWHERE = 4 << 20;

export interface ReadMembers {
  readonly files: ReadonlyMap<string, Member>;
  /** What the pages say; null where no first page stands, or there are no pages. */
  readonly read: ReadContent | null;
  /** Of signed pages, of which the heads alone were read: members of the manifest that they contradict. */
  readonly apart: readonly string[];
}

/** More pages than these are not held in memory at once: a day's at 50 Hz are twice as many as most jobs'. */
const MOST_AT_ONCE = 192 << 20;

/** The pages of a file, hashed by the platform in one piece and found to be those that its manifest names. */
export interface SignedPages {
  readonly bytes: Uint8Array;
  readonly sha256: string;
  readonly manifest: Manifest;
}

/**
 * The quick way to trust pages: a manifest whose signature is still to be checked names the hash of all their bytes, and
 * the platform hashes a hundred megabytes while script hashes ten. null: they are not these, too many, or were damaged
 * when they were sealed; then they are gone through page by page.
 */
export async function signedPages(
  file: ByteSource,
  entries: readonly ZipEntry[],
  crypto: Pick<RecordCrypto, 'sha256'>,
): Promise<SignedPages | null> {
  const manifestEntry = entries.find((e) => e.name === FILE.manifest);
  const pagesEntry = entries.find((e) => e.name === FILE.pages);
  if (manifestEntry === undefined || pagesEntry === undefined) return null;
  if (manifestEntry.size > MAX_MANIFEST_BYTES || pagesEntry.size > MOST_AT_ONCE) return null;
  const read = parseManifest(await readAll(contentOf(file, manifestEntry)));
  if (!read.ok || read.manifest.pages.damage.length > 0) return null;
  const bytes = await readAll(contentOf(file, pagesEntry));
  const sha256 = toHex(await crypto.sha256(bytes));
  return sha256 === read.manifest.pagesSha256 ? { bytes, sha256, manifest: read.manifest } : null;
}

/**
 * Holds a chunk of the file at a time.
 * @param also is handed every page
 * @param signed pages of which the heads alone are read, and which of them the witness log names
 * @param told what the pages say, before the members behind them are read
 */
export async function readMembers(
  file: ByteSource,
  entries: readonly ZipEntry[],
  crypto: Pick<RecordCrypto, 'hashing' | 'crc32'>,
  also: Pick<RunVisitor, 'page'>,
  signed: { readonly pages: SignedPages; readonly named: NamedPages } | null = null,
  told: (read: ReadContent) => void = () => undefined,
  digests?: Digests,
): Promise<ReadMembers> {
  const { hashing } = crypto;
  const long = entries.filter(
    (e) => e.size >= LEAST_ELSEWHERE && !(e.name === FILE.pages && signed !== null),
  );
  const elsewhere = new Map(digests === undefined ? [] : long.map((entry) => [entry, digests(entry)]));
  const files = new Map<string, Member>();
  let read: ReadContent | null = null;
  let apart: readonly string[] = [];
  for (const entry of entries) {
    const content = contentOf(file, entry);
    if (entry.name === FILE.pages && signed !== null) {
      const { bytes, sha256, manifest } = signed.pages;
      apart = apartFromHeads(bytes, manifest, hashing, signed.named);
      // Its CRC is of the container's, which says less than the hash.
      files.set(entry.name, { ...entry, content, sound: true, sha256 });
      continue;
    }
    const there = elsewhere.get(entry);
    const here = new Digester(crypto);
    if (entry.name === FILE.pages) {
      read = await readContent(
        content,
        hashing,
        also,
        there === undefined ? (chunk) => here.see(chunk) : undefined,
      );
      if (read !== null) told(read);
    }
    const seen = entry.name === FILE.pages && there === undefined;
    const { crc, sha256 } = (await there) ?? (seen ? here.digest() : await digestOf(content, crypto));
    files.set(entry.name, { ...entry, content, sound: crc === entry.crc, sha256 });
  }
  return { files, read, apart };
}

/** CRC and SHA-256 of what goes by. */
class Digester {
  private readonly hash;
  private crc = 0;

  constructor(private readonly crypto: Pick<RecordCrypto, 'hashing' | 'crc32'>) {
    this.hash = crypto.hashing.hasher();
  }

  see(chunk: Uint8Array): void {
    this.crc = this.crypto.crc32(chunk, this.crc);
    this.hash.update(chunk);
  }

  /** Ends it. */
  digest(): Digest {
    return { sha256: toHex(this.hash.digest()), crc: this.crc };
  }
}

/** Of a source from end to end. @param tell is told the share done */
export async function digestOf(
  source: ByteSource,
  crypto: Pick<RecordCrypto, 'hashing' | 'crc32'>,
  tell?: (share: number) => Promise<void>,
): Promise<Digest> {
  const digester = new Digester(crypto);
  let bytes = 0;
  for await (const chunk of chunksOf(source)) {
    digester.see(chunk);
    bytes += chunk.length;
    await tell?.(bytes / source.size);
  }
  return digester.digest();
}
