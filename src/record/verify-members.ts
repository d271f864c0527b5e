/** The members of a job's file as they go by once: each held against its CRC, hashed, and the pages read. */
import { type ByteSource, chunksOf } from './byte-source.ts';
import { toHex } from './hex.ts';
import { type ReadContent, readContent } from './manifest.ts';
import { FILE } from './members.ts';
import type { RunVisitor } from './reader.ts';
import type { RecordCrypto } from './signing.ts';
import { contentOf, type ZipEntry } from './zip-reader.ts';

export interface Member extends ZipEntry {
  readonly content: ByteSource;
  /** Its bytes have the CRC that its header names. */
  readonly sound: boolean;
  /** SHA-256, hex. */
  readonly sha256: string;
}

export interface ReadMembers {
  readonly files: ReadonlyMap<string, Member>;
  /** What the pages say; null where no first page stands, or there are no pages. */
  readonly read: ReadContent | null;
}

/** Holds a chunk of the file at a time. @param also is handed every page */
export async function readMembers(
  file: ByteSource,
  entries: readonly ZipEntry[],
  { hashing, crc32 }: Pick<RecordCrypto, 'hashing' | 'crc32'>,
  also: Pick<RunVisitor, 'page'>,
): Promise<ReadMembers> {
  const files = new Map<string, Member>();
  let read: ReadContent | null = null;
  for (const entry of entries) {
    const content = contentOf(file, entry);
    const hash = hashing.hasher();
    let crc = 0;
    const see = (chunk: Uint8Array): void => {
      crc = crc32(chunk, crc);
      hash.update(chunk);
    };
    if (entry.name === FILE.pages) read = await readContent(content, hashing, also, see);
    else for await (const chunk of chunksOf(content)) see(chunk);
    files.set(entry.name, { ...entry, content, sound: crc === entry.crc, sha256: toHex(hash.digest()) });
  }
  return { files, read };
}
