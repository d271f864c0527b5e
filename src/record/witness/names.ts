/**
 * Names of logs and witnesses: they tell their key, so that no list of names is needed. `.invalid` is no address of anybody's
 * (RFC 2606).
 */
import type { Sha256 } from '../hashing.ts';
import { toHex } from '../hex.ts';
import { spkiOf } from '../signing.ts';

export type NoteRole = 'log' | 'witness';

/** Hex digits of a key's fingerprint in its name. */
const DIGITS = 16;

/** SHA-256 of the public key in SubjectPublicKeyInfo form, hex. */
export const keyFingerprint = (sha256: Sha256, publicKey: Uint8Array): string =>
  toHex(sha256.of(spkiOf(publicKey)));

/** The part of a key's fingerprint that stands in its name. */
export const keyTag = (sha256: Sha256, publicKey: Uint8Array): string =>
  keyFingerprint(sha256, publicKey).slice(0, DIGITS);

export const noteName = (sha256: Sha256, role: NoteRole, publicKey: Uint8Array): string =>
  `${role}.steadybar.invalid/${keyTag(sha256, publicKey)}`;
