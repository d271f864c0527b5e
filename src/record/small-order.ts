/**
 * Ed25519 keys of small order: the eight points of which eight times gives the neutral one, in every way of writing
 * them. For such a key anyone can write a signature that holds for any message; RFC 8032 leaves it to the verifier
 * to refuse them, and OpenSSL and browsers don't.
 */
import { toHex } from './hex.ts';

/** y of 0 to 1 and -1 modulo p, also not reduced, and the two y of order eight; each with both signs of x. */
export const SMALL_ORDER_HEX: readonly string[] = [
  '0100000000000000000000000000000000000000000000000000000000000000',
  'ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f',
  '0000000000000000000000000000000000000000000000000000000000000000',
  '26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05',
  'c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a',
  'edffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f',
  'eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f',
].flatMap((hex) => [hex, hex.slice(0, 62) + (Number.parseInt(hex.slice(62), 16) | 128).toString(16)]);

const SMALL_ORDER: ReadonlySet<string> = new Set(SMALL_ORDER_HEX);

/** @param publicKey 32 bytes */
export const isSmallOrder = (publicKey: Uint8Array): boolean => SMALL_ORDER.has(toHex(publicKey));
