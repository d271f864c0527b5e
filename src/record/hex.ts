/** Lower-case hex. */

const DIGITS = '0123456789abcdef';

export function toHex(bytes: Uint8Array): string {
  let s = '';
  for (const b of bytes) s += DIGITS[b >> 4]! + DIGITS[b & 15]!;
  return s;
}

/** null unless it is an even number of lower-case hex digits. */
export function fromHex(text: string): Uint8Array | null {
  if (text.length % 2 !== 0) return null;
  const out = new Uint8Array(text.length / 2);
  for (let i = 0; i < out.length; i++) {
    const hi = DIGITS.indexOf(text[2 * i]!);
    const lo = DIGITS.indexOf(text[2 * i + 1]!);
    if (hi < 0 || lo < 0) return null;
    out[i] = hi * 16 + lo;
  }
  return out;
}
