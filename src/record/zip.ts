/**
 * Zip in one form only: every member stored, no extra fields, no comments, one fixed date, nothing between or
 * around the members. Any unzip opens it; and since nothing is left to choice, a reader can say of every byte of
 * it what it must be. Layout: APPNOTE.TXT 6.3, without Zip64.
 */

import { crc32 } from './crc.ts';

export interface ZipMember {
  readonly name: string;
  /** Content in pieces, so that a long trace need not lie in memory twice. */
  readonly chunks: readonly Uint8Array[];
}

export interface ZipEntry {
  readonly name: string;
  /** Offset of its local header, and of its content. */
  readonly offset: number;
  readonly start: number;
  readonly bytes: Uint8Array;
  readonly crc: number;
}

export const MAX_MEMBERS = 1000;
const MAX_NAME = 120;
const U32 = 0xffff_ffff;
/** Letters of one folder deep at most: nothing that leaves the folder it is unpacked into. */
const NAME =
  /^[A-Za-z0-9][A-Za-z0-9_-]*(\.[A-Za-z0-9_-]+)*(\/[A-Za-z0-9][A-Za-z0-9_-]*(\.[A-Za-z0-9_-]+)*)?$/;

export const isMemberName = (name: string): boolean => name.length <= MAX_NAME && NAME.test(name);

const LOCAL = 0x0403_4b50;
const CENTRAL = 0x0201_4b50;
const END = 0x0605_4b50;
/** 2.0: plain files; made on Unix, so that the mode below is read as one. */
const VERSION = 20;
const MADE_BY = (3 << 8) | VERSION;
/** 1980-01-01, the first day that the format knows: a date would make two files of one record. */
const DATE = (1 << 5) | 1;
/** A plain file, rw-r--r--. */
const MODE = (0o100644 << 16) >>> 0;

const ascii = new TextEncoder();

export function localHeader(name: Uint8Array, crc: number, size: number): Uint8Array {
  const out = new Uint8Array(30 + name.length);
  const v = new DataView(out.buffer);
  v.setUint32(0, LOCAL, true);
  v.setUint16(4, VERSION, true);
  v.setUint16(12, DATE, true);
  v.setUint32(14, crc, true);
  v.setUint32(18, size, true);
  v.setUint32(22, size, true);
  v.setUint16(26, name.length, true);
  out.set(name, 30);
  return out;
}

export function centralHeader(name: Uint8Array, crc: number, size: number, offset: number): Uint8Array {
  const out = new Uint8Array(46 + name.length);
  const v = new DataView(out.buffer);
  v.setUint32(0, CENTRAL, true);
  v.setUint16(4, MADE_BY, true);
  v.setUint16(6, VERSION, true);
  v.setUint16(14, DATE, true);
  v.setUint32(16, crc, true);
  v.setUint32(20, size, true);
  v.setUint32(24, size, true);
  v.setUint16(28, name.length, true);
  v.setUint32(38, MODE, true);
  v.setUint32(42, offset, true);
  out.set(name, 46);
  return out;
}

export function endRecord(members: number, size: number, offset: number): Uint8Array {
  const out = new Uint8Array(22);
  const v = new DataView(out.buffer);
  v.setUint32(0, END, true);
  v.setUint16(8, members, true);
  v.setUint16(10, members, true);
  v.setUint32(12, size, true);
  v.setUint32(16, offset, true);
  return out;
}

export interface ZipWriter {
  /** The member's pieces, to be written behind what came before; content untouched. */
  add(name: string, chunks: readonly Uint8Array[]): Uint8Array[];
  /** The directory and the end record. */
  finish(): Uint8Array[];
}

/**
 * Writes member after member, so that a long file need not stand in memory whole.
 * @throws RangeError (by its functions) on a name or number of members, or a size, that this form does not have
 */
export function zipWriter(most: number = MAX_MEMBERS): ZipWriter {
  const central: Uint8Array[] = [];
  const seen = new Set<string>();
  let at = 0;
  const put = (out: Uint8Array[], bytes: Uint8Array): void => {
    out.push(bytes);
    at += bytes.length;
    if (at > U32) throw new RangeError('a record of more than 4 GiB');
  };
  return {
    add(name, chunks) {
      if (central.length === most) throw new RangeError(`${most} members and more are too many`);
      if (!isMemberName(name) || seen.has(name.toLowerCase()))
        throw new RangeError(`not a member name: ${name}`);
      seen.add(name.toLowerCase());
      let crc = 0;
      let size = 0;
      for (const chunk of chunks) {
        crc = crc32(chunk, crc);
        size += chunk.length;
      }
      const bytes = ascii.encode(name);
      central.push(centralHeader(bytes, crc, size, at));
      const out: Uint8Array[] = [];
      put(out, localHeader(bytes, crc, size));
      for (const chunk of chunks) put(out, chunk);
      return out;
    },
    finish() {
      const start = at;
      const out: Uint8Array[] = [];
      for (const header of central) put(out, header);
      put(out, endRecord(central.length, at - start, start));
      return out;
    },
  };
}

/**
 * The file as pieces in order, content untouched.
 * @throws RangeError on a name or number of members, or a size, that this form does not have
 */
export function zipChunks(members: readonly ZipMember[]): Uint8Array[] {
  const writer = zipWriter();
  const out = members.flatMap(({ name, chunks }) => writer.add(name, chunks));
  out.push(...writer.finish());
  return out;
}

export type ZipFault =
  | 'not-a-zip'
  | 'truncated' // the file ends before its last record
  | 'header' // a header or record is not the one form
  | 'crc' // a member's content is not what its header says
  | 'compressed' // only stored members are taken: what unpacks to more than it is can't come in
  | 'encrypted'
  | 'zip64'
  | 'name' // a path, a device name, other letters
  | 'twice' // one name two times, also when only the case differs
  | 'too-many'
  | 'behind'; // bytes behind the end

/** Faults that no accident makes of a file of our one form: it is something else, or means harm. */
const NO_ACCIDENT: Readonly<Record<ZipFault, boolean>> = {
  'not-a-zip': true,
  compressed: true,
  encrypted: true,
  zip64: true,
  name: true,
  twice: true,
  'too-many': true,
  truncated: false,
  header: false,
  crc: false,
  behind: false,
};
export const isNoAccident = (fault: ZipFault): boolean => NO_ACCIDENT[fault];

export interface ZipProblem {
  readonly fault: ZipFault;
  readonly offset: number;
  /** The member concerned, where it is known. */
  readonly name: string | null;
}

export interface ZipReading {
  readonly entries: readonly ZipEntry[];
  /** The first problem of the container, then a 'crc' for each member whose content differs; empty: canonical. */
  readonly problems: readonly ZipProblem[];
}

const latin = new TextDecoder('latin1');

export function firstDifference(a: Uint8Array, at: number, b: Uint8Array): number | null {
  for (let i = 0; i < b.length; i++) if (a[at + i] !== b[i]) return i;
  return null;
}

/**
 * Reads a file that claims to be of this form. Every header is built again from what was found and compared byte
 * by byte, so that no byte of the file goes unseen. Never throws, takes no memory for sizes that the file claims.
 */
export function readZip(file: Uint8Array): ZipReading {
  const entries: ZipEntry[] = [];
  const problems: ZipProblem[] = [];
  const stop = (fault: ZipFault, offset: number, name: string | null = null): ZipReading => {
    problems.unshift({ fault, offset, name });
    return { entries, problems };
  };
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  if (file.length < 4 || view.getUint32(0, true) !== LOCAL) return stop('not-a-zip', 0);
  const names = new Set<string>();
  let at = 0;
  while (at + 4 <= file.length && view.getUint32(at, true) === LOCAL) {
    if (entries.length === MAX_MEMBERS) return stop('too-many', at);
    if (at + 30 > file.length) return stop('truncated', at);
    const flags = view.getUint16(at + 6, true);
    const method = view.getUint16(at + 8, true);
    const crc = view.getUint32(at + 14, true);
    const size = view.getUint32(at + 18, true);
    const nameLength = view.getUint16(at + 26, true);
    if (nameLength > MAX_NAME) return stop('name', at);
    if (at + 30 + nameLength > file.length) return stop('truncated', at);
    const nameBytes = file.subarray(at + 30, at + 30 + nameLength);
    const name = latin.decode(nameBytes);
    if (!isMemberName(name)) return stop('name', at);
    if ((flags & 1) !== 0) return stop('encrypted', at, name);
    if (method !== 0) return stop('compressed', at, name);
    if (size === U32) return stop('zip64', at, name);
    if (names.has(name.toLowerCase())) return stop('twice', at, name);
    const difference = firstDifference(file, at, localHeader(nameBytes, crc, size));
    if (difference !== null) return stop('header', at + difference, name);
    const start = at + 30 + nameLength;
    if (start + size > file.length) return stop('truncated', start, name);
    names.add(name.toLowerCase());
    const bytes = file.subarray(start, start + size);
    entries.push({ name, offset: at, start, bytes, crc });
    at = start + size;
  }
  // The directory and the end record follow from the members alone.
  const directory = at;
  for (const e of entries) {
    const wanted = centralHeader(ascii.encode(e.name), e.crc, e.bytes.length, e.offset);
    const difference = firstDifference(file, at, wanted);
    if (difference !== null)
      return stop(at + difference >= file.length ? 'truncated' : 'header', at + difference, e.name);
    at += wanted.length;
  }
  const end = endRecord(entries.length, at - directory, directory);
  const difference = firstDifference(file, at, end);
  if (difference !== null)
    return stop(at + difference >= file.length ? 'truncated' : 'header', at + difference);
  if (at + end.length !== file.length) return stop('behind', at + end.length);
  for (const e of entries)
    if (crc32(e.bytes) !== e.crc) problems.push({ fault: 'crc', offset: e.start, name: e.name });
  return { entries, problems };
}
