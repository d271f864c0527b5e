/**
 * The archive's list rests in parts, each with the rows of the records whose id begins with the same character, so that thousands
 * of documents need not be read to be listed. A part tells nothing that its documents do not: whatever is put or removed that may
 * change one of its rows takes it back in the same transaction, and whoever lists next makes it up again.
 */
import type { DocumentKind, StoredDocument } from './store.ts';

const [IMPORT, LABEL] = ['import-', 'label-'] as const;

export interface RowPart {
  /** Runs of this installation, or files kept from elsewhere. */
  readonly of: 'run' | 'import';
  /** The first character of the ids: of a run, or of a file's hash. */
  readonly begins: string;
}

const idOf = ({ of, begins }: RowPart): string => `${of}-${begins}`;

/** null: no id of a part. */
export function partIn(id: string): RowPart | null {
  const [, of, begins] = /^(run|import)-(.)$/su.exec(id) ?? [];
  return of === undefined || begins === undefined ? null : { of: of as RowPart['of'], begins };
}

/** The part whose rows a document may change; null: none. */
function partOf(kind: DocumentKind, id: string): RowPart | null {
  const begin = (of: RowPart['of'], name: string): RowPart => ({ of, begins: [...name][0] ?? '' });
  if (kind === 'run') return begin('run', id);
  if (kind === 'seal')
    return id.startsWith(IMPORT) ? begin('import', id.slice(IMPORT.length)) : begin('run', id);
  if (kind !== 'review') return null;
  if (id.startsWith(LABEL)) return begin('import', id.slice(LABEL.length));
  return begin(/^[0-9a-f]{64}$/.test(id) ? 'import' : 'run', id);
}

/** The id of the part's document that a change of this document takes back; null: none. */
export function partTakenBack(kind: DocumentKind, id: string): string | null {
  const part = partOf(kind, id);
  return part === null ? null : idOf(part);
}

/** A part taken back, one revision on: what was made up from before this moment is stale, and is refused. */
export const takenBack = (resting: StoredDocument | null, id: string): StoredDocument => ({
  kind: 'rows',
  id,
  revision: (resting?.revision ?? 0) + 1,
  savedUtcMs: resting?.savedUtcMs ?? 0,
  body: null,
});
