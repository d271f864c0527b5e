import { describe, expect, it } from 'vitest';
import { bytesSource } from '../record/byte-source.ts';
import { contentOf } from '../record/manifest.ts';
import { chainEnd } from '../record/recovery.ts';
import type { FileStore } from '../record/stores/store.ts';
import { createMemoryStore } from '../record/stores/testing/memory.ts';
import { runPages } from '../record/testing/sealing.ts';
import { loadOutline, outlineOf, saveOutline } from './outline.ts';

const RUN = 'run-1';

async function put(files: FileStore, pages: Uint8Array): Promise<void> {
  const file = await files.open(`${RUN}.run`);
  file.truncate(0);
  file.append(pages);
  file.flush();
  file.close();
}

describe('the outline of a closed run', () => {
  it('is shown for its own pages, and costs their tail', async () => {
    const files = createMemoryStore();
    const pages = runPages({ seconds: 200 });
    await put(files, pages);
    await saveOutline(files, RUN, await outlineOf(bytesSource(pages)));
    let read = 0;
    const count = (bytes: Uint8Array): Uint8Array => {
      read += bytes.length;
      return bytes;
    };
    const counting: FileStore = {
      open: (name) => files.open(name),
      list: () => files.list(),
      remove: (name) => files.remove(name),
      room: () => files.room(),
      persisted: () => files.persisted(),
      readAll: async (name) =>
        name === `${RUN}.run` ? count(await files.readAll(name)) : files.readAll(name),
      async source(name) {
        const { size, read: part } = await files.source(name);
        return { size, read: async (at, length) => count(await part(at, length)) };
      },
    };
    expect(await loadOutline(counting, RUN)).toEqual(await outlineOf(bytesSource(pages)));
    expect(pages.length).toBeGreaterThan(3 * read);
    expect(read).toBeGreaterThan(0);
  });

  it('is never that of other pages of the same size', async () => {
    const files = createMemoryStore();
    // The same run with other counts: every length is equal, every hash from the first page on another.
    const pages = runPages({ seconds: 20 });
    const other = runPages({ seconds: 20, head: { software: 'tset' } });
    expect(other.length).toBe(pages.length);
    await put(files, pages);
    await saveOutline(files, RUN, await outlineOf(bytesSource(pages)));
    await put(files, other);
    expect(await loadOutline(files, RUN)).toBeNull();
    await put(files, pages);
    expect(await loadOutline(files, RUN)).toEqual(await outlineOf(bytesSource(pages)));
  });

  it('is not believed where the file does not end with a sound page', async () => {
    const files = createMemoryStore();
    const pages = runPages({ seconds: 20 });
    await put(files, pages);
    await saveOutline(files, RUN, await outlineOf(bytesSource(pages)));
    const torn = pages.slice();
    torn[torn.length - 1]! ^= 1;
    for (const bytes of [torn, pages.slice(0, -8), new Uint8Array(pages.length)]) {
      await put(files, bytes);
      expect(await loadOutline(files, RUN)).toBeNull();
    }
  });
});

describe('the end of a chain', () => {
  it('is the head that the manifest signs', async () => {
    const pages = runPages({ seconds: 20 });
    expect(await chainEnd(bytesSource(pages))).toBe(contentOf(pages)!.content.pages.chainHead);
    expect(await chainEnd(bytesSource(new Uint8Array(0)))).toBeNull();
  });
});
