/**
 * Job files that came from elsewhere. A file rests under the hash of its bytes, so nothing is ever overwritten and
 * the same file twice is one. The document that names it is written when the bytes are flushed: bytes without a
 * document are what a dead process left, and are swept. Whoever writes, removes or sweeps a file holds its lock:
 * a second tab that starts must not take the bytes from under a running import.
 */
import type { ByteSource } from '../byte-source.ts';
import { unlessMissing } from './missing.ts';
import type { DocumentStore, FileStore, StoredDocument } from './store.ts';

export interface ImportFacts {
  /** SHA-256 of the file, hex. */
  readonly sha256: string;
  readonly runId: string;
  /** The file's name as it came, for people only. */
  readonly name: string;
}

export interface Imported extends ImportFacts {
  readonly bytes: number;
  readonly importedUtcMs: number;
}

const PREFIX = 'import-';
export const importFileName = (sha256: string): string => `${PREFIX}${sha256}.zip`;
/** The name of the lock on one file, over all tabs. */
export const importLock = (sha256: string): string => `${PREFIX}${sha256}`;

const shaOfName = (file: string): string | null => /^import-([0-9a-f]+)\.zip$/.exec(file)?.[1] ?? null;

const NAME_MOST = 300;

/** What is kept of an imported file, from wherever it comes; null when it is not that. */
export function importedIn(body: unknown): Imported | null {
  if (typeof body !== 'object' || body === null) return null;
  const { sha256, runId, name, bytes, importedUtcMs } = body as Partial<Record<keyof Imported, unknown>>;
  const whole =
    typeof sha256 === 'string' &&
    /^[0-9a-f]{64}$/.test(sha256) &&
    typeof runId === 'string' &&
    runId.length <= 64 &&
    typeof name === 'string' &&
    name.length <= NAME_MOST &&
    Number.isSafeInteger(bytes) &&
    Number.isSafeInteger(importedUtcMs);
  return whole ? ({ sha256, runId, name, bytes, importedUtcMs } as Imported) : null;
}

function importedOf(document: StoredDocument): Imported | null {
  return document.id.startsWith(PREFIX) ? importedIn(document.body) : null;
}

export async function listImports(documents: DocumentStore): Promise<readonly Imported[]> {
  return importsIn(await documents.list('seal', PREFIX));
}

/** The kept files among documents of the kind 'seal'. */
export const importsIn = (seals: readonly StoredDocument[]): readonly Imported[] =>
  seals.map(importedOf).filter((i): i is Imported => i !== null);

export type ImportOutcome =
  /** Kept; `others` are files of the same run that were here before and stay. */
  | { readonly kept: true; readonly others: readonly Imported[] }
  | { readonly kept: false; readonly why: 'already' };

/**
 * With the file's lock held.
 * @param chunks the file's bytes; where they end with an error nothing is kept
 * @throws StoreError, after which nothing is kept; what the disk can't take back now is swept at the next start
 */
export async function keepImport(
  files: FileStore,
  documents: DocumentStore,
  chunks: AsyncIterable<Uint8Array>,
  facts: ImportFacts,
  utcMs: number,
): Promise<ImportOutcome> {
  const id = `${PREFIX}${facts.sha256}`;
  if ((await documents.get('seal', id)) !== null) return { kept: false, why: 'already' };
  const others = (await listImports(documents)).filter((i) => i.runId === facts.runId);
  const file = await files.open(importFileName(facts.sha256));
  let whole = false;
  let size = 0;
  try {
    file.truncate(0);
    for await (const chunk of chunks) file.append(chunk);
    file.flush();
    size = file.size;
    whole = true;
  } finally {
    file.close();
    // A full disk gets its room back at once.
    if (!whole) await files.remove(importFileName(facts.sha256)).catch(() => undefined);
  }
  const { sha256, runId, name } = facts;
  const body: Imported = { sha256, runId, name: name.slice(0, NAME_MOST), bytes: size, importedUtcMs: utcMs };
  await documents.put({ kind: 'seal', id, revision: 0, savedUtcMs: utcMs, body });
  return { kept: true, others };
}

/** @throws StoreError 'missing' when the bytes are gone */
export const importSource = (files: FileStore, sha256: string): Promise<ByteSource> =>
  files.source(importFileName(sha256));

async function removeFile(files: FileStore, sha256: string): Promise<void> {
  await unlessMissing(() => files.remove(importFileName(sha256)));
}

/** With the file's lock held. The document goes first: a file without one is swept, the reverse would be a lie. */
export async function removeImport(
  files: FileStore,
  documents: DocumentStore,
  sha256: string,
): Promise<void> {
  await documents.remove('seal', `${PREFIX}${sha256}`);
  await removeFile(files, sha256);
}

/**
 * At the start: removes what a dead process left half written. A file whose lock another tab holds is left alone,
 * and whether a document names it is asked with the lock held. Not while a restore is staged: its files have no
 * documents yet.
 * @param acquire a release, or null when another tab holds the name
 * @returns the names of the files removed
 */
export async function sweepImports(
  files: FileStore,
  documents: DocumentStore,
  acquire: (name: string) => Promise<(() => void) | null>,
): Promise<readonly string[]> {
  const swept: string[] = [];
  for (const { name } of await files.list()) {
    const sha256 = shaOfName(name);
    if (sha256 === null || (await documents.get('seal', `${PREFIX}${sha256}`)) !== null) continue;
    const release = await acquire(importLock(sha256));
    if (release === null) continue;
    try {
      if ((await documents.get('seal', `${PREFIX}${sha256}`)) !== null) continue;
      await removeFile(files, sha256);
      swept.push(name);
    } finally {
      release();
    }
  }
  return swept;
}
