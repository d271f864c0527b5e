import { type Accessor, createMemo, createSignal } from 'solid-js';
import { type Documents, type JobDocumentKind, parseDocument } from '../../job/documents.ts';
import { issueText } from '../../words/issues.ts';

/** A document being edited: the draft, what its schema says of it, field by field. */
export interface Form<T> {
  readonly draft: Accessor<T>;
  change(part: Partial<T>): void;
  reset(document: T): void;
  /** Why the field at this dotted path is not taken, in words; null: fine. */
  issue(path: string): string | null;
  readonly ok: Accessor<boolean>;
  readonly dirty: Accessor<boolean>;
  settle(): void;
}

export function createForm<K extends JobDocumentKind>(kind: K, first: Documents[K]): Form<Documents[K]> {
  const [draft, setDraft] = createSignal<Documents[K]>(first);
  const [dirty, setDirty] = createSignal(false);
  const issues = createMemo(() => {
    const parsed = parseDocument(kind, draft());
    return parsed.ok ? [] : parsed.issues;
  });
  return {
    draft,
    change: (part) => {
      setDraft(() => ({ ...draft(), ...part }));
      setDirty(true);
    },
    reset: (document) => {
      setDraft(() => document);
      setDirty(false);
    },
    issue: (path) => {
      const found = issues().find((i) => i.path === path);
      return found === undefined ? null : issueText(found);
    },
    ok: () => issues().length === 0,
    dirty,
    settle: () => setDirty(false),
  };
}
