/** SHA-256 without waiting: at once for a short stretch, and piece by piece for a long one. */
import { sha256 } from '@noble/hashes/sha2.js';
import { type ByteSource, chunksOf } from './byte-source.ts';
import { toHex } from './hex.ts';

export interface Hasher {
  update(bytes: Uint8Array): void;
  /** Ends it. */
  digest(): Uint8Array;
}

export interface Sha256 {
  of(bytes: Uint8Array): Uint8Array;
  hasher(): Hasher;
}

/** The SHA-256 of a source, hex; a chunk of it stands in memory. */
export async function hashOf(source: ByteSource, sha256: Sha256): Promise<string> {
  const hash = sha256.hasher();
  for await (const chunk of chunksOf(source)) hash.update(chunk);
  return toHex(hash.digest());
}

/** In plain script: everywhere the same, and slow beside what a platform has. */
export const SCRIPT_SHA256: Sha256 = {
  of: (bytes) => sha256(bytes),
  hasher() {
    const hash = sha256.create();
    return { update: (bytes) => void hash.update(bytes), digest: () => hash.digest() };
  },
};
