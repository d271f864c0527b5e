/** Zips of our one form in one piece, made and taken apart, for tests. */
import { bytesSource, readAll } from '../byte-source.ts';
import { joinBytes } from '../bytes.ts';
import { crc32 } from '../crc.ts';
import type { ZipFault } from '../zip-form.ts';
import { contentOf, readZip } from '../zip-reader.ts';
import { zipWriter } from '../zip-writer.ts';

export interface ZipMember {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export function zipBytes(members: readonly ZipMember[]): Uint8Array {
  const zip = zipWriter();
  const out = members.flatMap(({ name, bytes }) => [zip.add(name, crc32(bytes), bytes.length), bytes]);
  return joinBytes([...out, ...zip.finish()]);
}

export interface Unzipped {
  readonly members: readonly ZipMember[];
  /** What is wrong with the container, or 'crc' for content that is not what its header says. */
  readonly fault: ZipFault | 'crc' | null;
}

export async function unzip(file: Uint8Array): Promise<Unzipped> {
  const source = bytesSource(file);
  const { entries, problem } = await readZip(source);
  const members: ZipMember[] = [];
  let unsound = false;
  for (const entry of entries) {
    const bytes = await readAll(contentOf(source, entry));
    if (crc32(bytes) !== entry.crc) unsound = true;
    members.push({ name: entry.name, bytes });
  }
  return { members, fault: problem?.fault ?? (unsound ? 'crc' : null) };
}
