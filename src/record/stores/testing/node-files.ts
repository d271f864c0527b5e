/** Files of a folder, for Node. flush() is fsync: after it the bytes are the disk's. */

import fs from 'node:fs';
import path from 'node:path';
import type { ByteSource } from '../../byte-source.ts';
import { checkCut, checkName, checkRange } from '../names.ts';
import { type AppendFile, type FileStore, StoreError, type StoreErrorCode } from '../store.ts';

const CODES: Readonly<Record<string, StoreErrorCode>> = {
  ENOSPC: 'full',
  EDQUOT: 'full',
  EFBIG: 'full',
  EACCES: 'denied',
  EPERM: 'denied',
  EROFS: 'denied',
  EISDIR: 'denied',
  EBUSY: 'busy',
  EMFILE: 'busy',
  ENFILE: 'busy',
  ENOENT: 'missing',
  EIO: 'corrupt',
};

function said(error: unknown): StoreError {
  if (error instanceof StoreError) return error;
  const code = (error as { code?: unknown }).code;
  const message = error instanceof Error ? error.message : String(error);
  return new StoreError((typeof code === 'string' ? CODES[code] : undefined) ?? 'failed', message);
}

function guard<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw said(error);
  }
}

class NodeFile implements AppendFile {
  private fd: number | null;
  constructor(
    fd: number,
    private length: number,
    private readonly closed: () => void,
  ) {
    this.fd = fd;
  }

  private get handle(): number {
    if (this.fd === null) throw new StoreError('failed', 'the file is closed');
    return this.fd;
  }

  get size(): number {
    return this.length;
  }

  append(bytes: Uint8Array): void {
    const fd = this.handle;
    try {
      let done = 0;
      while (done < bytes.length)
        done += fs.writeSync(fd, bytes, done, bytes.length - done, this.length + done);
      this.length += bytes.length;
    } catch (error) {
      // Half an append is no append.
      try {
        fs.ftruncateSync(fd, this.length);
      } catch {
        // The first fault is the one to tell; the tail is cut at the next opening.
      }
      throw said(error);
    }
  }

  flush(): void {
    const fd = this.handle;
    guard(() => fs.fsyncSync(fd));
  }

  truncate(size: number): void {
    const fd = this.handle;
    checkCut(this.length, size);
    guard(() => fs.ftruncateSync(fd, size));
    this.length = size;
  }

  read(offset: number, length: number): Uint8Array {
    const fd = this.handle;
    checkRange(this.length, offset, length);
    const out = new Uint8Array(length);
    guard(() => {
      let done = 0;
      while (done < length) {
        const n = fs.readSync(fd, out, done, length - done, offset + done);
        if (n === 0) throw new StoreError('corrupt', 'the file is shorter than it was');
        done += n;
      }
    });
    return out;
  }

  close(): void {
    if (this.fd === null) return;
    const { fd } = this;
    this.fd = null;
    this.closed();
    guard(() => fs.closeSync(fd));
  }
}

class NodeFiles implements FileStore {
  private readonly open_ = new Set<string>();
  constructor(private readonly folder: string) {}

  private at(name: string): string {
    checkName(name);
    return path.join(this.folder, name);
  }

  async open(name: string): Promise<AppendFile> {
    const at = this.at(name);
    if (this.open_.has(name)) throw new StoreError('busy', `${name} is open already`);
    return guard(() => {
      fs.mkdirSync(this.folder, { recursive: true });
      const fresh = !fs.existsSync(at);
      const fd = fs.openSync(at, fs.constants.O_RDWR | fs.constants.O_CREAT, 0o644);
      if (fresh) this.keepFolder();
      this.open_.add(name);
      return new NodeFile(fd, fs.fstatSync(fd).size, () => this.open_.delete(name));
    });
  }

  /** A new name is the folder's to keep, not the file's. Not every system lets a folder be opened. */
  private keepFolder(): void {
    let fd: number;
    try {
      fd = fs.openSync(this.folder, 'r');
    } catch {
      return;
    }
    try {
      fs.fsyncSync(fd);
    } catch {
      // Windows refuses fsync on a folder and keeps names by itself.
    } finally {
      fs.closeSync(fd);
    }
  }

  async list(): Promise<readonly { name: string; size: number }[]> {
    return guard(() => {
      if (!fs.existsSync(this.folder)) return [];
      return fs
        .readdirSync(this.folder, { withFileTypes: true })
        .filter((e) => e.isFile())
        .flatMap((e) => {
          const stat = fs.statSync(path.join(this.folder, e.name), { throwIfNoEntry: false });
          return stat === undefined ? [] : [{ name: e.name, size: stat.size }];
        })
        .sort((a, b) => (a.name < b.name ? -1 : 1));
    });
  }

  async readAll(name: string): Promise<Uint8Array> {
    const at = this.at(name);
    return guard(() => {
      const bytes = fs.readFileSync(at);
      return new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    });
  }

  async source(name: string): Promise<ByteSource> {
    const file = this.at(name);
    // Opened for each read: nobody has to say that he needs it no more.
    return {
      size: guard(() => fs.statSync(file).size),
      read: async (at, length, into = new Uint8Array(length)) =>
        guard(() => {
          const fd = fs.openSync(file, 'r');
          try {
            return into.subarray(0, fs.readSync(fd, into, 0, length, at));
          } finally {
            fs.closeSync(fd);
          }
        }),
    };
  }

  async remove(name: string): Promise<void> {
    const at = this.at(name);
    if (this.open_.has(name)) throw new StoreError('busy', `${name} is open`);
    guard(() => fs.unlinkSync(at));
  }

  async room(): Promise<number | null> {
    return guard(() => {
      if (!fs.existsSync(this.folder)) return null;
      const s = fs.statfsSync(this.folder);
      return s.bavail * s.bsize;
    });
  }

  async persisted(): Promise<boolean> {
    return true;
  }
}

/** A store over one folder, made when first needed. */
export function createNodeStore(folder: string): FileStore {
  return new NodeFiles(folder);
}
