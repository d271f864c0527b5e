/**
 * CRC-32C (Castagnoli, polynomial 1EDC6F41h, reflected, initial and final value all ones), as in RFC 3720.
 * It finds every error burst up to 32 bits and, on lines as short as ours, any five flipped bits.
 */

const REFLECTED_POLYNOMIAL = 0x82f63b78;

// Row k holds the CRC of a byte followed by k zero bytes, so that four bytes go in with four independent look-ups:
// the sample path spends most of its time here.
const TABLE = new Int32Array(4 * 256);
for (let n = 0; n < 256; n++) {
  let c = n;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? (c >>> 1) ^ REFLECTED_POLYNOMIAL : c >>> 1;
  TABLE[n] = c;
}
for (let n = 256; n < 4 * 256; n++) {
  const c = TABLE[n - 256]!;
  TABLE[n] = (c >>> 8) ^ TABLE[c & 0xff]!;
}

/**
 * CRC-32C of bytes[from..to), as an unsigned 32-bit integer. Pass the CRC of what went before as `seed` to go on
 * with it.
 */
export function crc32c(bytes: Uint8Array, from = 0, to = bytes.length, seed = 0): number {
  const table = TABLE;
  let c = ~seed;
  let i = from;
  for (const fours = to - 3; i < fours; i += 4) {
    c ^= bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24);
    c =
      table[768 + (c & 0xff)]! ^
      table[512 + ((c >>> 8) & 0xff)]! ^
      table[256 + ((c >>> 16) & 0xff)]! ^
      table[c >>> 24]!;
  }
  for (; i < to; i++) c = (c >>> 8) ^ table[(c ^ bytes[i]!) & 0xff]!;
  return ~c >>> 0;
}
