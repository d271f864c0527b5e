/** SHA-256 without waiting: at once for a short stretch, and piece by piece for a long one. */
import { sha256 } from '@noble/hashes/sha2.js';

export interface Hasher {
  update(bytes: Uint8Array): void;
  /** Ends it. */
  digest(): Uint8Array;
}

export interface Sha256 {
  of(bytes: Uint8Array): Uint8Array;
  hasher(): Hasher;
}

/** In plain script: everywhere the same, and slow beside what a platform has. */
export const SCRIPT_SHA256: Sha256 = {
  of: (bytes) => sha256(bytes),
  hasher() {
    const hash = sha256.create();
    return { update: (bytes) => void hash.update(bytes), digest: () => hash.digest() };
  },
};
