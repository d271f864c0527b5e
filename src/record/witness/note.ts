/**
 * Signed notes as C2SP's signed-note writes them down: a text, an empty line, and one line a signature. Signatures of
 * unknown keys are ignored; a known key's that does not hold makes the whole note void.
 */

import { fromBase64, toBase64 } from '../base64.ts';
import { joinBytes, sameBytes } from '../bytes.ts';
import type { Sha256 } from '../hashing.ts';
import { type RecordCrypto, SIGNATURE_BYTES } from '../signing.ts';

export const KEY_ID_BYTES = 4;
/** What a key signs: 1 the text itself (Ed25519), 4 the text and a time (tlog-cosignature). */
export const KEY_TYPE = { plain: 1, cosignature: 4 } as const;
export type KeyType = (typeof KEY_TYPE)[keyof typeof KEY_TYPE];

/** A note of a log is some hundred bytes; one with many witnesses some thousand. */
export const MOST_NOTE_CHARS = 100_000;
/** The form asks for at least 16 to be taken. */
export const MOST_SIGNATURES = 100;
const MOST_NAME_CHARS = 255;

/** Who may have signed, and by what. */
export interface NoteKey {
  readonly name: string;
  readonly type: KeyType;
  /** 32 bytes, Ed25519. */
  readonly publicKey: Uint8Array;
}

export interface NoteSignature {
  readonly name: string;
  /** 4 bytes. */
  readonly keyId: Uint8Array;
  /** What stands behind the key's id; its form is the key type's. */
  readonly bytes: Uint8Array;
}

export interface Note {
  /** Ends with LF. */
  readonly text: string;
  readonly signatures: readonly NoteSignature[];
}

/** A name of a key: not empty, no white space, no plus. */
export const isKeyName = (name: string): boolean =>
  name.length > 0 && name.length <= MOST_NAME_CHARS && !/[\s+\p{Cc}]/u.test(name);

/** The first four bytes of SHA-256(name, LF, type, public key). */
export function keyIdOf(sha256: Sha256, key: NoteKey): Uint8Array {
  const named = new TextEncoder().encode(`${key.name}\n`);
  return sha256.of(joinBytes([named, Uint8Array.of(key.type), key.publicKey])).slice(0, KEY_ID_BYTES);
}

const DASH = '\u2014';
const lineOf = ({ name, keyId, bytes }: NoteSignature): string =>
  `${DASH} ${name} ${toBase64(joinBytes([keyId, bytes]))}\n`;

/** The note as it is sent. @throws RangeError on a text or a name that a note cannot have */
export function noteText({ text, signatures }: Note): string {
  if (!isNoteBody(text))
    throw new RangeError('a note’s text ends with a line feed and holds no other control character');
  if (signatures.length === 0) throw new RangeError('a note has a signature');
  for (const { name } of signatures) if (!isKeyName(name)) throw new RangeError(`'${name}' names no key`);
  return `${text}\n${signatures.map(lineOf).join('')}`;
}

const isNoteBody = (text: string): boolean =>
  text.length > 1 && text.endsWith('\n') && !/[^\P{Cc}\n]/u.test(text);

/** null for whatever is no signed note. Its text ends at the last empty line. */
export function parseNote(note: string): Note | null {
  if (note.length > MOST_NOTE_CHARS || !note.endsWith('\n')) return null;
  const end = note.lastIndexOf('\n\n');
  if (end < 0) return null;
  const text = note.slice(0, end + 1);
  if (!isNoteBody(text)) return null;
  const lines = note.slice(end + 2, -1).split('\n');
  if (lines.length > MOST_SIGNATURES) return null;
  const signatures: NoteSignature[] = [];
  for (const line of lines) {
    const [dash, name, base64, ...more] = line.split(' ');
    if (dash !== DASH || name === undefined || base64 === undefined || more.length > 0) return null;
    const all = fromBase64(base64);
    if (!isKeyName(name) || all === null || all.length <= KEY_ID_BYTES) return null;
    signatures.push({ name, keyId: all.slice(0, KEY_ID_BYTES), bytes: all.slice(KEY_ID_BYTES) });
  }
  return { text, signatures };
}

/** 8 bytes of seconds since 1970, big-endian, before the signature. */
const TIME_BYTES = 8;
/** Seconds that eight bytes hold and a date can tell. */
const MOST_TIME_S = 8.64e12;

/** What a cosignature signs: that at this time (UTC, s) this was the largest consistent tree that its key had seen. */
export const cosignedText = (text: string, timeS: number): Uint8Array =>
  new TextEncoder().encode(`cosignature/v1\ntime ${timeS}\n${text}`);

/** A signature that held. */
export interface HeldSignature {
  readonly key: NoteKey;
  /** UTC, s; null where the key's type states none. */
  readonly timeS: number | null;
}

export type NoteCheck =
  | { readonly ok: true; readonly held: readonly HeldSignature[] }
  /** `form`: no signed note. `signature`: one by a known key does not hold, or stands there twice. */
  | { readonly ok: false; readonly why: 'form' | 'signature'; readonly name: string | null };

/** Which of these keys signed the note. @throws SigningUnsupported where the platform has no Ed25519 */
export async function checkNote(
  crypto: RecordCrypto,
  note: Note,
  keys: readonly NoteKey[],
): Promise<NoteCheck> {
  const held: HeldSignature[] = [];
  for (const key of keys) {
    const id = keyIdOf(crypto.hashing, key);
    const own = note.signatures.filter((s) => s.name === key.name && sameBytes(s.keyId, id));
    if (own.length === 0) continue;
    const bad: NoteCheck = { ok: false, why: 'signature', name: key.name };
    if (own.length > 1) return bad;
    const { bytes } = own[0]!;
    if (key.type === KEY_TYPE.plain) {
      if (!(await crypto.verify(key.publicKey, new TextEncoder().encode(note.text), bytes))) return bad;
      held.push({ key, timeS: null });
      continue;
    }
    if (bytes.length !== TIME_BYTES + SIGNATURE_BYTES) return bad;
    const timeS = Number(new DataView(bytes.buffer, bytes.byteOffset).getBigUint64(0));
    if (timeS === 0 || timeS > MOST_TIME_S) return bad;
    if (!(await crypto.verify(key.publicKey, cosignedText(note.text, timeS), bytes.slice(TIME_BYTES))))
      return bad;
    held.push({ key, timeS });
  }
  return { ok: true, held };
}

interface Signing {
  readonly publicKey: Uint8Array;
  sign(message: Uint8Array): Promise<Uint8Array>;
}

/** A log's own signature over a text. */
export async function signNote(
  sha256: Sha256,
  name: string,
  signer: Signing,
  text: string,
): Promise<NoteSignature> {
  const key: NoteKey = { name, type: KEY_TYPE.plain, publicKey: signer.publicKey };
  return { name, keyId: keyIdOf(sha256, key), bytes: await signer.sign(new TextEncoder().encode(text)) };
}

/** A witness's signature over a text, at a time (UTC, whole s). */
export async function cosignNote(
  sha256: Sha256,
  name: string,
  signer: Signing,
  text: string,
  timeS: number,
): Promise<NoteSignature> {
  if (!Number.isInteger(timeS) || timeS <= 0 || timeS > MOST_TIME_S)
    throw new RangeError(`${timeS} s is no time`);
  const key: NoteKey = { name, type: KEY_TYPE.cosignature, publicKey: signer.publicKey };
  const bytes = new Uint8Array(TIME_BYTES + SIGNATURE_BYTES);
  new DataView(bytes.buffer).setBigUint64(0, BigInt(timeS));
  bytes.set(await signer.sign(cosignedText(text, timeS)), TIME_BYTES);
  return { name, keyId: keyIdOf(sha256, key), bytes };
}
