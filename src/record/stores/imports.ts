/**
 * Job files that came from elsewhere. A file rests under the hash of its bytes, so nothing is ever overwritten and
 * the same file twice is one. The document that names it is written when the bytes are flushed: bytes without a
 * document are what a dead process left, and are swept.
 */
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

function importedOf(document: StoredDocument): Imported | null {
  const body = document.body as Partial<Imported> | null;
  if (!document.id.startsWith(PREFIX) || typeof body !== 'object' || body === null) return null;
  return typeof body.sha256 === 'string' && typeof body.runId === 'string' ? (body as Imported) : null;
}

export async function listImports(documents: DocumentStore): Promise<readonly Imported[]> {
  return (await documents.list('seal')).map(importedOf).filter((i): i is Imported => i !== null);
}

export type ImportOutcome =
  /** Kept; `others` are files of the same run that were here before and stay. */
  | { readonly kept: true; readonly others: readonly Imported[] }
  | { readonly kept: false; readonly why: 'already' };

/** @throws StoreError, after which nothing is kept and what was written is swept at the next start */
export async function keepImport(
  files: FileStore,
  documents: DocumentStore,
  bytes: Uint8Array,
  facts: ImportFacts,
  utcMs: number,
): Promise<ImportOutcome> {
  const id = `${PREFIX}${facts.sha256}`;
  if ((await documents.get('seal', id)) !== null) return { kept: false, why: 'already' };
  const others = (await listImports(documents)).filter((i) => i.runId === facts.runId);
  const file = await files.open(importFileName(facts.sha256));
  try {
    file.truncate(0);
    file.append(bytes);
    file.flush();
  } finally {
    file.close();
  }
  const body: Imported = { ...facts, bytes: bytes.length, importedUtcMs: utcMs };
  await documents.put({ kind: 'seal', id, revision: 0, savedUtcMs: utcMs, body });
  return { kept: true, others };
}

/** @throws StoreError 'missing' when the bytes are gone */
export const readImport = (files: FileStore, sha256: string): Promise<Uint8Array> =>
  files.readAll(importFileName(sha256));

/** Removes the document first: a file without one is swept, a document without a file would be a lie. */
export async function removeImport(
  files: FileStore,
  documents: DocumentStore,
  sha256: string,
): Promise<void> {
  await documents.remove('seal', `${PREFIX}${sha256}`);
  await files.remove(importFileName(sha256));
}

/** At the start: removes what a dead process left half written. Gives the names. */
export async function sweepImports(files: FileStore, documents: DocumentStore): Promise<readonly string[]> {
  const known = new Set((await listImports(documents)).map((i) => importFileName(i.sha256)));
  const left = (await files.list()).map((f) => f.name).filter((n) => n.startsWith(PREFIX) && !known.has(n));
  for (const name of left) await files.remove(name);
  return left;
}
