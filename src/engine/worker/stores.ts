import { createIdbDocuments } from '../../record/stores/idb-documents.ts';
import { createMemoryDocuments } from '../../record/stores/memory-documents.ts';
import { createOpfsStore } from '../../record/stores/opfs.ts';
import {
  type DocumentStore,
  type FileStore,
  StoreError,
  type StoreErrorCode,
} from '../../record/stores/store.ts';
import { createRefusingStore } from './refusing-store.ts';
import { detailOf } from './request-error.ts';

/** What of the tablet's stores cannot be used, and why; null: it can. */
export interface StoreFaults {
  /** Nothing is recorded. */
  readonly files: StoreErrorCode | null;
  /** What was kept before is not seen, and what is kept now is gone with the page. */
  readonly documents: StoreErrorCode | null;
}

export interface Stores {
  readonly files: FileStore;
  readonly documents: DocumentStore;
  readonly storeFaults: StoreFaults;
}

const codeOf = (cause: unknown): StoreErrorCode => (cause instanceof StoreError ? cause.code : 'failed');

/**
 * The tablet's own stores. Where one does not open (a private window) or does not answer, nothing is held up: files
 * are refused with the reason, documents live as long as the worker, and the faults say so.
 */
export async function openStores(): Promise<Stores> {
  const faults: { -readonly [S in keyof StoreFaults]: StoreFaults[S] } = { files: null, documents: null };
  const [files, documents] = await Promise.all([
    createOpfsStore('runs').catch((cause: unknown) => {
      faults.files = codeOf(cause);
      return createRefusingStore(faults.files, detailOf(cause));
    }),
    createIdbDocuments('steadybar').catch((cause: unknown) => {
      faults.documents = codeOf(cause);
      return createMemoryDocuments();
    }),
  ]);
  return { files, documents, storeFaults: faults };
}
