import type { ByteSource } from '../byte-source.ts';

/**
 * One interface for the places where bytes rest: OPFS in the worker, Node files, memory, and for tests a store
 * that drops everything not flushed. Every failure rejects with a StoreError; nothing is swallowed.
 */

/** An append-only file. */
export interface AppendFile {
  readonly size: number;
  /** Appends at the end; the bytes are at risk until flush() settles. */
  append(bytes: Uint8Array): void;
  /** Asks the disk to keep everything appended so far. */
  flush(): void;
  /** Cuts the file (torn tail of a crash). */
  truncate(size: number): void;
  read(offset: number, length: number): Uint8Array;
  close(): void;
}

export interface FileStore {
  open(name: string): Promise<AppendFile>;
  list(): Promise<readonly { readonly name: string; readonly size: number }[]>;
  readAll(name: string): Promise<Uint8Array>;
  /** The file as it is now, to be read in parts. */
  source(name: string): Promise<ByteSource>;
  remove(name: string): Promise<void>;
  /** Bytes left, null when the platform does not say. */
  room(): Promise<number | null>;
  persisted(): Promise<boolean>;
}

export type DocumentKind =
  | 'job'
  | 'packer'
  | 'resin'
  | 'sensor'
  /** Reading maps: of a bus's registers, of a plain line's columns. */
  | 'registers'
  | 'columns'
  | 'checklist'
  /** What a device was found to be on the bench. */
  | 'bench'
  | 'run'
  | 'settings'
  | 'key'
  | 'review'
  /** Photographs and signatures by hand beside a job or a run; the pictures themselves are files. */
  | 'enclosed'
  | 'seal'
  /** A restore under way: what it writes, and whether it counts. */
  | 'restore'
  /** What speed of a serial line worked, by kind of port. */
  | 'speed'
  /** What a run left behind in the pipe: its packer's last pressure, until it is known to be empty. */
  | 'left'
  /** The order of the day's repairs, as the crew put them. */
  | 'day'
  /** Rows of the archive's list as they were made up last: taken back by every put that may change one (row-parts.ts). */
  | 'rows'
  /** How drills on the practice rig ended, by who played them. */
  | 'practice'
  /** The shared folder: its handle, what was seen, what is still to be written. */
  | 'office'
  /** The witness log of this installation: its leaves, what it signed, what witnesses gave. */
  | 'log'
  /** Logs of others as this installation saw them last, as a witness. */
  | 'witness';

/** Versioned documents by kind and id; put() is durable when it settles and refuses a stale revision. */
export interface DocumentStore {
  get(kind: DocumentKind, id: string): Promise<StoredDocument | null>;
  /** By id. @param prefix only those whose id begins so; left out: all */
  list(kind: DocumentKind, prefix?: string): Promise<readonly StoredDocument[]>;
  put(document: StoredDocument): Promise<StoredDocument>;
  remove(kind: DocumentKind, id: string): Promise<void>;
}

export interface StoredDocument {
  readonly kind: DocumentKind;
  readonly id: string;
  /** Counts up with each put; put() refuses when the stored one is not the one it was read from. */
  readonly revision: number;
  readonly savedUtcMs: number;
  /** Checked by the kind's schema on the way in and on the way out. */
  readonly body: unknown;
}

export type StoreErrorCode =
  | 'full'
  | 'denied'
  | 'busy'
  | 'missing'
  | 'stale'
  | 'corrupt'
  | 'failed'
  /** It has not answered in time; whether it did what was asked is not known. */
  | 'silent';

export class StoreError extends Error {
  override readonly name = 'StoreError';
  constructor(
    readonly code: StoreErrorCode,
    message: string,
  ) {
    super(message);
  }
}
