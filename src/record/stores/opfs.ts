/**
 * Files in the origin private file system through sync access handles: dedicated workers only. A handle is
 * exclusive, so a file open in another tab is 'busy' here.
 */
import { type ByteSource, fileSource } from '../byte-source.ts';
import { blobSource } from './blob-source.ts';
import { storeErrorOf } from './dom-errors.ts';
import { unlessMissing } from './missing.ts';
import { checkCut, checkName, checkRange } from './names.ts';
import { type AppendFile, type FileStore, StoreError } from './store.ts';
import { ANSWER_MS, WORK_MS, within } from './within.ts';

function guard<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw storeErrorOf(error);
  }
}

async function guarded<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw storeErrorOf(error);
  }
}

class OpfsFile implements AppendFile {
  private length: number;
  private open = true;

  constructor(
    private readonly handle: FileSystemSyncAccessHandle,
    private readonly closed: () => void,
  ) {
    this.length = handle.getSize();
  }

  private check(): void {
    if (!this.open) throw new StoreError('failed', 'the file is closed');
  }

  get size(): number {
    return this.length;
  }

  append(bytes: Uint8Array): void {
    this.check();
    const { handle } = this;
    try {
      let done = 0;
      while (done < bytes.length) {
        const rest = new Uint8Array(
          bytes.buffer as ArrayBuffer,
          bytes.byteOffset + done,
          bytes.length - done,
        );
        const n = handle.write(rest, { at: this.length + done });
        if (n === 0) throw new StoreError('full', 'the file takes no more bytes');
        done += n;
      }
      this.length += bytes.length;
    } catch (error) {
      // Half an append is no append.
      try {
        handle.truncate(this.length);
      } catch {
        // The first fault is the one to tell; the tail is cut at the next opening.
      }
      throw storeErrorOf(error);
    }
  }

  flush(): void {
    this.check();
    guard(() => this.handle.flush());
  }

  truncate(size: number): void {
    this.check();
    checkCut(this.length, size);
    guard(() => this.handle.truncate(size));
    this.length = size;
  }

  read(offset: number, length: number): Uint8Array {
    this.check();
    checkRange(this.length, offset, length);
    const out = new Uint8Array(length);
    const n = guard(() => this.handle.read(out, { at: offset }));
    if (n !== length) throw new StoreError('corrupt', 'the file is shorter than it was');
    return out;
  }

  close(): void {
    if (!this.open) return;
    this.open = false;
    this.closed();
    guard(() => this.handle.close());
  }
}

class OpfsStore implements FileStore {
  private readonly files = new Map<string, OpfsFile>();
  constructor(private readonly folder: FileSystemDirectoryHandle) {}

  async open(name: string): Promise<AppendFile> {
    checkName(name);
    if (this.files.has(name)) throw new StoreError('busy', `${name} is open already`);
    return guarded(async () => {
      const opening = this.folder
        .getFileHandle(name, { create: true })
        .then((entry) => entry.createSyncAccessHandle());
      let handle: FileSystemSyncAccessHandle;
      try {
        handle = await within(ANSWER_MS, `the file ${name}`, opening);
      } catch (error) {
        // A handle that comes after all is nobody's, and would keep everybody out.
        opening.then(
          (late) => late.close(),
          () => undefined,
        );
        throw error;
      }
      const file = new OpfsFile(handle, () => this.files.delete(name));
      this.files.set(name, file);
      return file;
    });
  }

  async list(): Promise<readonly { name: string; size: number }[]> {
    return guarded(async () => {
      const rows: { name: string; size: number }[] = [];
      for await (const entry of this.folder.values()) {
        if (entry.kind !== 'file') continue;
        const mine = this.files.get(entry.name);
        const file =
          mine ?? (await unlessMissing(() => guarded(() => (entry as FileSystemFileHandle).getFile())));
        if (file !== null) rows.push({ name: entry.name, size: file.size });
      }
      return rows.sort((a, b) => (a.name < b.name ? -1 : 1));
    });
  }

  async readAll(name: string): Promise<Uint8Array> {
    checkName(name);
    const mine = this.files.get(name);
    if (mine !== undefined) return mine.read(0, mine.size);
    return guarded(async () => {
      const entry = await this.folder.getFileHandle(name);
      return new Uint8Array(await (await entry.getFile()).arrayBuffer());
    });
  }

  async source(name: string): Promise<ByteSource> {
    checkName(name);
    const mine = this.files.get(name);
    if (mine !== undefined) return fileSource(mine);
    return guarded(async () => blobSource(await (await this.folder.getFileHandle(name)).getFile()));
  }

  async remove(name: string): Promise<void> {
    checkName(name);
    if (this.files.has(name)) throw new StoreError('busy', `${name} is open`);
    return guarded(() => within(WORK_MS, `the file ${name}`, this.folder.removeEntry(name)));
  }

  async room(): Promise<number | null> {
    const { quota, usage } = await guarded(() =>
      within(ANSWER_MS, 'the storage', navigator.storage.estimate()),
    );
    return quota === undefined || usage === undefined ? null : Math.max(0, quota - usage);
  }

  async persisted(): Promise<boolean> {
    return guarded(() => within(ANSWER_MS, 'the storage', navigator.storage.persisted()));
  }
}

/**
 * The store over one folder of the origin's private file system, made when missing.
 * @throws StoreError 'denied' where the browser keeps it back (private windows of some browsers), 'silent' where it
 *   does not answer
 */
export async function createOpfsStore(folder: string): Promise<FileStore> {
  checkName(folder);
  return guarded(async () => {
    const opening = navigator.storage
      .getDirectory()
      .then((root) => root.getDirectoryHandle(folder, { create: true }));
    return new OpfsStore(await within(ANSWER_MS, 'the file store', opening));
  });
}
