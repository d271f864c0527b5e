/**
 * CRC-32C (Castagnoli, polynomial 1EDC6F41h, reflected, initial and final value all ones), as in RFC 3720.
 * It finds every error burst up to 32 bits and, on lines as short as ours, any five flipped bits.
 */

const REFLECTED_POLYNOMIAL = 0x82f63b78;

const TABLE = new Int32Array(256);
for (let n = 0; n < 256; n++) {
  let c = n;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? (c >>> 1) ^ REFLECTED_POLYNOMIAL : c >>> 1;
  TABLE[n] = c;
}

/**
 * CRC-32C of bytes[from..to), as an unsigned 32-bit integer. Pass the CRC of what went before as `seed` to go on
 * with it.
 */
export function crc32c(bytes: Uint8Array, from = 0, to = bytes.length, seed = 0): number {
  let c = ~seed;
  for (let i = from; i < to; i++) c = (c >>> 8) ^ TABLE[(c ^ bytes[i]!) & 0xff]!;
  return ~c >>> 0;
}
