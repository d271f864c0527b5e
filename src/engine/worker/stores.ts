import { createIdbDocuments } from '../../record/stores/idb-documents.ts';
import { createMemoryDocuments } from '../../record/stores/memory-documents.ts';
import { createOpfsStore } from '../../record/stores/opfs.ts';
import { type DocumentStore, type FileStore, StoreError } from '../../record/stores/store.ts';
import { createRefusingStore } from './refusing-store.ts';
import { detailOf } from './request-error.ts';

export interface Stores {
  readonly files: FileStore;
  readonly documents: DocumentStore;
}

/**
 * The tablet's own stores. Where one does not open (a private window) nothing is held up: files are refused with
 * the reason, documents live as long as the worker.
 */
export async function openStores(): Promise<Stores> {
  const [files, documents] = await Promise.all([
    createOpfsStore('runs').catch((cause: unknown) =>
      createRefusingStore(cause instanceof StoreError ? cause.code : 'failed', detailOf(cause)),
    ),
    createIdbDocuments('steadybar').catch(() => createMemoryDocuments()),
  ]);
  return { files, documents };
}
