/**
 * The tablet's signing key among its documents. The private key is a handle that can't be taken out; what can be
 * told is who signs here, since when, and who did before. A key that is gone is said to be gone.
 */
import { fromHex, toHex } from '../hex.ts';
import {
  ALGORITHM,
  createRecordCrypto,
  fingerprintOf,
  type PreviousKey,
  type Signer,
  signerOf,
  successionText,
} from '../signing.ts';
import type { DocumentStore, StoredDocument } from './store.ts';

/** A key that signs or signed here; public facts only. */
export interface KeyFacts {
  readonly fingerprint: string;
  /** 32 bytes, hex. */
  readonly publicKey: string;
  readonly sinceUtcMs: number;
  readonly previous: PreviousKey | null;
}

export type KeyState =
  | { readonly state: 'ready'; readonly signer: Signer }
  /** No key was ever made here. */
  | { readonly state: 'none' }
  /** A key signed here and can't be used any more. */
  | { readonly state: 'lost'; readonly last: KeyFacts };

interface KeyBody extends KeyFacts {
  readonly privateKey: CryptoKey;
}

const KEY = 'signing';
export const KEY_HISTORY = 'history';

export const isKeyFacts = (v: unknown): v is KeyFacts => {
  if (typeof v !== 'object' || v === null) return false;
  const f = v as Partial<KeyFacts>;
  return (
    typeof f.fingerprint === 'string' &&
    typeof f.publicKey === 'string' &&
    fromHex(f.publicKey)?.length === 32 &&
    typeof f.sinceUtcMs === 'number'
  );
};

/** Every key that signed here, oldest first; for a backup and for the firm. */
export async function keyHistory(documents: DocumentStore): Promise<readonly KeyFacts[]> {
  const body = (await documents.get('key', KEY_HISTORY))?.body;
  return Array.isArray(body) ? body.filter(isKeyFacts) : [];
}

async function put(
  documents: DocumentStore,
  id: string,
  body: unknown,
  utcMs: number,
): Promise<StoredDocument> {
  const resting = await documents.get('key', id);
  return documents.put({ kind: 'key', id, revision: resting?.revision ?? 0, savedUtcMs: utcMs, body });
}

/** The stored key, if it still signs as the key it says it is. */
async function usable(documents: DocumentStore, subtle: SubtleCrypto): Promise<Signer | null> {
  const body = (await documents.get('key', KEY))?.body as Partial<KeyBody> | undefined;
  if (!isKeyFacts(body)) return null;
  const { privateKey } = body as KeyBody;
  const publicKey = fromHex(body.publicKey)!;
  const crypto = createRecordCrypto(subtle);
  try {
    const signer = signerOf(subtle, privateKey, { ...body, publicKey });
    const probe = new TextEncoder().encode(body.fingerprint);
    const right = body.fingerprint === (await fingerprintOf(crypto, publicKey));
    return right && (await crypto.verify(publicKey, probe, await signer.sign(probe))) ? signer : null;
  } catch {
    return null;
  }
}

export async function loadSigner(documents: DocumentStore, subtle: SubtleCrypto): Promise<KeyState> {
  const signer = await usable(documents, subtle);
  if (signer !== null) return { state: 'ready', signer };
  const last = (await keyHistory(documents)).at(-1);
  return last === undefined ? { state: 'none' } : { state: 'lost', last };
}

/**
 * Makes a key: the first one, one after a loss, or another in place of a present one, which then vouches for it.
 * The history is written before the key, so that a key that signed can't be one that was never told of.
 */
export async function makeSigner(
  documents: DocumentStore,
  subtle: SubtleCrypto,
  utcMs: number,
): Promise<Signer> {
  const before = await loadSigner(documents, subtle);
  const history = await keyHistory(documents);
  const pair = (await subtle.generateKey(ALGORITHM, false, ['sign', 'verify'])) as CryptoKeyPair;
  const publicKey = new Uint8Array(await subtle.exportKey('raw', pair.publicKey));
  const fingerprint = await fingerprintOf(createRecordCrypto(subtle), publicKey);
  let previous: PreviousKey | null = null;
  if (before.state === 'lost') {
    const { last } = before;
    previous = {
      fingerprint: last.fingerprint,
      reason: 'lost',
      endorsement: null,
      publicKey: last.publicKey,
    };
  } else if (before.state === 'ready') {
    const old = before.signer;
    const endorsement = toHex(await old.sign(successionText(old.fingerprint, fingerprint)));
    previous = {
      fingerprint: old.fingerprint,
      reason: 'changed',
      endorsement,
      publicKey: toHex(old.publicKey),
    };
  }
  const facts: KeyFacts = { fingerprint, publicKey: toHex(publicKey), sinceUtcMs: utcMs, previous };
  await put(documents, KEY_HISTORY, [...history, facts], utcMs);
  await put(documents, KEY, { ...facts, privateKey: pair.privateKey }, utcMs);
  return signerOf(subtle, pair.privateKey, { ...facts, publicKey });
}
