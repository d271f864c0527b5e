/**
 * Documents in IndexedDB, one row each. Reading the resting revision and writing the next is one transaction, so
 * that of two tabs one is told 'stale'; a put settles when the disk was asked to keep it (durability 'strict').
 */
import { type DBSchema, type IDBPDatabase, type IDBPObjectStore, openDB } from 'idb';
import { keyOf, nextRevision } from './documents.ts';
import { storeErrorOf } from './dom-errors.ts';
import { partTakenBack, takenBack } from './row-parts.ts';
import { type DocumentKind, type DocumentStore, type StoredDocument, StoreError } from './store.ts';
import { ANSWER_MS, WORK_MS, within } from './within.ts';

interface Schema extends DBSchema {
  documents: { key: [string, string]; value: StoredDocument };
}

/** 2: kinds are read by the range of their keys, without an index, and the archive's rows rest in parts. */
const VERSION = 2;
const STRICT = { durability: 'strict' } as const;

/** Behind every text, as a bound of keys: within a kind, and within the ids that begin alike. */
const LAST = '\uffff';

type Writing = Pick<
  IDBPObjectStore<Schema, ['documents'], 'documents', 'versionchange' | 'readwrite'>,
  'get' | 'put'
>;

/** In the transaction that changes the document. */
async function takeBack(store: Writing, kind: DocumentKind, id: string): Promise<void> {
  const part = partTakenBack(kind, id);
  if (part === null) return;
  const resting = await store.get(keyOf('rows', part));
  await store.put(takenBack(resting ?? null, part));
}

class IdbDocuments implements DocumentStore {
  constructor(private readonly reopen: () => Promise<IDBPDatabase<Schema>>) {}

  private async with<T>(work: (db: IDBPDatabase<Schema>) => Promise<T>): Promise<T> {
    try {
      return await within(WORK_MS, 'the database', this.reopen().then(work));
    } catch (error) {
      throw storeErrorOf(error);
    }
  }

  get(kind: DocumentKind, id: string): Promise<StoredDocument | null> {
    return this.with(async (db) => (await db.get('documents', keyOf(kind, id))) ?? null);
  }

  list(kind: DocumentKind, prefix = ''): Promise<readonly StoredDocument[]> {
    const range = IDBKeyRange.bound(keyOf(kind, prefix), keyOf(kind, prefix + LAST));
    return this.with((db) => db.getAll('documents', range));
  }

  put(document: StoredDocument): Promise<StoredDocument> {
    return this.with(async (db) => {
      const tx = db.transaction('documents', 'readwrite', STRICT);
      // tx.done must have a listener before anything can abort the transaction.
      const done = tx.done.catch((error: unknown) => error);
      try {
        const resting = (await tx.store.get(keyOf(document.kind, document.id))) ?? null;
        const next = nextRevision(resting, document);
        await tx.store.put(next);
        await takeBack(tx.store, document.kind, document.id);
        const failed = await done;
        if (failed !== undefined) throw failed;
        return next;
      } catch (error) {
        try {
          tx.abort();
        } catch {
          // It was over already.
        }
        await done;
        throw error;
      }
    });
  }

  remove(kind: DocumentKind, id: string): Promise<void> {
    return this.with(async (db) => {
      const tx = db.transaction('documents', 'readwrite', STRICT);
      const found = await tx.store.getKey(keyOf(kind, id));
      if (found !== undefined) {
        await tx.store.delete(keyOf(kind, id));
        await takeBack(tx.store, kind, id);
      }
      await tx.done;
      if (found === undefined) throw new StoreError('missing', `no ${kind} ${id}`);
    });
  }
}

/**
 * The documents of this origin under one database name.
 * @throws StoreError 'stale' when a newer version of the program made the database, 'denied' where there is none,
 *   'silent' where it does not answer
 */
export async function createIdbDocuments(name: string): Promise<DocumentStore> {
  let open: Promise<IDBPDatabase<Schema>> | null = null;
  const connect = (): Promise<IDBPDatabase<Schema>> => {
    open ??= openDB<Schema>(name, VERSION, {
      async upgrade(db, from, _to, tx) {
        if (from === 0) {
          db.createObjectStore('documents', { keyPath: ['kind', 'id'] });
          return;
        }
        const store = tx.objectStore('documents');
        (store as unknown as IDBObjectStore).deleteIndex('kind');
        // What was kept before has its parts from now on.
        for (const [kind, id] of await store.getAllKeys()) await takeBack(store, kind as DocumentKind, id);
      },
      // Another tab brings a newer version: let go, or it waits for ever.
      blocking(_now, _wanted, event) {
        open = null;
        (event.target as IDBDatabase | null)?.close();
      },
      // The browser took the connection away (storage cleared, disk fault): the next call opens anew.
      terminated() {
        open = null;
      },
    });
    open.catch(() => {
      open = null;
    });
    return open;
  };
  try {
    await within(ANSWER_MS, 'the database', connect());
  } catch (error) {
    throw storeErrorOf(error);
  }
  return new IdbDocuments(connect);
}
