/** What a document out of a backup is worth: checked by its kind's rules, older versions brought to today's. */
import { isDocumentKind, parseDocument } from '../../job/documents.ts';
import type { BackupDocument, BackupKind } from '../../record/backup.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { fromHex } from '../../record/hex.ts';
import { parseManifest } from '../../record/manifest.ts';
import { summarise } from '../../record/recovery.ts';
import { sealedOf } from '../../record/seal.ts';
import { importFileName } from '../../record/stores/imports.ts';
import type { RunSummary } from '../../record/types.ts';
import type { EvidenceDeps } from '../deps.ts';
import { pagesName } from './make.ts';
import type { BackupGroup, RefusedWhy } from './messages.ts';
import type { BackupFile } from './open.ts';

export type Checked =
  | { readonly ok: true; readonly document: BackupDocument; readonly title: string }
  | { readonly ok: false; readonly why: RefusedWhy; readonly title: string };

const DAY_MS = 86_400_000;

export const isImport = (id: string): boolean => id.startsWith('import-');

const GROUP: Readonly<Record<BackupKind, BackupGroup>> = {
  job: 'job',
  packer: 'packer',
  resin: 'resin',
  sensor: 'sensor',
  settings: 'settings',
  run: 'run',
  seal: 'run',
  review: 'run',
  key: 'key',
};

export function groupOf({ kind, id }: Pick<BackupDocument, 'kind' | 'id'>): BackupGroup {
  return kind === 'seal' && isImport(id) ? 'import' : GROUP[kind];
}

const titleIn = (body: unknown): string => {
  const b = body as { title?: unknown; name?: unknown } | null;
  const text = b?.title ?? b?.name;
  return typeof text === 'string' ? text.slice(0, 120) : '';
};

/** @param files of the backup, by their name in the store */
export async function checkDocument(
  deps: EvidenceDeps,
  document: BackupDocument,
  files: ReadonlyMap<string, BackupFile>,
): Promise<Checked> {
  const { kind, id, body } = document;
  const title = titleIn(body);
  const refuse = (why: RefusedWhy): Checked => ({ ok: false, why, title });
  if (isDocumentKind(kind)) {
    const parsed = parseDocument(kind, body);
    if (parsed.ok) return { ok: true, document: { ...document, body: parsed.value }, title };
    return refuse(parsed.issues.some((i) => i.code === 'version-future') ? 'future' : 'form');
  }
  if (kind === 'run') return checkRun(document, files.get(pagesName(id)), title);
  if (kind === 'seal' && isImport(id)) {
    const b = body as { sha256?: unknown; runId?: unknown; name?: unknown } | null;
    if (typeof b?.sha256 !== 'string' || id !== `import-${b.sha256}` || typeof b.runId !== 'string')
      return refuse('form');
    const file = files.get(importFileName(b.sha256));
    if (file === undefined) return refuse('file-missing');
    return file.sha256 === b.sha256 ? { ok: true, document, title } : refuse('form');
  }
  if (kind === 'seal') {
    const sealed = sealedOf(body);
    const read = sealed === null ? null : parseManifest(sealed.manifest);
    if (sealed === null || read === null) return refuse('form');
    if (!read.ok) return refuse(read.what === 'version' ? 'future' : 'form');
    const key = fromHex(read.manifest.signer.publicKey)!;
    const good = await deps.crypto.verify(key, sealed.manifest, sealed.signature);
    return good ? { ok: true, document: { ...document, body: sealed }, title } : refuse('signature');
  }
  if (kind === 'review') {
    const b = body as { version?: unknown; lines?: unknown } | null;
    if (typeof b?.version === 'number' && b.version > 1) return refuse('future');
    return b?.version === 1 && Array.isArray(b.lines) ? { ok: true, document, title } : refuse('form');
  }
  return Array.isArray(body) ? { ok: true, document, title } : refuse('form');
}

/** The pages are the truth: what the label says beside its title is made again from them. */
async function checkRun(
  document: BackupDocument,
  file: BackupFile | undefined,
  title: string,
): Promise<Checked> {
  const refuse = (why: RefusedWhy): Checked => ({ ok: false, why, title });
  const label = document.body as Partial<RunSummary> | null;
  if (typeof label !== 'object' || label === null) return refuse('form');
  if (file === undefined) return refuse('file-missing');
  const peakBar = typeof label.peakBar === 'number' ? label.peakBar : null;
  const summary = await summarise(bytesSource(await file.read()), { title, peakBar });
  if (summary === null) return refuse('form');
  if (summary.state === 'open') return refuse('open');
  const sealed = typeof label.sealedUtcMs === 'number' ? { sealedUtcMs: label.sealedUtcMs } : {};
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
    document: { ...document, body: { ...summary, ...timed, ...sealed, runId: document.id } },
    title,
  };
}
