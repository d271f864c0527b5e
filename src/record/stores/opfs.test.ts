import { afterEach, describe, expect, it, vi } from 'vitest';
import { createOpfsStore } from './opfs.ts';
import type { FileStore } from './store.ts';

// What a browser does only now and then: a name that its folder still tells, and whose file can't be had.

const named = (name: string): Error => Object.assign(new Error(`${name} of a file`), { name });
const entry = (name: string, file: () => { size: number }) => ({
  kind: 'file',
  name,
  getFile: async () => file(),
});
const fails = (name: string) => (): never => {
  throw named(name);
};

function storeOver(entries: readonly ReturnType<typeof entry>[]): Promise<FileStore> {
  const folder = {
    async *values() {
      yield* entries;
    },
    async getFileHandle(name: string) {
      return entries.find((e) => e.name === name) ?? fails('NotFoundError')();
    },
  };
  const getDirectory = async () => ({ getDirectoryHandle: async () => folder });
  vi.stubGlobal('navigator', { storage: { getDirectory } });
  return createOpfsStore('runs');
}

afterEach(() => vi.unstubAllGlobals());

describe('a file that goes while the folder is listed', () => {
  const two = [entry('b', () => ({ size: 2 })), entry('a', fails('NotFoundError'))];

  it('is not there, and hides no other', async () => {
    expect(await (await storeOver(two)).list()).toEqual([{ name: 'b', size: 2 }]);
  });

  it('is missing for whoever reads it', async () => {
    const store = await storeOver(two);
    await expect(store.readAll('a')).rejects.toMatchObject({ code: 'missing' });
    await expect(store.source('a')).rejects.toMatchObject({ code: 'missing' });
  });
});

it('a file that is there and cannot be read is no file that is gone', async () => {
  const store = await storeOver([entry('a', fails('NotReadableError')), entry('b', () => ({ size: 2 }))]);
  await expect(store.list()).rejects.toMatchObject({ code: 'corrupt' });
});
