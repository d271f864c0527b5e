import { describe, expect, it } from 'vitest';
import { bytesSource, chunksOf } from '../record/byte-source.ts';
import { keepImport } from '../record/stores/imports.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import type { FileStore } from '../record/stores/store.ts';
import { createMemoryStore } from '../record/stores/testing/memory.ts';
import { createHostBench, createTestLocks, practiceSetup } from './testing/bench.ts';

const open = {
  q: 'open-run',
  jobId: 'job-1',
  title: 'A repair',
  practice: true,
  setup: practiceSetup(),
} as const;

/** A run's file without a list entry: the process died between the two. */
async function orphan() {
  const files = createMemoryStore();
  const b = createHostBench({ files });
  await b.connectRig();
  await b.run(1000);
  const { runId } = await b.ask(open);
  await b.run(2000);
  await b.ask({ q: 'end-run' });
  return { files, documents: createMemoryDocuments(), runId };
}

/** The store with another list(). */
const withList = (files: FileStore, list: FileStore['list']): FileStore =>
  new Proxy(files, {
    get(target, name) {
      if (name === 'list') return list;
      const value: unknown = Reflect.get(target, name);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });

describe('the list of runs at the start', () => {
  it('holds a run that has lost its list entry, though it is asked for before the start is done', async () => {
    const { files, documents, runId } = await orphan();
    // A disk that takes its time: the list must wait for it.
    const slow = withList(files, async () => {
      for (let i = 0; i < 50; i++) await Promise.resolve();
      return files.list();
    });
    const after = createHostBench({ files: slow, documents });
    const started = after.ask({ q: 'start-engine' });
    const listed = after.ask({ q: 'runs' });
    expect((await listed).map((r) => r.runId)).toEqual([runId]);
    expect((await started).open).toEqual([]);
  });

  it('is given though the files cannot be listed', async () => {
    const { files, documents, runId } = await orphan();
    const first = createHostBench({ files, documents });
    await first.ask({ q: 'start-engine' });
    const broken = withList(files, () => Promise.reject(new Error('gone')));
    const after = createHostBench({ files: broken, documents });
    const started = after.ask({ q: 'start-engine' }).catch(() => null);
    expect((await after.ask({ q: 'runs' })).map((r) => r.runId)).toEqual([runId]);
    await started;
  });

  it('is given after three seconds though the start hangs', async () => {
    const { files, documents, runId } = await orphan();
    const first = createHostBench({ files, documents });
    await first.ask({ q: 'start-engine' });
    const hung = withList(files, () => new Promise(() => undefined));
    const after = createHostBench({ files: hung, documents });
    void after.ask({ q: 'start-engine' }, 100).catch(() => null);
    await expect(after.ask({ q: 'runs' }, 2500)).rejects.toThrow('no answer');
    expect((await after.ask({ q: 'runs' }, 4000)).map((r) => r.runId)).toEqual([runId]);
  });
});

describe('bytes of an import that died', () => {
  async function left() {
    const files = createMemoryStore();
    const half = await files.open('import-0a1b.zip');
    half.append(Uint8Array.of(1, 2, 3));
    half.flush();
    half.close();
    return files;
  }
  const names = async (files: FileStore) => (await files.list()).map((f) => f.name);

  it('are gone after the start; a kept file stays', async () => {
    const files = await left();
    const documents = createMemoryDocuments();
    const facts = { sha256: 'cc', runId: 'run-1', name: 'job.zip' };
    await keepImport(files, documents, chunksOf(bytesSource(Uint8Array.of(4))), facts, 1);
    await createHostBench({ files, documents }).ask({ q: 'start-engine' });
    expect(await names(files)).toEqual(['import-cc.zip']);
  });

  it('stay while another tab’s import is under way, or a restore, and go at the next start', async () => {
    for (const name of ['import-0a1b', 'restore']) {
      const files = await left();
      const locks = createTestLocks();
      const release = await locks.acquire(name);
      await createHostBench({ files, locks }).ask({ q: 'start-engine' });
      expect(await names(files), name).toEqual(['import-0a1b.zip']);
      release?.();
      await createHostBench({ files, locks }).ask({ q: 'start-engine' });
      expect(await names(files), name).toEqual([]);
    }
  });

  it('do not keep the engine from starting when they cannot be removed', async () => {
    const files = await left();
    const stuck = new Proxy(files, {
      get(target, name) {
        if (name === 'remove') return () => Promise.reject(new Error('denied'));
        const value: unknown = Reflect.get(target, name);
        return typeof value === 'function' ? value.bind(target) : value;
      },
    });
    expect((await createHostBench({ files: stuck }).ask({ q: 'start-engine' })).open).toEqual([]);
  });
});
