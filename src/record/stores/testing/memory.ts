/**
 * Files in memory, for practice, tests and the command line. With `lossy`, kill() forgets what was not flushed:
 * a process that is merely killed leaves its writes to the system and proves nothing about the flush.
 */
import { type ByteSource, bytesSource } from '../../byte-source.ts';
import { checkCut, checkName, checkRange } from '../names.ts';
import { type AppendFile, type FileStore, StoreError } from '../store.ts';

interface Cell {
  bytes: Uint8Array;
  size: number;
  /** What a dead machine would still have. */
  kept: Uint8Array;
  open: boolean;
}

class MemoryFile implements AppendFile {
  constructor(
    private readonly cell: Cell,
    private readonly owner: MemoryStore,
  ) {}
  private alive = true;

  private check(): void {
    if (!this.alive || this.owner.dead) throw new StoreError('failed', 'the file is closed');
  }

  get size(): number {
    return this.cell.size;
  }

  append(bytes: Uint8Array): void {
    this.check();
    this.owner.claim(bytes.length);
    const { cell } = this;
    const need = cell.size + bytes.length;
    if (need > cell.bytes.length) {
      const wider = new Uint8Array(Math.max(need, cell.bytes.length * 2, 1024));
      wider.set(cell.bytes.subarray(0, cell.size));
      cell.bytes = wider;
    }
    cell.bytes.set(bytes, cell.size);
    cell.size = need;
  }

  flush(): void {
    this.check();
    if (this.owner.lossy) this.cell.kept = this.cell.bytes.slice(0, this.cell.size);
  }

  truncate(size: number): void {
    this.check();
    checkCut(this.cell.size, size);
    this.cell.size = size;
  }

  read(offset: number, length: number): Uint8Array {
    this.check();
    checkRange(this.cell.size, offset, length);
    return this.cell.bytes.slice(offset, offset + length);
  }

  close(): void {
    if (this.alive) this.cell.open = false;
    this.alive = false;
  }
}

class MemoryStore implements FileStore {
  dead = false;
  readonly cells = new Map<string, Cell>();

  constructor(
    readonly lossy: boolean,
    private readonly capacity: number | null,
  ) {}

  private used(): number {
    let sum = 0;
    for (const cell of this.cells.values()) sum += cell.size;
    return sum;
  }

  claim(bytes: number): void {
    if (this.capacity !== null && this.used() + bytes > this.capacity)
      throw new StoreError('full', `no room for ${bytes} bytes`);
  }

  private check(): void {
    if (this.dead) throw new StoreError('failed', 'the store is gone');
  }

  private find(name: string): Cell {
    this.check();
    checkName(name);
    const cell = this.cells.get(name);
    if (cell === undefined) throw new StoreError('missing', `no file ${name}`);
    return cell;
  }

  async open(name: string): Promise<AppendFile> {
    this.check();
    checkName(name);
    let cell = this.cells.get(name);
    if (cell?.open) throw new StoreError('busy', `${name} is open already`);
    if (cell === undefined) {
      cell = { bytes: new Uint8Array(0), size: 0, kept: new Uint8Array(0), open: false };
      this.cells.set(name, cell);
    }
    cell.open = true;
    return new MemoryFile(cell, this);
  }

  async list(): Promise<readonly { name: string; size: number }[]> {
    this.check();
    return [...this.cells].map(([name, cell]) => ({ name, size: cell.size })).sort(byName);
  }

  async readAll(name: string): Promise<Uint8Array> {
    const cell = this.find(name);
    return cell.bytes.slice(0, cell.size);
  }

  async source(name: string): Promise<ByteSource> {
    return bytesSource(await this.readAll(name));
  }

  async remove(name: string): Promise<void> {
    if (this.find(name).open) throw new StoreError('busy', `${name} is open`);
    this.cells.delete(name);
  }

  async room(): Promise<number | null> {
    return this.capacity === null ? null : this.capacity - this.used();
  }

  async persisted(): Promise<boolean> {
    return false;
  }
}

const byName = (a: { name: string }, b: { name: string }): number => (a.name < b.name ? -1 : 1);

/** @param capacity bytes that fit before appending fails with 'full'; null: no bound */
export function createMemoryStore(capacity: number | null = null): FileStore {
  return new MemoryStore(false, capacity);
}

export interface LossyStore extends FileStore {
  /**
   * The machine dies: open files are dead, and the store given back holds what was flushed and nothing more, or
   * with `torn` so many of the bytes appended behind it: a disk may have begun to write them.
   */
  kill(torn?: (unflushed: number) => number): LossyStore;
}

class Lossy extends MemoryStore implements LossyStore {
  constructor(private readonly limit: number | null) {
    super(true, limit);
  }

  kill(torn: (unflushed: number) => number = () => 0): LossyStore {
    this.dead = true;
    const after = new Lossy(this.limit);
    for (const [name, cell] of this.cells) {
      const more = Math.max(0, cell.size - cell.kept.length);
      const kept = new Uint8Array(cell.kept.length + torn(more));
      kept.set(cell.kept);
      kept.set(cell.bytes.subarray(cell.kept.length, kept.length), cell.kept.length);
      after.cells.set(name, { bytes: kept, size: kept.length, kept, open: false });
    }
    return after;
  }
}

export function createLossyStore(capacity: number | null = null): LossyStore {
  return new Lossy(capacity);
}
