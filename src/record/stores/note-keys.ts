/**
 * The installation's keys for notes: one signs its log's checkpoints, one countersigns what others show it. Each has its one
 * purpose, is made at first need, and is a handle that can't be taken out: another installation's log has another key, and so
 * another name.
 */
import { fromHex, toHex } from '../hex.ts';
import { ALGORITHM, createRecordCrypto, signerOf } from '../signing.ts';
import { keyFingerprint, type NoteRole, noteName } from '../witness/names.ts';
import { type DocumentStore, StoreError } from './store.ts';

export interface NoteSigner {
  readonly name: string;
  /** 32 bytes. */
  readonly publicKey: Uint8Array;
  readonly fingerprint: string;
  sign(message: Uint8Array): Promise<Uint8Array>;
}

interface KeyBody {
  readonly publicKey: string;
  readonly privateKey: CryptoKey;
}

const ID: Readonly<Record<NoteRole, string>> = { log: 'log-note', witness: 'witness-note' };

function signerIn(subtle: SubtleCrypto, role: NoteRole, body: unknown): NoteSigner | null {
  const { publicKey: hex, privateKey } = (body ?? {}) as Partial<KeyBody>;
  const publicKey = typeof hex === 'string' ? fromHex(hex) : null;
  if (publicKey?.length !== 32 || privateKey === undefined) return null;
  const { hashing } = createRecordCrypto(subtle);
  const fingerprint = keyFingerprint(hashing, publicKey);
  const signer = signerOf(subtle, privateKey, { publicKey, fingerprint, sinceUtcMs: 0, previous: null });
  return {
    name: noteName(hashing, role, publicKey),
    publicKey,
    fingerprint,
    sign: (message) => signer.sign(message),
  };
}

/**
 * The key of this role. One that can't sign any more is followed by another, which is another log's or witness's.
 * @throws StoreError; NotSupportedError where the platform has no Ed25519
 */
export async function noteSigner(
  documents: DocumentStore,
  subtle: SubtleCrypto,
  role: NoteRole,
  utcMs: number,
): Promise<NoteSigner> {
  const id = ID[role];
  const crypto = createRecordCrypto(subtle);
  for (;;) {
    const resting = await documents.get('key', id);
    const found = signerIn(subtle, role, resting?.body);
    if (found !== null) {
      const probe = new TextEncoder().encode(found.name);
      const signature = await found.sign(probe).catch(() => null);
      if (signature !== null && (await crypto.verify(found.publicKey, probe, signature))) return found;
    }
    const pair = (await subtle.generateKey(ALGORITHM, false, ['sign', 'verify'])) as CryptoKeyPair;
    const publicKey = new Uint8Array(await subtle.exportKey('raw', pair.publicKey));
    const body: KeyBody = { publicKey: toHex(publicKey), privateKey: pair.privateKey };
    try {
      await documents.put({ kind: 'key', id, revision: resting?.revision ?? 0, savedUtcMs: utcMs, body });
    } catch (cause) {
      // Another tab made one at the same time: that one counts.
      if (!(cause instanceof StoreError && cause.code === 'stale')) throw cause;
    }
  }
}
