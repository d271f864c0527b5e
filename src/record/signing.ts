/**
 * Ed25519 (RFC 8032) through WebCrypto, behind two small interfaces, so that Node, a page and a worker serve
 * alike and the private key never has to be anything but a handle.
 */
import { type Crc32, crc32 } from './crc.ts';
import { SCRIPT_SHA256, type Sha256 } from './hashing.ts';
import { toHex } from './hex.ts';
import { isSmallOrder } from './small-order.ts';

export const ALGORITHM = 'Ed25519';
export const PUBLIC_KEY_BYTES = 32;
export const SIGNATURE_BYTES = 64;

/** The part of WebCrypto that the record needs. */
export interface RecordCrypto {
  /** By the platform, of bytes that stand in memory. */
  sha256(bytes: Uint8Array): Promise<Uint8Array>;
  /** Without waiting, for many short stretches and for what comes in pieces. */
  readonly hashing: Sha256;
  readonly crc32: Crc32;
  /**
   * False for any signature that does not hold, a malformed key and one of small order among them.
   * @throws SigningUnsupported where the platform has no Ed25519: a good record must not look like a changed one
   */
  verify(publicKey: Uint8Array, message: Uint8Array, signature: Uint8Array): Promise<boolean>;
}

/** This browser's WebCrypto knows no Ed25519. */
export class SigningUnsupported extends Error {
  override readonly name = 'SigningUnsupported';
}

export interface Signer {
  /** 32 bytes. */
  readonly publicKey: Uint8Array;
  /** SHA-256 of the public key in SubjectPublicKeyInfo form, hex. */
  readonly fingerprint: string;
  /** UTC in ms since when this key signs here. */
  readonly sinceUtcMs: number;
  /** The key that signed here before; null for the first. */
  readonly previous: PreviousKey | null;
  sign(message: Uint8Array): Promise<Uint8Array>;
}

/** How the present key came after another. */
export interface PreviousKey {
  readonly fingerprint: string;
  /** `lost`: the old key is gone, nothing vouches for the new one but people. */
  readonly reason: 'lost' | 'changed';
  /** The old key's signature over the succession text; null when it was lost. */
  readonly endorsement: string | null;
  /** The old public key, hex, where it was still known. */
  readonly publicKey: string | null;
}

/** What the old key signs when another takes over. */
export const successionText = (oldFingerprint: string, newFingerprint: string): Uint8Array =>
  new TextEncoder().encode(`steadybar key succession\n${oldFingerprint}\n${newFingerprint}\n`);

/** SubjectPublicKeyInfo of an Ed25519 key is this prefix and the 32 bytes (RFC 8410). */
const SPKI_PREFIX = Uint8Array.of(0x30, 0x2a, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x03, 0x21, 0x00);

export function spkiOf(publicKey: Uint8Array): Uint8Array {
  if (publicKey.length !== PUBLIC_KEY_BYTES) throw new RangeError('an Ed25519 public key has 32 bytes');
  const out = new Uint8Array(SPKI_PREFIX.length + PUBLIC_KEY_BYTES);
  out.set(SPKI_PREFIX);
  out.set(publicKey, SPKI_PREFIX.length);
  return out;
}

/** The public key as the PEM file that openssl reads. */
export function pemOf(publicKey: Uint8Array): string {
  return `-----BEGIN PUBLIC KEY-----\n${btoa(String.fromCharCode(...spkiOf(publicKey)))}\n-----END PUBLIC KEY-----\n`;
}

/** The key of such a PEM text; null for anything else. */
export function keyOfPem(text: string): Uint8Array | null {
  const m = /-----BEGIN PUBLIC KEY-----\s+([A-Za-z0-9+/=\s]{40,120})-----END PUBLIC KEY-----/.exec(text);
  if (m === null) return null;
  let der: Uint8Array;
  try {
    der = Uint8Array.from(atob(m[1]!.replace(/\s/g, '')), (c) => c.charCodeAt(0));
  } catch {
    return null;
  }
  if (der.length !== SPKI_PREFIX.length + PUBLIC_KEY_BYTES) return null;
  return SPKI_PREFIX.every((b, i) => der[i] === b) ? der.slice(SPKI_PREFIX.length) : null;
}

export async function fingerprintOf(crypto: RecordCrypto, publicKey: Uint8Array): Promise<string> {
  return toHex(await crypto.sha256(spkiOf(publicKey)));
}

const plain = (bytes: Uint8Array): Uint8Array<ArrayBuffer> =>
  bytes.buffer instanceof ArrayBuffer ? (bytes as Uint8Array<ArrayBuffer>) : new Uint8Array(bytes);

/**
 * @param subtle the platform's own; secure contexts only in a browser
 * @param own what the platform does by itself of that which is script otherwise
 */
export function createRecordCrypto(
  subtle: SubtleCrypto,
  own: Partial<Pick<RecordCrypto, 'hashing' | 'crc32'>> = {},
): RecordCrypto {
  return {
    hashing: SCRIPT_SHA256,
    crc32,
    ...own,
    async sha256(bytes) {
      return new Uint8Array(await subtle.digest('SHA-256', plain(bytes)));
    },
    async verify(publicKey, message, signature) {
      if (publicKey.length !== PUBLIC_KEY_BYTES || signature.length !== SIGNATURE_BYTES) return false;
      if (isSmallOrder(publicKey)) return false;
      try {
        const key = await subtle.importKey('raw', plain(publicKey), ALGORITHM, true, ['verify']);
        return await subtle.verify(ALGORITHM, key, plain(signature), plain(message));
      } catch (error) {
        if ((error as { name?: unknown }).name === 'NotSupportedError')
          throw new SigningUnsupported('no Ed25519 here');
        // A point that is not on the curve.
        return false;
      }
    },
  };
}

/** A signer over a key that stays where it is. */
export function signerOf(
  subtle: SubtleCrypto,
  privateKey: CryptoKey,
  facts: Pick<Signer, 'publicKey' | 'fingerprint' | 'sinceUtcMs' | 'previous'>,
): Signer {
  return {
    publicKey: facts.publicKey,
    fingerprint: facts.fingerprint,
    sinceUtcMs: facts.sinceUtcMs,
    previous: facts.previous,
    async sign(message) {
      return new Uint8Array(await subtle.sign(ALGORITHM, privateKey, plain(message)));
    },
  };
}
