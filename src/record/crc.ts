/**
 * Reflected 32-bit CRCs over long stretches, eight bytes a step in two words (slicing-by-8): five to ten times as
 * fast as the table of one byte, which stays the better one for a line of the protocol.
 */
type Tables = readonly [
  Int32Array,
  Int32Array,
  Int32Array,
  Int32Array,
  Int32Array,
  Int32Array,
  Int32Array,
  Int32Array,
];

function tablesOf(reflectedPolynomial: number): Tables {
  const t = Array.from({ length: 8 }, () => new Int32Array(256));
  for (let n = 0; n < 256; n++) {
    let c = n;
    for (let bit = 0; bit < 8; bit++) c = c & 1 ? (c >>> 1) ^ reflectedPolynomial : c >>> 1;
    t[0]![n] = c;
  }
  for (let n = 0; n < 256; n++)
    for (let k = 1; k < 8; k++) t[k]![n] = (t[k - 1]![n]! >>> 8) ^ t[0]![t[k - 1]![n]! & 0xff]!;
  return t as unknown as Tables;
}

const ISO_HDLC = tablesOf(0xedb88320);
const CASTAGNOLI = tablesOf(0x82f63b78);

/** Shorter than this the words are not worth the view on them. */
const LEAST = 64;
const LITTLE = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

function over(tables: Tables, bytes: Uint8Array, from: number, to: number, seed: number): number {
  const [t0, t1, t2, t3, t4, t5, t6, t7] = tables;
  let c = ~seed;
  let i = from;
  if (LITTLE && to - from >= LEAST) {
    for (; ((bytes.byteOffset + i) & 3) !== 0; i++) c = (c >>> 8) ^ t0[(c ^ bytes[i]!) & 0xff]!;
    const n = ((to - i) >> 3) << 1;
    const words = new Int32Array(bytes.buffer, bytes.byteOffset + i, n);
    for (let w = 0; w < n; w += 2) {
      const a = c ^ words[w]!;
      const b = words[w + 1]!;
      c =
        t7[a & 0xff]! ^
        t6[(a >>> 8) & 0xff]! ^
        t5[(a >>> 16) & 0xff]! ^
        t4[a >>> 24]! ^
        t3[b & 0xff]! ^
        t2[(b >>> 8) & 0xff]! ^
        t1[(b >>> 16) & 0xff]! ^
        t0[b >>> 24]!;
    }
    i += 4 * n;
  }
  for (; i < to; i++) c = (c >>> 8) ^ t0[(c ^ bytes[i]!) & 0xff]!;
  return ~c >>> 0;
}

/** CRC-32 as zip files carry it (ISO-HDLC). Pass the CRC of what went before as `seed` to go on with it. */
export type Crc32 = (bytes: Uint8Array, seed?: number) => number;

/** In plain script: everywhere the same. */
export const crc32: Crc32 = (bytes: Uint8Array, seed = 0): number =>
  over(ISO_HDLC, bytes, 0, bytes.length, seed);

/** CRC-32C (Castagnoli) of bytes[from..to), the same value as the protocol's. */
export const crc32c = (bytes: Uint8Array, from = 0, to = bytes.length, seed = 0): number =>
  over(CASTAGNOLI, bytes, from, to, seed);
