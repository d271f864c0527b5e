import { readFileSync } from 'node:fs';
import { brotliDecompressSync } from 'node:zlib';

/** Tags of a WOFF2 file that are told by their number (W3C WOFF2, 4.1); the others spell themselves out. */
const CMAP = 0;
const GLYF = 10;
const LOCA = 11;
const SPELT = 63;

/** A number of 7 bits a byte, the highest bit says that more come (W3C WOFF2, UIntBase128). */
function base128(bytes: Buffer, at: number): readonly [value: number, next: number] {
  let value = 0;
  for (let i = at; ; i++) {
    const byte = bytes[i]!;
    value = value * 128 + (byte & 127);
    if (byte < 128) return [value, i + 1];
  }
}

/** The table of a font file that says which character it has (OpenType, cmap). */
function cmapOf(file: string): Buffer {
  const bytes = readFileSync(file);
  const tables = bytes.readUInt16BE(12);
  const packed = bytes.readUInt32BE(20);
  let at = 48;
  let offset = 0;
  let found: readonly [number, number] | null = null;
  for (let i = 0; i < tables; i++) {
    const flags = bytes[at++]!;
    const tag = flags & SPELT;
    if (tag === SPELT) at += 4;
    let length: number;
    [length, at] = base128(bytes, at);
    const version = flags >> 6;
    // Outlines are packed unless the version says 3, other tables where it says anything.
    if (tag === GLYF || tag === LOCA ? version !== 3 : version !== 0) [length, at] = base128(bytes, at);
    if (tag === CMAP) found = [offset, length];
    offset += length;
  }
  if (found === null) throw new Error(`${file} has no cmap`);
  const all = brotliDecompressSync(bytes.subarray(at, at + packed));
  return all.subarray(found[0], found[0] + found[1]);
}

/** Characters (code points) that a WOFF2 font has, of the Basic Multilingual Plane (OpenType, cmap format 4). */
export function charactersOf(file: string): ReadonlySet<number> {
  const cmap = cmapOf(file);
  const has = new Set<number>();
  for (let i = 0; i < cmap.readUInt16BE(2); i++) {
    const start = cmap.readUInt32BE(4 + i * 8 + 4);
    if (cmap.readUInt16BE(start) !== 4) continue;
    const x2 = cmap.readUInt16BE(start + 6);
    for (let s = 0; s < x2; s += 2) {
      const end = cmap.readUInt16BE(start + 14 + s);
      const begin = cmap.readUInt16BE(start + 16 + x2 + s);
      for (let c = begin; c <= end && c < 0xffff; c++) has.add(c);
    }
  }
  return has;
}
