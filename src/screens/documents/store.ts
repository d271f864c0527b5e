import type { Documents, JobDocumentKind } from '../../job/documents.ts';
import type { Services } from '../context.ts';

// The validator comes behind the start page, not with it.
const validator = () => import('../../job/documents.ts');

/** A document with what is needed to write it back. `damaged` ones were refused by their schema. */
export interface Kept<T> {
  readonly id: string;
  readonly revision: number;
  readonly savedUtcMs: number;
  readonly document: T;
}

/** All documents of a kind that their schema accepts, newest first; the others are counted, never hidden. */
export async function loadAll<K extends JobDocumentKind>(
  app: Services,
  kind: K,
): Promise<{ readonly kept: readonly Kept<Documents[K]>[]; readonly refused: number }> {
  const [stored, { parseDocument }] = await Promise.all([app.ask({ q: 'documents', kind }), validator()]);
  const kept: Kept<Documents[K]>[] = [];
  let refused = 0;
  for (const s of stored) {
    const parsed = parseDocument(kind, s.body);
    if (parsed.ok)
      kept.push({ id: s.id, revision: s.revision, savedUtcMs: s.savedUtcMs, document: parsed.value });
    else refused++;
  }
  kept.sort((a, b) => b.savedUtcMs - a.savedUtcMs);
  return { kept, refused };
}

export async function loadOne<K extends JobDocumentKind>(
  app: Services,
  kind: K,
  id: string,
): Promise<Kept<Documents[K]> | null> {
  const [s, { parseDocument }] = await Promise.all([app.ask({ q: 'document', kind, id }), validator()]);
  if (s === null) return null;
  const parsed = parseDocument(kind, s.body);
  return parsed.ok
    ? { id: s.id, revision: s.revision, savedUtcMs: s.savedUtcMs, document: parsed.value }
    : null;
}

/** @param revision of the document it was read as; 0 for a new one */
export async function keep<K extends JobDocumentKind>(
  app: Services,
  kind: K,
  id: string,
  revision: number,
  document: Documents[K],
): Promise<Kept<Documents[K]>> {
  const s = await app.ask({
    q: 'put-document',
    document: { kind, id, revision, savedUtcMs: Date.now(), body: document },
  });
  return { id: s.id, revision: s.revision, savedUtcMs: s.savedUtcMs, document };
}

/** A new id: the day for people, random for uniqueness. */
export function newId(prefix: string): string {
  const day = new Date().toISOString().slice(0, 10).replaceAll('-', '');
  const random = [...crypto.getRandomValues(new Uint8Array(5))]
    .map((b) => b.toString(36).padStart(2, '0'))
    .join('')
    .slice(0, 8);
  return `${prefix}-${day}-${random}`;
}
