import { beforeAll, describe, expect, it } from 'vitest';
import { bytesSource, chunksOf, readAll } from '../byte-source.ts';
import { addToSealed, type Sealed } from '../seal.ts';
import type { Signer } from '../signing.ts';
import { newSigner, recordCrypto, runPages, sealRun } from '../testing/sealing.ts';
import { importSource, keepImport, listImports, removeImport, sweepImports } from './imports.ts';
import { createMemoryDocuments } from './memory-documents.ts';
import { keepAdditions, keepSealed, loadSealed } from './sealed-store.ts';
import type { DocumentStore, FileStore } from './store.ts';
import { createLossyStore, createMemoryStore } from './testing/memory.ts';

const [AA, BB, CC, DD] = ['a', 'b', 'c', 'd'].map((d) => d.repeat(64)) as [string, string, string, string];
const chunks = (bytes: Uint8Array) => chunksOf(bytesSource(bytes));
const kept = async (files: FileStore, sha256: string) => readAll(await importSource(files, sha256));

describe('a seal at rest', () => {
  let signer: Signer;
  let sealed: Sealed;
  let more: Sealed;
  beforeAll(async () => {
    signer = await newSigner();
    sealed = await sealRun(runPages({ seconds: 2 }), signer);
    more = await addToSealed(sealed, { kind: 'note', body: 'x', utcMs: 1 }, signer, recordCrypto);
  });

  it('is kept once, and grows by additions only', async () => {
    const documents = createMemoryDocuments();
    expect(await loadSealed(documents, 'r')).toBeNull();
    await keepSealed(documents, 'r', sealed, 1);
    await expect(keepSealed(documents, 'r', more, 2)).rejects.toMatchObject({ code: 'stale' });
    await keepAdditions(documents, 'r', more, 3);
    expect(await loadSealed(documents, 'r')).toEqual(more);
    const again = await sealRun(runPages({ seconds: 3 }), signer);
    const forked = await addToSealed(sealed, { kind: 'note', body: 'y', utcMs: 1 }, signer, recordCrypto);
    const longer = await addToSealed(forked, { kind: 'note', body: 'z', utcMs: 1 }, signer, recordCrypto);
    for (const bad of [sealed, more, { ...again, additions: longer.additions }, longer])
      await expect(keepAdditions(documents, 'r', bad, 4)).rejects.toMatchObject({ code: 'stale' });
    await expect(keepAdditions(documents, 's', more, 4)).rejects.toMatchObject({ code: 'missing' });
    expect(await loadSealed(documents, 'r')).toEqual(more);
  });

  it('that is not readable is said to be corrupt', async () => {
    const documents = createMemoryDocuments();
    await documents.put({ kind: 'seal', id: 'r', revision: 0, savedUtcMs: 0, body: { manifest: 'text' } });
    await expect(loadSealed(documents, 'r')).rejects.toMatchObject({ code: 'corrupt' });
  });
});

describe('imported job files', () => {
  const facts = (sha256: string, runId = 'run-1') => ({ sha256, runId, name: '../x.zip' });
  const bytes = Uint8Array.of(1, 2, 3);
  const free = async () => () => undefined;

  it('are kept under their hash: the same one is one, another of the same run stands beside it', async () => {
    const [files, documents] = [createMemoryStore(), createMemoryDocuments()];
    expect(await keepImport(files, documents, chunks(bytes), facts(AA), 5)).toEqual({
      kept: true,
      others: [],
    });
    expect(await keepImport(files, documents, chunks(bytes), facts(AA), 6)).toEqual({
      kept: false,
      why: 'already',
    });
    const second = await keepImport(files, documents, chunks(Uint8Array.of(4)), facts(BB), 7);
    expect(second).toMatchObject({ kept: true, others: [{ sha256: AA, importedUtcMs: 5 }] });
    expect(await kept(files, AA)).toEqual(bytes);
    await removeImport(files, documents, AA);
    expect((await listImports(documents)).map((i) => i.sha256)).toEqual([BB]);
    expect(await sweepImports(files, documents, free)).toEqual([]);
  });

  it('another tab’s running import is not swept, nor one that ends while the sweep looks', async () => {
    const [files, documents] = [createMemoryStore(), createMemoryDocuments()];
    await keepImport(files, documents, chunks(bytes), facts(AA), 1);
    for (const sha256 of [BB, CC, DD]) {
      await keepImport(files, documents, chunks(bytes), facts(sha256), 1);
      await documents.remove('seal', `import-${sha256}`);
    }
    const swept = await sweepImports(files, documents, async (name) => {
      if (name === `import-${BB}`) return null;
      // Its import ended between the first look and the lock.
      if (name === `import-${CC}`) await keepImport(files, documents, chunks(bytes), facts(CC), 2);
      return () => undefined;
    });
    expect(swept).toEqual([`import-${DD}.zip`]);
    expect((await files.list()).map((f) => f.name).sort()).toEqual([
      `import-${AA}.zip`,
      `import-${BB}.zip`,
      `import-${CC}.zip`,
    ]);
    expect(await kept(files, CC)).toEqual(bytes);
  });

  /** Documents of a machine that dies at a given call. */
  function dying(documents: DocumentStore, atCall: { left: number }): DocumentStore {
    const step = <T>(work: () => Promise<T>): Promise<T> => {
      if (atCall.left-- <= 0) return Promise.reject(new Error('dead'));
      return work();
    };
    return {
      get: (k, i) => step(() => documents.get(k, i)),
      list: (k) => step(() => documents.list(k)),
      put: (d) => step(() => documents.put(d)),
      remove: (k, i) => step(() => documents.remove(k, i)),
    };
  }

  it('are there whole or not at all, wherever the machine died', async () => {
    for (let call = 0; call < 5; call++) {
      const documents = createMemoryDocuments();
      const files = createLossyStore();
      const good = await keepImport(files, documents, chunks(bytes), facts(AA), 1);
      expect(good.kept).toBe(true);
      const large = new Uint8Array(5000).fill(call);
      await keepImport(files, dying(documents, { left: call }), chunks(large), facts(BB), 2).catch(
        () => undefined,
      );
      const after = files.kill((unflushed) => Math.floor(unflushed / 2));
      await sweepImports(after, documents, free);
      const names = (await listImports(documents)).map((i) => i.sha256);
      expect(await kept(after, AA)).toEqual(bytes);
      if (names.includes(BB)) expect(await kept(after, BB)).toEqual(large);
      else expect((await after.list()).map((f) => f.name)).toEqual([`import-${AA}.zip`]);
      // And it can be brought in again.
      if (!names.includes(BB))
        expect((await keepImport(after, documents, chunks(large), facts(BB), 3)).kept).toBe(true);
      expect(await kept(after, BB)).toEqual(large);
    }
  });

  it('keep nothing when there is no room', async () => {
    const [files, documents] = [createMemoryStore(2), createMemoryDocuments()];
    await expect(keepImport(files, documents, chunks(bytes), facts(AA), 1)).rejects.toMatchObject({
      code: 'full',
    });
    expect(await listImports(documents)).toEqual([]);
    // The room is given back at once.
    expect(await files.list()).toEqual([]);
    expect((await keepImport(files, documents, chunks(Uint8Array.of(7)), facts(CC), 2)).kept).toBe(true);
  });
});
