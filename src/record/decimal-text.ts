/**
 * Decimal numbers as text, straight into bytes: millions of fields are written without a string for each. The same
 * characters as String() gives for the number.
 */

const ZERO = 0x30;
const MINUS = 0x2d;
const POINT = 0x2e;
/** Largest whole number that is written here: 15 digits, the most that any decimal keeps in a double. */
const MOST = 1e15;
/** No number takes more bytes than this. */
export const MOST_DIGITS = 32;

const utf8 = new TextEncoder();

function putText(out: Uint8Array, at: number, text: string): number {
  return at + utf8.encodeInto(text, out.subarray(at)).written;
}

/** The digits of 0 … 999, three bytes each. */
const THREE = Uint8Array.from({ length: 3000 }, (_, i) => {
  const n = Math.floor(i / 3);
  return ZERO + (Math.floor(n / [100, 10, 1][i % 3]!) % 10);
});

/** n in 0 … 10^9 - 1, with so many digits, zeros in front. */
function putPadded(out: Uint8Array, at: number, n: number, digits: number): number {
  let rest = n | 0;
  let i = at + digits;
  for (; i - at >= 3; i -= 3) {
    const thousands = (rest / 1000) | 0;
    const t = 3 * (rest - 1000 * thousands);
    out[i - 1] = THREE[t + 2]!;
    out[i - 2] = THREE[t + 1]!;
    out[i - 3] = THREE[t]!;
    rest = thousands;
  }
  const t = 3 * rest;
  if (i - at === 2) out[at] = THREE[t + 1]!;
  if (i > at) out[i - 1] = THREE[t + 2]!;
  return at + digits;
}

function digitsOf(n: number): number {
  if (n < 1e4) return n < 100 ? (n < 10 ? 1 : 2) : n < 1000 ? 3 : 4;
  if (n < 1e7) return n < 1e6 ? (n < 1e5 ? 5 : 6) : 7;
  return n < 1e8 ? 8 : 9;
}

/** n in 0 … MOST, whole. */
function putPlain(out: Uint8Array, at: number, n: number): number {
  if (n < 1e9) return putPadded(out, at, n, digitsOf(n));
  const high = Math.floor(n / 1e9);
  return putPadded(out, putPlain(out, at, high), n - 1e9 * high, 9);
}

/** A whole number. @returns where the next byte goes */
export function putWhole(out: Uint8Array, at: number, n: number): number {
  if (!(Math.abs(n) < MOST)) return putText(out, at, String(n));
  if (n >= 0) return putPlain(out, at, n);
  out[at] = MINUS;
  return putPlain(out, at + 1, -n);
}

const UNIT = [1, 10, 100, 1e3, 1e4, 1e5, 1e6] as const;
/** Digits behind the point: a smaller number than 1e-6 has an exponent. */
export type Decimals = 1 | 2 | 3 | 4 | 5 | 6;

/**
 * A number with at most `digits` decimals, given as the whole number of its last decimal: 1234, 2 is 12.34.
 * @returns where the next byte goes
 */
export function putDecimal(out: Uint8Array, at: number, n: number, digits: Decimals): number {
  const unit = UNIT[digits];
  if (!(Math.abs(n) < MOST)) return putText(out, at, String(n / unit));
  const size = Math.abs(n);
  const whole = Math.floor(size / unit);
  let p = at;
  if (n < 0) out[p++] = MINUS;
  p = putPlain(out, p, whole);
  const rest = (size - whole * unit) | 0;
  if (rest === 0) return p;
  out[p] = POINT;
  p = putPadded(out, p + 1, rest, digits);
  while (out[p - 1] === ZERO) p--;
  return p;
}
