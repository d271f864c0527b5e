import { describe, expect, it } from 'vitest';
import { fromHex } from './hex.ts';
import { isSmallOrder, SMALL_ORDER_HEX } from './small-order.ts';
import { newSigner, recordCrypto } from './testing/sealing.ts';

// The curve of RFC 8032, section 5.1: -x² + y² = 1 + d x² y² over p = 2^255 - 19.
const P = 2n ** 255n - 19n;
const mod = (a: bigint): bigint => ((a % P) + P) % P;
function power(base: bigint, exponent: bigint): bigint {
  let out = 1n;
  for (let b = mod(base), e = exponent; e > 0n; e >>= 1n, b = mod(b * b)) if (e & 1n) out = mod(out * b);
  return out;
}
const inverse = (a: bigint): bigint => power(a, P - 2n);
const D = mod(-121665n * inverse(121666n));

/** Decoding of RFC 8032, 5.1.3, but for its refusal of y ≥ p and of x = 0 with the sign bit: verifiers let these through. */
function pointOf(bytes: Uint8Array): [bigint, bigint] | null {
  let y = 0n;
  for (let i = 31; i >= 0; i--) y = (y << 8n) | BigInt(i === 31 ? bytes[i]! & 127 : bytes[i]!);
  y = mod(y);
  const square = mod((y * y - 1n) * inverse(D * y * y + 1n));
  let x = power(square, (P + 3n) / 8n);
  if (mod(x * x - square) !== 0n) x = mod(x * power(2n, (P - 1n) / 4n));
  if (mod(x * x - square) !== 0n) return null;
  return [(x & 1n) === BigInt(bytes[31]! >> 7) ? x : mod(-x), y];
}
function add([x1, y1]: [bigint, bigint], [x2, y2]: [bigint, bigint]): [bigint, bigint] {
  const k = mod(D * x1 * x2 * y1 * y2);
  return [mod((x1 * y2 + x2 * y1) * inverse(1n + k)), mod((y1 * y2 + x1 * x2) * inverse(1n - k))];
}
/** Eight times the point is the neutral one. */
function ofSmallOrder(bytes: Uint8Array): boolean | null {
  let p = pointOf(bytes);
  if (p === null) return null;
  for (let i = 0; i < 3; i++) p = add(p, p);
  return p[0] === 0n && p[1] === 1n;
}

describe('keys of small order', () => {
  it('are those that the curve has: each of the list, by the arithmetic of RFC 8032', () => {
    expect(new Set(SMALL_ORDER_HEX).size).toBe(14);
    for (const hex of SMALL_ORDER_HEX) expect(ofSmallOrder(fromHex(hex)!), hex).toBe(true);
    // All y of the eight points: 0, 1, -1 and the two of order eight, in each way to write them in 255 bits, with either sign.
    const ys = new Set(
      SMALL_ORDER_HEX.map((h) => `${h.slice(0, 62)}${(Number.parseInt(h.slice(62), 16) & 127).toString(16)}`),
    );
    expect(ys.size).toBe(7);
  });

  it('never verify, though the signature that anyone can write for them would', async () => {
    const neutral = fromHex(SMALL_ORDER_HEX[0]!)!;
    const forged = new Uint8Array(64);
    forged.set(neutral);
    for (const message of ['a', 'whatever'])
      expect(await recordCrypto.verify(neutral, new TextEncoder().encode(message), forged)).toBe(false);
    const { publicKey } = await newSigner();
    expect([isSmallOrder(neutral), isSmallOrder(publicKey)]).toEqual([true, false]);
  });
});
