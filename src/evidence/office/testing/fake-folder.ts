/**
 * A folder in memory that obeys the File System specification as far as it is used: content is swapped in when a
 * writer closes, missing names throw NotFoundError, a withdrawn permission NotAllowedError, a full disk
 * QuotaExceededError, a file exchanged while it is read NotReadableError.
 */
import type { Folder, FolderFile } from '../folder.ts';

const dom = (name: string): DOMException => new DOMException(`the fake throws ${name}`, name);

export interface FakeFolder extends Folder {
  readonly files: Map<string, { bytes: Uint8Array; lastModified: number }>;
  /** What the next calls meet. */
  permission: 'granted' | 'denied' | 'prompt';
  gone: boolean;
  room: number;
  /** Names whose content can't be read just now. */
  readonly locked: Set<string>;
  /** move() is there, is there and refuses, or is not. */
  moving: 'works' | 'refuses' | 'none';
  /** Of what is written so many bytes reach the disk; null: all. */
  keeps: number | null;
  put(name: string, bytes: Uint8Array): void;
}

export function createFakeFolder(name = 'Shared'): FakeFolder {
  let clock = 1000;
  const files: FakeFolder['files'] = new Map();
  const check = (): void => {
    if (fake.permission !== 'granted') throw dom('NotAllowedError');
    if (fake.gone) throw dom('NotFoundError');
  };
  function handle(at: string): FolderFile {
    let mine = at;
    const base = {
      kind: 'file' as const,
      get name() {
        return mine;
      },
      async getFile() {
        check();
        const found = files.get(mine);
        if (found === undefined) throw dom('NotFoundError');
        const blob = new Blob([found.bytes as Uint8Array<ArrayBuffer>]);
        const slice = (from?: number, to?: number): Blob => {
          const part = Blob.prototype.slice.call(blob, from, to);
          const arrayBuffer = async (): Promise<ArrayBuffer> => {
            if (fake.locked.has(mine) || files.get(mine) !== found) throw dom('NotReadableError');
            return Blob.prototype.arrayBuffer.call(part);
          };
          return Object.assign(part, { arrayBuffer });
        };
        return Object.assign(blob, { lastModified: found.lastModified, slice });
      },
      async createWritable() {
        check();
        if (!files.has(mine)) throw dom('NotFoundError');
        let swap = new Uint8Array(0);
        return {
          async write(content: Blob) {
            check();
            const data = new Uint8Array(await content.arrayBuffer());
            if (data.length > fake.room) throw dom('QuotaExceededError');
            const next = new Uint8Array(swap.length + data.length);
            next.set(swap);
            next.set(data, swap.length);
            swap = next;
          },
          async close() {
            check();
            files.set(mine, { bytes: swap.slice(0, fake.keeps ?? swap.length), lastModified: clock++ });
          },
          async abort() {
            swap = new Uint8Array(0);
          },
        };
      },
    };
    if (fake.moving === 'none') return base;
    return Object.assign(base, {
      async move(to: string) {
        check();
        if (fake.moving === 'refuses') throw dom('NotSupportedError');
        const found = files.get(mine);
        if (found === undefined) throw dom('NotFoundError');
        files.delete(mine);
        files.set(to, found);
        mine = to;
      },
    });
  }
  const fake: FakeFolder = {
    name,
    files,
    permission: 'granted',
    gone: false,
    room: Number.POSITIVE_INFINITY,
    locked: new Set(),
    moving: 'works',
    keeps: null,
    put: (at, bytes) => void files.set(at, { bytes, lastModified: clock++ }),
    async *values() {
      check();
      for (const at of [...files.keys()]) yield { kind: 'file', name: at };
      yield { kind: 'directory', name: 'a-folder.zip' };
    },
    async getFileHandle(at, options) {
      check();
      if (/[/\\]/.test(at)) throw new TypeError('not a name');
      if (!files.has(at)) {
        if (options?.create !== true) throw dom('NotFoundError');
        files.set(at, { bytes: new Uint8Array(0), lastModified: clock++ });
      }
      return handle(at);
    },
    async removeEntry(at) {
      check();
      if (!files.delete(at)) throw dom('NotFoundError');
    },
    queryPermission: async () => fake.permission,
  };
  return fake;
}
