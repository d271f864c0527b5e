import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { createIdbDocuments } from './idb-documents.ts';
import { documentCases } from './testing/document-contract.ts';
import { fileCases } from './testing/file-contract.ts';

describe('file store: OPFS in a dedicated worker of a real browser', () => {
  const worker = new Worker(new URL('./testing/opfs.worker.ts', import.meta.url), { type: 'module' });
  afterAll(() => worker.terminate());
  const ask = (name: string): Promise<string | null> =>
    new Promise((resolve, reject) => {
      worker.onmessage = (event: MessageEvent<string | null>) => resolve(event.data);
      worker.onerror = (event) => reject(new Error(event.message));
      worker.postMessage(name);
    });

  it.each(fileCases.map((c) => c.name))('%s', async (name) => {
    expect(await ask(name)).toBeNull();
  });
});

describe('document store: IndexedDB of a real browser', () => {
  beforeEach(
    () =>
      new Promise<void>((resolve, reject) => {
        const request = indexedDB.deleteDatabase('contract');
        request.onsuccess = () => resolve();
        request.onerror = () => reject(request.error);
      }),
  );
  it.each(documentCases.map((c) => [c.name, c] as const))('%s', async (_name, { run }) => {
    await run(await createIdbDocuments('contract'), () => createIdbDocuments('contract'));
  });
});
