/**
 * A restore is there whole or not at all. Files are written first, under names that nothing refers to yet and that
 * the journal lists; then one document says that they count; then the documents are put, which can be done again
 * as often as it is broken off. Whoever starts next takes back what does not count, or finishes what does.
 */
import { bodyText, documentLine, readDocuments } from '../record/backup.ts';
import { toHex } from '../record/hex.ts';
import { unlessMissing } from '../record/stores/missing.ts';
import type { DocumentStore, FileStore } from '../record/stores/store.ts';
import type { RunLocks } from './deps.ts';
import { EngineError } from './errors.ts';

export const RESTORE_LOCK = 'restore';
const KIND = 'restore';
const ID = 'journal';
/** The documents of a restore, until they are put. */
export const STAGED = 'restore.docs';

export interface Journal {
  /** 'staging': nothing counts yet. 'counts': what is staged is to be put. */
  readonly state: 'staging' | 'counts';
  /** Names of the files that this restore writes; none of them was there before. */
  readonly files: readonly string[];
  /** By kind and id, SHA-256 of the body that is replaced; null: there was none. */
  readonly over: Readonly<Record<string, string | null>>;
}

interface Stores {
  readonly files: FileStore;
  readonly documents: DocumentStore;
}

const journalOf = (body: unknown): Journal | null => {
  const j = body as Partial<Journal> | null;
  const whole =
    (j?.state === 'staging' || j?.state === 'counts') &&
    Array.isArray(j.files) &&
    typeof j.over === 'object' &&
    j.over !== null;
  return whole ? (j as Journal) : null;
};

export async function writeJournal({ documents }: Stores, journal: Journal, utcMs: number): Promise<void> {
  const resting = await documents.get(KIND, ID);
  await documents.put({
    kind: KIND,
    id: ID,
    revision: resting?.revision ?? 0,
    savedUtcMs: utcMs,
    body: journal,
  });
}

async function removeFile(files: FileStore, name: string): Promise<void> {
  await unlessMissing(() => files.remove(name));
}

async function removeJournal({ documents }: Stores): Promise<void> {
  await unlessMissing(() => documents.remove(KIND, ID));
}

/** Writes one file whole and asks the disk to keep it. */
export async function writeWhole(files: FileStore, name: string, bytes: Uint8Array): Promise<void> {
  const file = await files.open(name);
  try {
    file.truncate(0);
    file.append(bytes);
    file.flush();
  } finally {
    file.close();
  }
}

const shaOf = async (body: unknown): Promise<string> => {
  const bytes = new TextEncoder().encode(bodyText(body));
  return toHex(new Uint8Array(await globalThis.crypto.subtle.digest('SHA-256', bytes)));
};

export const overKey = (kind: string, id: string): string => `${kind}/${id}`;

/** Puts the staged documents; those that rest already are left, those that changed meanwhile are not overwritten. */
async function finish(stores: Stores, journal: Journal): Promise<void> {
  const { files, documents } = stores;
  const staged = readDocuments(new TextDecoder().decode(await files.readAll(STAGED)));
  for (const { kind, id, savedUtcMs, body } of staged.documents) {
    const resting = await documents.get(kind, id);
    const over = journal.over[overKey(kind, id)] ?? null;
    if (resting !== null && (over === null || (await shaOf(resting.body)) !== over)) continue;
    await documents.put({ kind, id, revision: resting?.revision ?? 0, savedUtcMs, body });
  }
  // The journal goes first: staged documents without one are swept, a journal without them would be stuck.
  await removeJournal(stores);
  await removeFile(files, STAGED);
}

/** Takes back everything of a restore that does not count. */
async function takeBack(stores: Stores, journal: Journal): Promise<void> {
  for (const name of [...journal.files, STAGED]) await removeFile(stores.files, name);
  await removeJournal(stores);
}

export type Recovered = 'nothing' | 'taken-back' | 'finished';

/** With the lock held: what a dead restore left is taken back or finished. */
export async function recoverHeld(stores: Stores): Promise<Recovered> {
  const document = await stores.documents.get(KIND, ID);
  const journal = document === null ? null : journalOf(document.body);
  if (journal === null) {
    await removeFile(stores.files, STAGED);
    return 'nothing';
  }
  if (journal.state === 'staging') {
    await takeBack(stores, journal);
    return 'taken-back';
  }
  await finish(stores, journal);
  return 'finished';
}

/**
 * null: a restore is under way in another tab, and nothing of it may be touched.
 * @param then what may only be done while no restore is staged
 */
export async function recoverRestore(
  stores: Stores & { readonly locks: RunLocks },
  then: () => Promise<void> = async () => undefined,
): Promise<Recovered | null> {
  const release = await stores.locks.acquire(RESTORE_LOCK);
  if (release === null) return null;
  try {
    const recovered = await recoverHeld(stores);
    await then();
    return recovered;
  } finally {
    release();
  }
}

export interface Staging {
  readonly files: readonly { readonly name: string; read(): Promise<Uint8Array> }[];
  readonly documents: readonly (Parameters<typeof documentLine>[0] & { readonly over: string | null })[];
}

/**
 * Stages, makes it count, puts. With the lock held. On a fault before it counts everything is taken back, and the
 * fault is thrown.
 * @param step called before each file; throws to cancel
 */
export async function restoreAll(
  stores: Stores,
  staging: Staging,
  utcMs: number,
  step: (done: number) => Promise<void>,
): Promise<void> {
  const over = Object.fromEntries(staging.documents.map((d) => [overKey(d.kind, d.id), d.over]));
  const journal: Journal = { state: 'staging', files: staging.files.map((f) => f.name), over };
  const here = new Set((await stores.files.list()).map((f) => f.name));
  const taken = journal.files.find((name) => here.has(name));
  if (taken !== undefined) throw new EngineError('stale', `${taken} is here already`);
  await writeJournal(stores, journal, utcMs);
  try {
    for (const [i, file] of staging.files.entries()) {
      await step(i);
      await writeWhole(stores.files, file.name, await file.read());
    }
    const lines = staging.documents.map(({ kind, id, savedUtcMs, body }) =>
      documentLine({ kind, id, savedUtcMs, body }),
    );
    await writeWhole(stores.files, STAGED, new TextEncoder().encode(lines.join('')));
    await step(staging.files.length);
    await writeJournal(stores, { ...journal, state: 'counts' }, utcMs);
  } catch (cause) {
    // A store that is gone can take nothing back now; the next start does.
    await takeBack(stores, journal).catch(() => undefined);
    throw cause;
  }
  await finish(stores, { ...journal, state: 'counts' });
}
