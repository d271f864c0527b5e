/** CRC-32 as zip files carry it (ISO-HDLC: polynomial 04C11DB7h, reflected), eight bytes a step. */

const TABLES: readonly Uint32Array[] = (() => {
  const t = Array.from({ length: 8 }, () => new Uint32Array(256));
  for (let n = 0; n < 256; n++) {
    let c = n;
    for (let bit = 0; bit < 8; bit++) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1;
    t[0]![n] = c;
  }
  for (let n = 0; n < 256; n++)
    for (let k = 1; k < 8; k++) t[k]![n] = (t[k - 1]![n]! >>> 8) ^ t[0]![t[k - 1]![n]! & 0xff]!;
  return t;
})();

/** CRC-32 of the bytes; pass the CRC of what went before as `seed` to go on with it. */
export function crc32(bytes: Uint8Array, seed = 0): number {
  const [t0, t1, t2, t3, t4, t5, t6, t7] = TABLES as [
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
    Uint32Array,
  ];
  let c = ~seed;
  let i = 0;
  for (const end = bytes.length - 7; i < end; i += 8) {
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
  for (; i < bytes.length; i++) c = (c >>> 8) ^ t0[(c ^ bytes[i]!) & 0xff]!;
  return ~c >>> 0;
}
