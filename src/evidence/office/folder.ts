/**
 * A folder of the tablet's own disk that another program may sync with others: written to so that no file is ever
 * half there or exchanged for another, read so that nothing in it can do harm. Works on the part of the File System
 * interface that is named here, which OPFS folders have too.
 */
import { hashOf, type Sha256 } from '../../record/hashing.ts';
import { blobSource } from '../../record/stores/blob-source.ts';
import { storeErrorOf } from '../../record/stores/dom-errors.ts';
import { StoreError } from '../../record/stores/store.ts';

export interface FolderFile {
  readonly kind: 'file';
  readonly name: string;
  getFile(): Promise<Blob & { readonly lastModified: number }>;
  createWritable(): Promise<{
    write(data: Blob): Promise<void>;
    close(): Promise<void>;
    abort(): Promise<void>;
  }>;
  /** Not in every browser, nor for every folder. */
  move?(name: string): Promise<void>;
}

/** Where the folder's handle is kept over restarts. */
export interface HandleStore {
  get(): Promise<Folder | null>;
  set(folder: Folder | null): Promise<void>;
}

export interface Folder {
  readonly name: string;
  values(): AsyncIterable<{ readonly kind: string; readonly name: string }>;
  getFileHandle(name: string, options?: { readonly create?: boolean }): Promise<FolderFile>;
  removeEntry(name: string): Promise<void>;
  queryPermission?(of: { readonly mode: 'readwrite' }): Promise<'granted' | 'denied' | 'prompt'>;
}

export interface Written {
  /** The name that it has in the folder. */
  readonly name: string;
  readonly outcome:
    | 'written'
    | 'already' // the very bytes are there
    | 'beside'; // another file has the name; this one has one of its own
}

/** A name that no file of other content has: it holds the content's own hash. */
export const besideName = (name: string, sha256: string): string =>
  name.replace(/(\.steadybar)?\.zip$/i, (end) => `_beside-${sha256.slice(0, 8)}${end}`);

const partName = (sha256: string): string => `steadybar-${sha256.slice(0, 16)}.part`;

async function guarded<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (cause) {
    throw storeErrorOf(cause);
  }
}

/** What has a name in the folder: nothing, the very bytes, or other ones. A file of another length is not read. */
async function standing(
  folder: Folder,
  name: string,
  { size, sha256 }: { readonly size: number; readonly sha256: string },
  hashing: Sha256,
): Promise<'free' | 'same' | 'other'> {
  try {
    const file = await (await folder.getFileHandle(name)).getFile();
    if (file.size !== size) return 'other';
    return (await hashOf(blobSource(file), hashing)) === sha256 ? 'same' : 'other';
  } catch (cause) {
    const error = storeErrorOf(cause);
    if (error.code === 'missing') return 'free';
    throw error;
  }
}

async function quietly(work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch {
    // The fault before this one is the one to tell.
  }
}

/** Content is swapped in when the writer closes: until then the file is what it was. */
async function fill(handle: FolderFile, content: Blob): Promise<void> {
  const writer = await handle.createWritable();
  try {
    await writer.write(content);
    await writer.close();
  } catch (cause) {
    await quietly(() => writer.abort());
    throw cause;
  }
}

async function put(
  folder: Folder,
  name: string,
  content: Blob,
  sha256: string,
  hashing: Sha256,
): Promise<void> {
  const wanted = { size: content.size, sha256 };
  const check = async (at: string): Promise<void> => {
    if ((await standing(folder, at, wanted, hashing)) !== 'same')
      throw new StoreError('corrupt', `${at} reads back other bytes than were written`);
  };
  const part = partName(sha256);
  const temp = await folder.getFileHandle(part, { create: true });
  let moved = false;
  try {
    if (typeof temp.move === 'function') {
      await fill(temp, content);
      await check(part);
      if ((await standing(folder, name, wanted, hashing)) === 'free') {
        try {
          await temp.move(name);
          moved = true;
        } catch (cause) {
          // Outside the private file system some browsers have the method and refuse it.
          if (storeErrorOf(cause).code === 'full') throw cause;
        }
      }
    }
  } finally {
    if (!moved) await quietly(() => folder.removeEntry(part));
  }
  if (moved) return check(name);
  if ((await standing(folder, name, wanted, hashing)) !== 'free')
    throw new StoreError('stale', `${name} came into the folder meanwhile`);
  const handle = await folder.getFileHandle(name, { create: true });
  try {
    await fill(handle, content);
    await check(name);
  } catch (cause) {
    // Made by us a moment ago, and empty or wrong.
    await quietly(() => folder.removeEntry(name));
    throw cause;
  }
}

/**
 * Writes a file whole or not at all. Another file of that name stays as it is, and this one gets a name that says so.
 * @throws StoreError 'denied' without permission, 'missing' when the folder is gone, 'full', 'corrupt', 'stale'
 */
export function writeInto(folder: Folder, name: string, content: Blob, hashing: Sha256): Promise<Written> {
  return guarded(async () => {
    const sha256 = await hashOf(blobSource(content), hashing);
    const wanted = { size: content.size, sha256 };
    const there = await standing(folder, name, wanted, hashing);
    if (there === 'same') return { name, outcome: 'already' };
    if (there === 'free') {
      await put(folder, name, content, sha256, hashing);
      return { name, outcome: 'written' };
    }
    const other = besideName(name, sha256);
    if ((await standing(folder, other, wanted, hashing)) === 'same')
      return { name: other, outcome: 'already' };
    await put(folder, other, content, sha256, hashing);
    return { name: other, outcome: 'beside' };
  });
}

export interface Seen {
  readonly name: string;
  readonly file: Blob & { readonly lastModified: number };
}

export const MOST_FILES = 2000;

/**
 * The folder's job files, each opened; a file that can't be is given with its fault. By name.
 * @throws StoreError when the folder itself can't be read
 */
export function filesIn(folder: Folder): Promise<{
  readonly files: readonly (Seen | { readonly name: string; readonly fault: StoreError })[];
  readonly more: number;
}> {
  return guarded(async () => {
    const names: string[] = [];
    let more = 0;
    for await (const entry of folder.values()) {
      if (entry.kind !== 'file' || !/\.zip$/i.test(entry.name)) continue;
      if (names.length < MOST_FILES) names.push(entry.name);
      else more++;
    }
    const files: (Seen | { name: string; fault: StoreError })[] = [];
    for (const name of names.sort()) {
      try {
        files.push({ name, file: await (await folder.getFileHandle(name)).getFile() });
      } catch (cause) {
        files.push({ name, fault: storeErrorOf(cause) });
      }
    }
    return { files, more };
  });
}
