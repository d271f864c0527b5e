/** What every DocumentStore does alike: the check of revisions. */
import { type DocumentKind, type StoredDocument, StoreError } from './store.ts';

/**
 * The document as it will rest, one revision on. A new document has revision 0.
 * @throws StoreError 'stale' when what rests is not what this one was read from
 */
export function nextRevision(resting: StoredDocument | null, document: StoredDocument): StoredDocument {
  const at = resting?.revision ?? 0;
  if (document.revision !== at)
    throw new StoreError(
      'stale',
      `${document.kind} ${document.id} is at revision ${at}, not ${document.revision}`,
    );
  return { ...document, revision: at + 1 };
}

export const byId = (a: StoredDocument, b: StoredDocument): number =>
  a.id < b.id ? -1 : a.id > b.id ? 1 : 0;

export const keyOf = (kind: DocumentKind, id: string): [DocumentKind, string] => [kind, id];
