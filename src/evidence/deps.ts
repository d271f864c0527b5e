import type { RunLocks } from '../engine/deps.ts';
import type { Tell } from '../engine/worker/answers.ts';
import type { RecordCrypto } from '../record/signing.ts';
import type { DocumentStore, FileStore } from '../record/stores/store.ts';
import type { CatalogueOf } from '../words/catalogue.ts';
import type { Reduce } from './enclosed/reduce.ts';
import type { FromEvidence } from './messages.ts';
import type { HandleStore } from './office/folder.ts';
import type { PieceContract } from './pieces/order.ts';
import type { Pool } from './pieces/pool.ts';

export type { Tell };

/** Everything of the platform that the evidence worker uses; a test gives its own. */
export interface EvidenceDeps {
  utcMs(): number;
  /** Lets other messages in between slices of long work. */
  pause(): Promise<void>;
  readonly files: FileStore;
  readonly documents: DocumentStore;
  readonly locks: RunLocks;
  readonly subtle: SubtleCrypto;
  readonly crypto: RecordCrypto;
  post(message: FromEvidence): void;
  /** Where the shared folder's handle is kept; among the documents unless told otherwise. */
  readonly handles?: HandleStore;
  /** Words in the language that a record or a request names. */
  readonly catalogueOf: CatalogueOf;
  /** Makes photographs small; left out where there is no canvas. */
  readonly reduce?: Reduce;
  /** Workers for pieces of a run; null or left out: there is none but this. */
  openPool?(): Pool<PieceContract> | null;
  /** Name and version of the program, kept in each record. */
  readonly software: string;
}
