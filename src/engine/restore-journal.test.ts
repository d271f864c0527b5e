import { describe, expect, it } from 'vitest';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import type { DocumentStore, FileStore } from '../record/stores/store.ts';
import { createLossyStore, type LossyStore } from '../record/stores/testing/memory.ts';
import { recoverRestore, restoreAll, type Staging } from './restore-journal.ts';
import { createTestLocks } from './testing/bench.ts';

const staging: Staging = {
  files: ['a.run', 'b.run', 'c.run'].map((name, i) => ({
    name,
    read: async () => new Uint8Array(1000 * (i + 1)).fill(i + 1),
  })),
  documents: [
    ...['a', 'b', 'c'].map((id) => ({ kind: 'run' as const, id, savedUtcMs: 1, body: { id }, over: null })),
    { kind: 'seal' as const, id: 'a', savedUtcMs: 1, body: { bytes: Uint8Array.of(1, 2, 3) }, over: null },
  ],
};

class Died extends Error {}

/** Every call of the stores counts; at the given one the machine dies and nothing answers any more. */
function dying(files: LossyStore, documents: DocumentStore, at: number) {
  let calls = 0;
  const tick = (): void => {
    if (++calls >= at) throw new Died('dead');
  };
  const wrap = <T extends object>(target: T): T =>
    new Proxy(target, {
      get(t, name) {
        const value: unknown = Reflect.get(t, name);
        if (typeof value !== 'function') return value;
        return (...args: unknown[]) => {
          tick();
          const result: unknown = (value as (...a: unknown[]) => unknown).apply(t, args);
          return name === 'open' ? (result as Promise<object>).then(wrap) : result;
        };
      },
    });
  return { files: wrap<FileStore>(files), documents: wrap(documents), calls: () => calls };
}

async function state(files: FileStore, documents: DocumentStore) {
  return {
    files: (await files.list()).map((f) => `${f.name} ${f.size}`),
    runs: (await documents.list('run')).map((d) => d.id),
    seals: (await documents.list('seal')).map((d) => d.body),
    journals: (await documents.list('restore')).length,
  };
}

const NOTHING = { files: [], runs: [], seals: [], journals: 0 };
const ALL = {
  files: ['a.run 1000', 'b.run 2000', 'c.run 3000'],
  runs: ['a', 'b', 'c'],
  seals: [{ bytes: Uint8Array.of(1, 2, 3) }],
  journals: 0,
};

describe('a restore that dies', () => {
  it('at any call leaves all of it or nothing, after the next start; with and without torn writes', async () => {
    const seen = new Set<string>();
    const none = dying(createLossyStore(), createMemoryDocuments(), Number.POSITIVE_INFINITY);
    await restoreAll(none, staging, 1, async () => undefined);
    const calls = none.calls();
    expect(calls).toBeGreaterThan(20);
    for (let at = 1; at <= calls; at++)
      for (const torn of [0, 0.5, 1]) {
        const files = createLossyStore();
        const documents = createMemoryDocuments();
        const d = dying(files, documents, at);
        await expect(restoreAll(d, staging, 1, async () => undefined)).rejects.toThrow(Died);
        const after = files.kill((n) => Math.floor(n * torn));
        const recovered = await recoverRestore({ files: after, documents, locks: createTestLocks() });
        const found = await state(after, documents);
        expect([NOTHING, ALL], `call ${at}: ${recovered}`).toContainEqual(found);
        seen.add(found.runs.length === 0 ? 'nothing' : 'all');
        // And a second start changes nothing.
        await recoverRestore({ files: after, documents, locks: createTestLocks() });
        expect(await state(after, documents)).toEqual(found);
      }
    expect([...seen].sort()).toEqual(['all', 'nothing']);
  });

  it('dies again while it is recovered', async () => {
    for (let at = 18; at < 60; at++)
      for (let again = 1; again < 16; again++) {
        const files = createLossyStore();
        const documents = createMemoryDocuments();
        await restoreAll(dying(files, documents, at), staging, 1, async () => undefined).catch(
          () => undefined,
        );
        const second = files.kill();
        const d = dying(second, documents, again);
        await recoverRestore({ ...d, locks: createTestLocks() }).catch(() => undefined);
        const third = second.kill();
        await recoverRestore({ files: third, documents, locks: createTestLocks() });
        expect([NOTHING, ALL]).toContainEqual(await state(third, documents));
      }
  });

  it('is not touched while another tab is at it', async () => {
    const locks = createTestLocks();
    const release = await locks.acquire('restore');
    expect(
      await recoverRestore({ files: createLossyStore(), documents: createMemoryDocuments(), locks }),
    ).toBeNull();
    release?.();
  });
});

describe('a restore that fails', () => {
  it('on a full disk or cancelled takes everything back', async () => {
    for (const fault of ['full', 'cancelled']) {
      const files = createLossyStore(fault === 'full' ? 3500 : null);
      const documents = createMemoryDocuments();
      const step = async (i: number): Promise<void> => {
        if (fault === 'cancelled' && i === 2) throw new Error('cancelled');
      };
      await expect(restoreAll({ files, documents }, staging, 1, step)).rejects.toThrow(
        fault === 'full' ? /no room/ : /cancelled/,
      );
      expect(await state(files, documents)).toEqual(NOTHING);
    }
  });

  it('overwrites neither a file nor a document that came meanwhile', async () => {
    const files = createLossyStore();
    const documents = createMemoryDocuments();
    const mine = await files.open('b.run');
    mine.append(Uint8Array.of(9));
    mine.flush();
    mine.close();
    await expect(restoreAll({ files, documents }, staging, 1, async () => undefined)).rejects.toMatchObject({
      code: 'stale',
    });
    expect(await files.readAll('b.run')).toEqual(Uint8Array.of(9));
    await files.remove('b.run');
    await documents.put({ kind: 'run', id: 'a', revision: 0, savedUtcMs: 5, body: { mine: true } });
    await restoreAll({ files, documents }, staging, 1, async () => undefined);
    expect((await documents.get('run', 'a'))?.body).toEqual({ mine: true });
    expect((await documents.get('run', 'b'))?.body).toEqual({ id: 'b' });
  });
});
