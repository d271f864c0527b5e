/** What a document out of a backup is worth: checked by its kind's rules, older versions brought to today's. */
import { isDocumentKind, parseDocument } from '../../job/documents.ts';
import { keptEnclosedIn } from '../../job/enclosed.ts';
import type { BackupDocument, BackupKind } from '../../record/backup.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { EntryForms } from '../../record/entry-forms.ts';
import { readRun } from '../../record/reader.ts';
import { summarise } from '../../record/recovery.ts';
import { importedIn, importFileName } from '../../record/stores/imports.ts';
import type { RunSummary } from '../../record/types.ts';
import { photoFileName, photoFilesIn } from '../enclosed/kept.ts';
import { reviewIn } from '../reviews.ts';
import type { RefusedWhy } from './messages.ts';
import { namesRun } from './names.ts';
import type { BackupFile } from './open.ts';
import type { RunPages } from './seals.ts';

export type Checked =
  | { readonly ok: true; readonly document: BackupDocument; readonly title: string }
  | { readonly ok: false; readonly why: RefusedWhy; readonly title: string };

const DAY_MS = 86_400_000;

export const isImport = (id: string): boolean => id.startsWith('import-');

const titleIn = (body: unknown): string => {
  const b = body as { title?: unknown; name?: unknown; deviceId?: unknown } | null;
  const text = b?.title ?? b?.name ?? b?.deviceId;
  return typeof text === 'string' ? text.slice(0, 120) : '';
};

/** The kinds whose rules are asked here; a run's own parts, and keys, have theirs elsewhere. */
export type PlainKind = Exclude<BackupKind, 'run' | 'key'>;

/**
 * A document that stands by itself: of a kind with a schema, the note of a kept file, a list of decisions.
 * @param files of the backup, by their name in the store
 */
export function checkDocument(
  kind: PlainKind,
  document: BackupDocument,
  files: ReadonlyMap<string, BackupFile>,
): Checked {
  const { id, body } = document;
  const title = titleIn(body);
  const refuse = (why: RefusedWhy): Checked => ({ ok: false, why, title });
  if (isDocumentKind(kind)) {
    const parsed = parseDocument(kind, body);
    if (parsed.ok) return { ok: true, document: { ...document, body: parsed.value }, title };
    return refuse(parsed.issues.some((i) => i.code === 'version-future') ? 'future' : 'form');
  }
  if (kind === 'review') {
    const version = (body as { version?: unknown } | null)?.version;
    if (typeof version === 'number' && version > 1) return refuse('future');
    const review = reviewIn(body);
    return review === null ? refuse('form') : { ok: true, document: { ...document, body: review }, title };
  }
  if (kind === 'enclosed') {
    const version = (body as { version?: unknown } | null)?.version;
    if (typeof version === 'number' && version > 1) return refuse('future');
    const enclosed = keptEnclosedIn(body);
    if (enclosed === null) return refuse('form');
    for (const name of photoFilesIn(enclosed)) {
      const file = files.get(name);
      if (file === undefined) return refuse('file-missing');
      // Under another's name they would be shown as what they are not.
      if (photoFileName(file.sha256) !== name) return refuse('form');
    }
    return { ok: true, document: { ...document, body: enclosed }, title };
  }
  const facts = importedIn(body);
  if (facts === null || id !== `import-${facts.sha256}`) return refuse('form');
  const file = files.get(importFileName(facts.sha256));
  if (file === undefined) return refuse('file-missing');
  if (file.sha256 !== facts.sha256 || file.size !== facts.bytes) return refuse('form');
  return { ok: true, document: { ...document, body: facts }, title };
}

export type CheckedRun =
  | { readonly ok: true; readonly document: BackupDocument; readonly title: string; readonly pages: RunPages }
  | { readonly ok: false; readonly why: RefusedWhy; readonly title: string };

/** The pages are the truth: what the label says beside its title is made again from them. */
export async function checkRun(document: BackupDocument, file: BackupFile | undefined): Promise<CheckedRun> {
  const title = titleIn(document.body);
  const refuse = (why: RefusedWhy): CheckedRun => ({ ok: false, why, title });
  const label = document.body as Partial<RunSummary> | null;
  if (typeof label !== 'object' || label === null) return refuse('form');
  if (file === undefined) return refuse('file-missing');
  const peakBar = typeof label.peakBar === 'number' ? label.peakBar : null;
  const pages = bytesSource(await file.read());
  const summary = await summarise(pages, { title, peakBar });
  if (summary === null) return refuse('form');
  const forms = new EntryForms();
  await readRun(pages, forms, { chain: false });
  if (forms.findings.length > 0) return refuse('form');
  if (summary.state === 'open') return refuse('open');
  if (!namesRun(document.id, summary.runId)) return refuse('other-run');
  // The watch counted times from other marks than the pages give alone: kept where nothing speaks against it.
  const timed =
    label.readings === summary.readings &&
    Number.isSafeInteger(label.openedUtcMs) &&
    Math.abs(label.openedUtcMs! - summary.openedUtcMs) < DAY_MS &&
    typeof label.seconds === 'number' &&
    Math.abs(label.seconds - summary.seconds) < 60
      ? { openedUtcMs: label.openedUtcMs!, seconds: label.seconds }
      : {};
  return {
    ok: true,
    document: { ...document, body: { ...summary, ...timed, runId: document.id } },
    title,
    pages: { runId: summary.runId, sha256: file.sha256 },
  };
}
