import { webcrypto } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { fromHex } from '../hex.ts';
import { createRecordCrypto, successionText } from '../signing.ts';
import { keyHistory, loadSigner, makeSigner } from './keys.ts';
import { createMemoryDocuments } from './memory-documents.ts';
import type { DocumentStore } from './store.ts';

const subtle = webcrypto.subtle as unknown as SubtleCrypto;
const crypto = createRecordCrypto(subtle);

async function ready(documents: DocumentStore) {
  const state = await loadSigner(documents, subtle);
  if (state.state !== 'ready') throw new Error(state.state);
  return state.signer;
}

describe('signing key', () => {
  it('is none, then made, then there again, and can not be taken out', async () => {
    const documents = createMemoryDocuments();
    expect(await loadSigner(documents, subtle)).toEqual({ state: 'none' });
    const made = await makeSigner(documents, subtle, 5);
    const signer = await ready(documents);
    expect([signer.fingerprint, signer.sinceUtcMs, signer.previous]).toEqual([made.fingerprint, 5, null]);
    const text = Uint8Array.of(1, 2);
    expect(await crypto.verify(made.publicKey, text, await signer.sign(text))).toBe(true);
    const body = (await documents.get('key', 'signing'))?.body as { privateKey: CryptoKey };
    await expect(subtle.exportKey('pkcs8', body.privateKey)).rejects.toThrow();
  });

  it('that is gone is said to be gone, and the next one names it', async () => {
    const documents = createMemoryDocuments();
    const first = await makeSigner(documents, subtle, 5);
    await documents.remove('key', 'signing');
    const state = await loadSigner(documents, subtle);
    expect(state).toMatchObject({ state: 'lost', last: { fingerprint: first.fingerprint } });
    const next = await makeSigner(documents, subtle, 9);
    expect(next.fingerprint).not.toBe(first.fingerprint);
    expect(next.previous).toMatchObject({
      fingerprint: first.fingerprint,
      reason: 'lost',
      endorsement: null,
    });
    expect((await keyHistory(documents)).map((k) => k.sinceUtcMs)).toEqual([5, 9]);
  });

  it('that is changed vouches for the next one', async () => {
    const documents = createMemoryDocuments();
    const first = await makeSigner(documents, subtle, 5);
    const next = await makeSigner(documents, subtle, 9);
    const { previous } = next;
    expect(previous).toMatchObject({ fingerprint: first.fingerprint, reason: 'changed' });
    const text = successionText(first.fingerprint, next.fingerprint);
    expect(await crypto.verify(first.publicKey, text, fromHex(previous!.endorsement!)!)).toBe(true);
    expect((await ready(documents)).previous).toEqual(previous);
  });

  it('that does not sign as what it says it is counts as lost', async () => {
    const documents = createMemoryDocuments();
    await makeSigner(documents, subtle, 5);
    const other = createMemoryDocuments();
    await makeSigner(other, subtle, 6);
    const mine = (await documents.get('key', 'signing'))!;
    const theirs = (await other.get('key', 'signing'))!.body as object;
    const { privateKey } = theirs as { privateKey: CryptoKey };
    await documents.put({ ...mine, body: { ...(mine.body as object), privateKey } });
    expect((await loadSigner(documents, subtle)).state).toBe('lost');
    const again = (await documents.get('key', 'signing'))!;
    await documents.put({ ...again, body: { privateKey: 'text' } });
    expect((await loadSigner(documents, subtle)).state).toBe('lost');
  });
});
