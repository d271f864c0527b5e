import { beforeEach, describe, expect, it } from 'vitest';
import { bytesSource } from './byte-source.ts';

import { createRecordCrypto } from './signing.ts';
import { createIdbDocuments } from './stores/idb-documents.ts';
import { keyHistory, loadSigner, makeSigner } from './stores/keys.ts';
import { keepSealed, loadSealed } from './stores/sealed-store.ts';
import { derivedHashes, KNOWN_DERIVED } from './testing/known.ts';
import { asRecorded, checkWords, jobFile, runPages, sealRun, twoPoint } from './testing/sealing.ts';
import { verifyJobFile } from './verify.ts';

const DATABASE = 'sealing';
const { subtle } = globalThis.crypto;
const recordCrypto = createRecordCrypto(subtle);

beforeEach(
  () =>
    new Promise<void>((resolve, reject) => {
      const request = indexedDB.deleteDatabase(DATABASE);
      request.onsuccess = () => resolve();
      request.onerror = () => reject(request.error);
    }),
);

describe('in a real browser', () => {
  it('the key rests in IndexedDB, signs after a restart, and can not be taken out', async () => {
    const made = await makeSigner(await createIdbDocuments(DATABASE), subtle, 5);
    const later = await createIdbDocuments(DATABASE);
    const state = await loadSigner(later, subtle);
    if (state.state !== 'ready') throw new Error(state.state);
    expect(state.signer.fingerprint).toBe(made.fingerprint);
    const message = Uint8Array.of(1, 2, 3);
    expect(await recordCrypto.verify(made.publicKey, message, await state.signer.sign(message))).toBe(true);
    const body = (await later.get('key', 'signing'))?.body as { privateKey: CryptoKey };
    await expect(subtle.exportKey('pkcs8', body.privateKey)).rejects.toThrow();
    expect(await keyHistory(later)).toHaveLength(1);
  });

  it('a run is sealed, kept, built to a file and found valid', async () => {
    const documents = await createIdbDocuments(DATABASE);
    const signer = await makeSigner(documents, subtle, 5);
    const pages = runPages();
    const sealed = await sealRun(pages, signer);
    await keepSealed(documents, 'run-0001', sealed, 6);
    const kept = (await loadSealed(documents, 'run-0001'))!;
    expect(kept).toEqual(sealed);
    const file = await jobFile(pages, kept, signer);
    const trusted = new Map([[signer.fingerprint, 'this tablet']]);
    const v = await verifyJobFile(bytesSource(file), {
      crypto: recordCrypto,
      trusted,
      sense: twoPoint,
      judge: asRecorded,
      words: checkWords,
    });
    expect([v.verdict, v.findings, v.remarks]).toEqual(['valid', [], [{ r: 'not-logged' }]]);
    file[file.length >> 1]! ^= 1;
    expect(
      (
        await verifyJobFile(bytesSource(file), {
          crypto: recordCrypto,
          trusted,
          sense: twoPoint,
          judge: asRecorded,
          words: checkWords,
        })
      ).verdict,
    ).toBe('changed');
  });

  it('derived files are the very bytes that Node makes', async () => {
    expect(await derivedHashes()).toEqual(KNOWN_DERIVED);
  });
});
