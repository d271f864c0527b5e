/**
 * Reads the headers of a file that claims to be a zip of our one form (zip-form.ts). Every header is built again from
 * what was found and compared byte by byte, so that no byte of the file goes unseen but the members' content, which
 * is for the caller to hold against its CRC.
 */
import { type ByteSource, partOf } from './byte-source.ts';
import { firstDifference } from './difference.ts';
import {
  centralHeader,
  END_BYTES,
  endRecord,
  isMemberName,
  LOCAL,
  LOCAL_BYTES,
  localHeader,
  MAX_BYTES,
  MAX_MEMBERS,
  MAX_NAME,
  type ZipProblem,
} from './zip-form.ts';

export interface ZipEntry {
  readonly name: string;
  /** Offset of its local header, and of its content. */
  readonly offset: number;
  readonly start: number;
  readonly size: number;
  readonly crc: number;
}

export interface ZipReading {
  /** Those before the first problem. */
  readonly entries: readonly ZipEntry[];
  /** The first problem of the container; null: it is as this form has it. */
  readonly problem: ZipProblem | null;
}

export const contentOf = (file: ByteSource, { start, size }: ZipEntry): ByteSource =>
  partOf(file, start, size);

const ascii = new TextEncoder();
const latin = new TextDecoder('latin1');

/** Where b differs first from what lies at `at` in a. */
const differsAt = (a: Uint8Array, at: number, b: Uint8Array): number | null =>
  firstDifference(a.subarray(at, at + b.length), b);

/**
 * Never throws but what the source does, and takes no memory for sizes that the file claims.
 * @param most members; more are refused before anything is kept of them
 */
export async function readZip(file: ByteSource, most: number = MAX_MEMBERS): Promise<ZipReading> {
  const entries: ZipEntry[] = [];
  const stop = (fault: ZipProblem['fault'], offset: number, name: string | null = null): ZipReading => ({
    entries,
    problem: { fault, offset, name },
  });
  const names = new Set<string>();
  const folders = new Set<string>();
  let at = 0;
  for (;;) {
    const head = await file.read(at, LOCAL_BYTES + MAX_NAME);
    const v = new DataView(head.buffer, head.byteOffset, head.byteLength);
    if (head.length < 4 || v.getUint32(0, true) !== LOCAL) {
      if (at === 0) return stop('not-a-zip', 0);
      break;
    }
    if (entries.length === most) return stop('too-many', at);
    if (head.length < LOCAL_BYTES) return stop('truncated', at);
    const nameLength = v.getUint16(26, true);
    if (nameLength > MAX_NAME) return stop('name', at);
    if (head.length < LOCAL_BYTES + nameLength) return stop('truncated', at);
    const nameBytes = head.subarray(LOCAL_BYTES, LOCAL_BYTES + nameLength);
    const name = latin.decode(nameBytes);
    const crc = v.getUint32(14, true);
    const size = v.getUint32(18, true);
    if (!isMemberName(name)) return stop('name', at);
    if ((v.getUint16(6, true) & 1) !== 0) return stop('encrypted', at, name);
    if (v.getUint16(8, true) !== 0) return stop('compressed', at, name);
    if (size === MAX_BYTES) return stop('zip64', at, name);
    const lower = name.toLowerCase();
    const folder = lower.slice(0, Math.max(0, lower.indexOf('/')));
    if (names.has(lower) || names.has(folder) || folders.has(lower)) return stop('twice', at, name);
    const difference = differsAt(head, 0, localHeader(nameBytes, crc, size));
    if (difference !== null) return stop('header', at + difference, name);
    const start = at + LOCAL_BYTES + nameLength;
    if (start + size > file.size) return stop('truncated', start, name);
    names.add(lower);
    if (folder !== '') folders.add(folder);
    entries.push({ name, offset: at, start, size, crc });
    at = start + size;
  }
  return directory(file, entries, at, stop);
}

/** The directory and the end record follow from the members alone. */
async function directory(
  file: ByteSource,
  entries: readonly ZipEntry[],
  at: number,
  stop: (fault: ZipProblem['fault'], offset: number, name?: string | null) => ZipReading,
): Promise<ZipReading> {
  const wanted = entries.map((e) => ({
    name: e.name as string | null,
    bytes: centralHeader(ascii.encode(e.name), e.crc, e.size, e.offset),
  }));
  const length = wanted.reduce((s, { bytes }) => s + bytes.length, 0);
  wanted.push({ name: null, bytes: endRecord(entries.length, length, at) });
  const found = await file.read(at, length + END_BYTES);
  let from = 0;
  for (const { name, bytes } of wanted) {
    const difference = differsAt(found, from, bytes);
    if (difference !== null)
      return stop(from + difference >= found.length ? 'truncated' : 'header', at + from + difference, name);
    from += bytes.length;
  }
  return at + from === file.size ? { entries, problem: null } : stop('behind', at + from);
}
