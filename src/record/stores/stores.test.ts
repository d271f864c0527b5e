import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { createIdbDocuments } from './idb-documents.ts';
import { createMemoryDocuments } from './memory-documents.ts';
import { documentCases } from './testing/document-contract.ts';
import { fileCases } from './testing/file-contract.ts';
import { createLossyStore, createMemoryStore } from './testing/memory.ts';
import { createNodeStore } from './testing/node-files.ts';

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) fs.rmSync(folder, { recursive: true, force: true });
});
function folder(): string {
  const made = fs.mkdtempSync(path.join(os.tmpdir(), 'steadybar-store-'));
  folders.push(made);
  return path.join(made, 'runs');
}

describe.each(fileCases)('file store: $name', ({ run }) => {
  it('memory', async () => {
    const store = createMemoryStore();
    await run(store, async () => store);
  });
  it('lossy, killed instead of restarted', async () => {
    const store = createLossyStore();
    await run(store, async () => store.kill());
  });
  it('Node files', async () => {
    const at = folder();
    await run(createNodeStore(at), async () => createNodeStore(at));
  });
});

describe('lossy store', () => {
  it('keeps the flushed bytes and no other, and its files die with it', async () => {
    const store = createLossyStore();
    const file = await store.open('a');
    file.append(Uint8Array.of(1, 2));
    file.flush();
    file.append(Uint8Array.of(3));
    const never = await store.open('b');
    never.append(Uint8Array.of(9));
    const after = store.kill();
    expect(await after.readAll('a')).toEqual(Uint8Array.of(1, 2));
    expect(await after.readAll('b')).toEqual(new Uint8Array(0));
    expect(() => file.append(Uint8Array.of(4))).toThrow(/closed/);
    await expect(store.list()).rejects.toMatchObject({ code: 'failed' });
  });

  it('undoes a cut that was not flushed', async () => {
    const store = createLossyStore();
    const file = await store.open('a');
    file.append(Uint8Array.of(1, 2));
    file.flush();
    file.truncate(0);
    expect(await store.kill().readAll('a')).toEqual(Uint8Array.of(1, 2));
  });
});

describe('a full store', () => {
  it('refuses the append whole, and takes what fits', async () => {
    const file = await createMemoryStore(4).open('a');
    file.append(Uint8Array.of(1, 2, 3));
    expect(() => file.append(Uint8Array.of(4, 5))).toThrow(expect.objectContaining({ code: 'full' }));
    expect(file.size).toBe(3);
    file.append(Uint8Array.of(4));
    expect(file.read(0, 4)).toEqual(Uint8Array.of(1, 2, 3, 4));
  });

  // /dev/full takes an open and answers every write with ENOSPC (Linux, full(4)).
  it.runIf(fs.existsSync('/dev/full'))('is told by Node files too', async () => {
    const at = folder();
    fs.mkdirSync(at);
    fs.symlinkSync('/dev/full', path.join(at, 'a'));
    const file = await createNodeStore(at).open('a');
    expect(() => file.append(Uint8Array.of(1))).toThrow(expect.objectContaining({ code: 'full' }));
    file.close();
  });
});

describe('Node files', () => {
  it('flush through fsync', async () => {
    const at = folder();
    const file = await createNodeStore(at).open('a');
    const fsync = vi.spyOn(fs, 'fsyncSync');
    file.append(Uint8Array.of(1));
    expect(fsync).not.toHaveBeenCalled();
    file.flush();
    expect(fsync).toHaveBeenCalledTimes(1);
    fsync.mockRestore();
    file.close();
  });

  it('notice a file that was cut behind their back', async () => {
    const at = folder();
    const file = await createNodeStore(at).open('a');
    file.append(Uint8Array.of(1, 2, 3));
    fs.truncateSync(path.join(at, 'a'), 1);
    expect(() => file.read(0, 3)).toThrow(expect.objectContaining({ code: 'corrupt' }));
    file.close();
  });
});

describe.each(documentCases)('document store: $name', ({ run }) => {
  beforeEach(() => {
    vi.stubGlobal('indexedDB', new IDBFactory());
    return () => vi.unstubAllGlobals();
  });
  it('memory', async () => {
    const store = createMemoryDocuments();
    await run(store, async () => store);
  });
  it('IndexedDB', async () => {
    await run(await createIdbDocuments('documents'), () => createIdbDocuments('documents'));
  });
});

describe('IndexedDB documents', () => {
  it('of version 1 keep what they hold, and have parts of the archive’s rows from then on', async () => {
    vi.stubGlobal('indexedDB', new IDBFactory());
    const run = { kind: 'run', id: '5-run', revision: 3, savedUtcMs: 0, body: { a: 1 } } as const;
    await new Promise<void>((resolve, reject) => {
      const opening = indexedDB.open('documents', 1);
      opening.onupgradeneeded = () => {
        const made = opening.result.createObjectStore('documents', { keyPath: ['kind', 'id'] });
        made.createIndex('kind', 'kind');
        made.put(run);
        made.put({ ...run, kind: 'job', id: 'j' });
      };
      opening.onerror = () => reject(opening.error);
      opening.onsuccess = () => {
        opening.result.close();
        resolve();
      };
    });
    const store = await createIdbDocuments('documents');
    expect(await store.list('run')).toEqual([run]);
    expect((await store.list('rows')).map((d) => d.id)).toEqual(['run-5']);
    vi.unstubAllGlobals();
  });

  it('ask the disk at every put', async () => {
    vi.stubGlobal('indexedDB', new IDBFactory());
    const store = await createIdbDocuments('documents');
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction');
    await store.put({ kind: 'job', id: 'a', revision: 0, savedUtcMs: 0, body: null });
    expect(transaction.mock.calls.map((c) => c[2])).toEqual([{ durability: 'strict' }]);
    transaction.mockRestore();
    vi.unstubAllGlobals();
  });
});
