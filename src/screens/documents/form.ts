import { type Accessor, createMemo, createSignal } from 'solid-js';
import { type Documents, type JobDocumentKind, parseDocument } from '../../job/documents.ts';
import { valueAt, withValueAt } from '../../job/paths.ts';
import type { DisplayUnits } from '../../words/format.ts';
import { issueText, NUMBER_FIELD } from '../../words/issues.ts';

/** A document being edited: the draft, what its schema says of it, field by field. */
export interface Form<K extends JobDocumentKind> {
  readonly kind: K;
  readonly draft: Accessor<Documents[K]>;
  change(part: Partial<Documents[K]>): void;
  /** What lies at a dotted path; undefined where the way there is not. */
  read(path: string): unknown;
  /** Puts a value at a dotted path whose way is there. */
  write(path: string, value: unknown): void;
  /** Why the field at this dotted path is not taken, in words; null: fine. */
  issue(path: string): string | null;
  readonly ok: Accessor<boolean>;
  /** What is written is used at once; else nothing is before it is saved. */
  readonly inUse: boolean;
}

/** A form that also knows whether it was changed since it was last settled (saved). */
export interface DraftForm<K extends JobDocumentKind> extends Form<K> {
  readonly dirty: Accessor<boolean>;
  settle(): void;
  /** From now on every field that is not taken says so, also those that nobody has filled yet. */
  insist(): void;
}

/** A number that must be typed and was not yet: no schema takes it, so that nothing is saved with it. */
export const EMPTY = Number.NaN;

/** The number of a field; null: none was typed. */
export function typedAt(value: unknown): number | null {
  return typeof value === 'number' && !Number.isNaN(value) ? value : null;
}

/** A form over a document that lies elsewhere; `put` takes every change. */
export function formOver<K extends JobDocumentKind>(
  kind: K,
  draft: Accessor<Documents[K]>,
  put: (document: Documents[K]) => void,
  units: Accessor<DisplayUnits>,
): Form<K> {
  const issues = createMemo(() => {
    const parsed = parseDocument(kind, draft());
    return parsed.ok ? [] : parsed.issues;
  });
  return {
    kind,
    draft,
    change: (part) => put({ ...draft(), ...part }),
    read: (path) => valueAt(draft(), path),
    write: (path, value) => put(withValueAt(draft(), path, value)),
    issue: (path) => {
      if (Number.isNaN(valueAt(draft(), path))) return NUMBER_FIELD.empty;
      const found = issues().find((i) => i.path === path);
      return found === undefined ? null : issueText(found, units());
    },
    ok: () => issues().length === 0,
    inUse: true,
  };
}

/** A form over a draft of its own. A fresh one does not fault what nobody has filled yet, before it is insisted on. */
export function createForm<K extends JobDocumentKind>(
  kind: K,
  first: Documents[K],
  units: Accessor<DisplayUnits>,
  fresh = false,
): DraftForm<K> {
  const [draft, setDraft] = createSignal<Documents[K]>(first);
  const [touched, setTouched] = createSignal<ReadonlySet<string>>(new Set());
  const [insisted, setInsisted] = createSignal(!fresh);
  const [dirty, setDirty] = createSignal(false);
  const put = (document: Documents[K]) => {
    setDraft(() => document);
    setDirty(true);
  };
  const over = formOver(kind, draft, put, units);
  return {
    ...over,
    change: (part) => {
      setTouched((before) => new Set([...before, ...Object.keys(part)]));
      over.change(part);
    },
    write: (path, value) => {
      setTouched((before) => new Set(before).add(path));
      over.write(path, value);
    },
    issue: (path) => (insisted() || touched().has(path) ? over.issue(path) : null),
    inUse: false,
    dirty,
    settle: () => setDirty(false),
    insist: () => setInsisted(true),
  };
}
