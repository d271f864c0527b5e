/**
 * Reads the headers of a zip of our one form without its content, for files too long to stand in memory. As strict
 * as readZip: what is not the one form is refused. The members' content is for the caller to check.
 */
import {
  centralHeader,
  endRecord,
  firstDifference,
  isMemberName,
  localHeader,
  type ZipFault,
} from './zip.ts';

export interface ByteSource {
  readonly size: number;
  /** Fewer bytes at the end of the source. */
  read(at: number, length: number): Promise<Uint8Array>;
}

export interface IndexEntry {
  readonly name: string;
  /** Offset of its content. */
  readonly start: number;
  readonly size: number;
  readonly crc: number;
}

export type ZipIndex =
  | { readonly ok: true; readonly entries: readonly IndexEntry[] }
  | { readonly ok: false; readonly fault: ZipFault; readonly offset: number };

const LOCAL = 0x0403_4b50;
const FIXED = 30;
const MAX_NAME = 120;
const U32 = 0xffff_ffff;
const utf8 = new TextEncoder();
const latin = new TextDecoder('latin1');

/** @param most members; more are refused before anything is kept of them */
export async function readZipIndex(source: ByteSource, most: number): Promise<ZipIndex> {
  const stop = (fault: ZipFault, offset: number): ZipIndex => ({ ok: false, fault, offset });
  const entries: (IndexEntry & { readonly offset: number })[] = [];
  const names = new Set<string>();
  let at = 0;
  for (;;) {
    const head = await source.read(at, FIXED + MAX_NAME);
    const v = new DataView(head.buffer, head.byteOffset, head.byteLength);
    if (head.length < 4 || v.getUint32(0, true) !== LOCAL) {
      if (at === 0) return stop('not-a-zip', 0);
      break;
    }
    if (entries.length === most) return stop('too-many', at);
    if (head.length < FIXED) return stop('truncated', at);
    const nameLength = v.getUint16(26, true);
    if (nameLength > MAX_NAME) return stop('name', at);
    if (head.length < FIXED + nameLength) return stop('truncated', at);
    const nameBytes = head.subarray(FIXED, FIXED + nameLength);
    const name = latin.decode(nameBytes);
    const crc = v.getUint32(14, true);
    const size = v.getUint32(18, true);
    if (!isMemberName(name)) return stop('name', at);
    if ((v.getUint16(6, true) & 1) !== 0) return stop('encrypted', at);
    if (v.getUint16(8, true) !== 0) return stop('compressed', at);
    if (size === U32) return stop('zip64', at);
    if (names.has(name.toLowerCase())) return stop('twice', at);
    const difference = firstDifference(head, 0, localHeader(nameBytes, crc, size));
    if (difference !== null) return stop('header', at + difference);
    const start = at + FIXED + nameLength;
    if (start + size > source.size) return stop('truncated', start);
    names.add(name.toLowerCase());
    entries.push({ name, offset: at, start, size, crc });
    at = start + size;
  }
  const wanted: Uint8Array[] = entries.map((e) =>
    centralHeader(utf8.encode(e.name), e.crc, e.size, e.offset),
  );
  const length = wanted.reduce((s, c) => s + c.length, 0);
  wanted.push(endRecord(entries.length, length, at));
  const directory = await source.read(at, length + 22);
  let from = 0;
  for (const part of wanted) {
    const difference = firstDifference(directory, from, part);
    if (difference !== null)
      return stop(from + difference >= directory.length ? 'truncated' : 'header', at + from + difference);
    from += part.length;
  }
  if (at + from !== source.size) return stop('behind', at + from);
  return { ok: true, entries };
}
