/**
 * Reflected 32-bit CRCs over long stretches, eight bytes a step (slicing-by-8): three to four times as fast as the
 * table of one byte, which stays the better one for a line of the protocol.
 */
type Tables = readonly [
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
  Uint32Array,
];

function tablesOf(reflectedPolynomial: number): Tables {
  const t = Array.from({ length: 8 }, () => new Uint32Array(256));
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

function over(tables: Tables, bytes: Uint8Array, from: number, to: number, seed: number): number {
  const [t0, t1, t2, t3, t4, t5, t6, t7] = tables;
  let c = ~seed;
  let i = from;
  for (const end = to - 7; i < end; i += 8) {
    const a = c ^ (bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24));
    c =
      t7[a & 0xff]! ^
      t6[(a >>> 8) & 0xff]! ^
      t5[(a >>> 16) & 0xff]! ^
      t4[a >>> 24]! ^
      t3[bytes[i + 4]!]! ^
      t2[bytes[i + 5]!]! ^
      t1[bytes[i + 6]!]! ^
      t0[bytes[i + 7]!]!;
  }
  for (; i < to; i++) c = (c >>> 8) ^ t0[(c ^ bytes[i]!) & 0xff]!;
  return ~c >>> 0;
}

/** CRC-32 as zip files carry it (ISO-HDLC). Pass the CRC of what went before as `seed` to go on with it. */
export const crc32 = (bytes: Uint8Array, seed = 0): number => over(ISO_HDLC, bytes, 0, bytes.length, seed);

/** CRC-32C (Castagnoli) of bytes[from..to), the same value as the protocol's. */
export const crc32c = (bytes: Uint8Array, from = 0, to = bytes.length, seed = 0): number =>
  over(CASTAGNOLI, bytes, from, to, seed);
