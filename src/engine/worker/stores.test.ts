import { afterEach, describe, expect, it, vi } from 'vitest';
import { StoreError } from '../../record/stores/store.ts';
import { openStores } from './stores.ts';
import { createWebLocks } from './web-locks.ts';

const never = <T>(): Promise<T> => new Promise<T>(() => undefined);

const settings = { kind: 'settings', id: 'tablet', revision: 0, savedUtcMs: 1, body: { a: 1 } } as const;

afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

it('without stores nothing is held up: files are refused with the reason, documents live in memory', async () => {
  // Neither store, as in a private window.
  vi.stubGlobal('indexedDB', undefined);
  const { files, documents, storeFaults } = await openStores();
  const refused = await files.open('run.pages').catch((e: unknown) => e);
  expect(refused).toBeInstanceOf(StoreError);
  expect(await files.list()).toEqual([]);
  expect(await files.room()).toBe(0);
  await documents.put(settings);
  expect((await documents.get('settings', 'tablet'))?.body).toEqual({ a: 1 });
  expect(storeFaults).toEqual({ files: 'failed', documents: 'failed' });
});

/** A browser whose storage takes every question and never answers one. */
function hang(storage: Partial<StorageManager>): void {
  class Asked extends EventTarget {}
  for (const name of [
    'Request',
    'OpenDBRequest',
    'Database',
    'ObjectStore',
    'Index',
    'Cursor',
    'Transaction',
  ])
    vi.stubGlobal(`IDB${name}`, Asked);
  vi.stubGlobal('indexedDB', { open: () => new Asked() });
  vi.stubGlobal('navigator', { storage });
  vi.useFakeTimers();
}

describe('storage that never answers', () => {
  it('is given up after three seconds: the worker starts, and says what cannot be used', async () => {
    hang({ getDirectory: never });
    const started = vi.fn();
    const opening = openStores().finally(started);
    await vi.advanceTimersByTimeAsync(2900);
    expect(started).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(200);
    const { files, documents, storeFaults } = await opening;
    expect(storeFaults).toEqual({ files: 'silent', documents: 'silent' });
    await expect(files.open('a.run')).rejects.toMatchObject({ code: 'silent' });
    await documents.put(settings);
    expect(await documents.list('settings')).toHaveLength(1);
  });

  it('whose folder opens and whose files do not refuses each file, and closes one that comes after all', async () => {
    const late = { close: vi.fn() };
    let give: (handle: unknown) => void = () => undefined;
    const entry = { createSyncAccessHandle: () => new Promise((resolve) => (give = resolve)) };
    const folder = { getFileHandle: async () => entry };
    const root = { getDirectoryHandle: async () => folder };
    hang({ getDirectory: async () => root as never, persisted: never, estimate: never });
    const opening = openStores();
    await vi.advanceTimersByTimeAsync(3100);
    const { files, storeFaults } = await opening;
    expect(storeFaults.files).toBeNull();
    const refused = Promise.all(
      [files.open('a.run'), files.persisted(), files.room()].map((p: Promise<unknown>) =>
        p.catch((e) => e.code),
      ),
    );
    await vi.advanceTimersByTimeAsync(3100);
    expect(await refused).toEqual(['silent', 'silent', 'silent']);
    give(late);
    await vi.advanceTimersByTimeAsync(1);
    expect(late.close).toHaveBeenCalledOnce();
  });
});

describe('a lock', () => {
  /** @param grant called when the browser decides */
  const manager = (grant: (held: (lock: object | null) => unknown) => void) =>
    ({
      request: (_name: string, _how: object, held: (lock: object | null) => unknown) =>
        new Promise(() => grant(held)),
    }) as unknown as LockManager;

  it('is held until it is given back, and null where another tab has it', async () => {
    let kept: unknown;
    const release = await createWebLocks(manager((held) => (kept = held({})))).acquire('run-1');
    const free = vi.fn();
    void (kept as Promise<void>).then(free);
    await Promise.resolve();
    expect(free).not.toHaveBeenCalled();
    release!();
    await kept;
    expect(free).toHaveBeenCalled();
    expect(await createWebLocks(manager((held) => held(null))).acquire('run-1')).toBeNull();
  });

  it('that the browser never speaks of holds nobody up, and is given back if it comes after all', async () => {
    vi.useFakeTimers();
    let held: (lock: object | null) => unknown = () => undefined;
    const asked = createWebLocks(manager((h) => (held = h))).acquire('run-1');
    await vi.advanceTimersByTimeAsync(3100);
    const release = await asked;
    expect(release).toBeTypeOf('function');
    const late = held({}) as Promise<void>;
    release!();
    await late;
  });
});
