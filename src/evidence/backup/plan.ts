/** The plan of a restore: what is new, here already, longer, other, refused. Nothing is written by it. */
import { type BackupDocument, bodyText } from '../../record/backup.ts';
import { toHex } from '../../record/hex.ts';
import { type Sealed, sealedOf } from '../../record/seal.ts';
import { importFileName } from '../../record/stores/imports.ts';
import { unlessMissing } from '../../record/stores/missing.ts';
import type { EvidenceDeps, Tell } from '../deps.ts';
import { pagesName } from './make.ts';
import type { BackupGroup, RefusedWhy, RestoreFate } from './messages.ts';
import type { BackupFile, OpenBackup } from './open.ts';
import { checkDocument, groupOf, isImport } from './things.ts';

/** One thing of the backup: a document, or a run with its pages, seal and statuses. */
export interface Thing {
  readonly group: BackupGroup;
  readonly id: string;
  readonly title: string;
  readonly fate: RestoreFate;
  readonly why: RefusedWhy | null;
  /** Documents with the text of what they would take the place of; null: nothing is there. */
  readonly puts: readonly Put[];
  readonly files: readonly BackupFile[];
}

export interface Put {
  readonly document: BackupDocument;
  /** SHA-256 of the body that rests here now, hex; null: none. */
  readonly over: string | null;
}

const RUN_KINDS = ['run', 'seal', 'review'];

const same = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((v, i) => v === b[i]);

/** How theirs stands to mine, where both only ever grow at their end. */
function growth(mine: readonly string[], theirs: readonly string[]): RestoreFate {
  const common = Math.min(mine.length, theirs.length);
  for (let i = 0; i < common; i++) if (mine[i] !== theirs[i]) return 'differs';
  return theirs.length > mine.length ? 'grows' : 'same';
}

const statements = (s: Sealed): string[] => s.additions.map((a) => bodyText([a.statement]));

function compare(kind: string, mine: unknown, theirs: unknown): RestoreFate {
  if (bodyText(mine) === bodyText(theirs)) return 'same';
  if (kind === 'seal') {
    const [a, b] = [sealedOf(mine), sealedOf(theirs)];
    if (a === null || b === null || !same(a.manifest, b.manifest) || !same(a.signature, b.signature))
      return 'differs';
    return growth(statements(a), statements(b));
  }
  if (kind === 'review') {
    const lines = (v: unknown) => ((v as { lines?: unknown[] } | null)?.lines ?? []).map((l) => bodyText(l));
    return growth(lines(mine), lines(theirs));
  }
  return 'differs';
}

export async function bodySha(deps: EvidenceDeps, body: unknown): Promise<string> {
  return toHex(await deps.crypto.sha256(new TextEncoder().encode(bodyText(body))));
}

/** A list of public facts is merged: what is here stays as it is, what is only there comes before it. */
function merged(id: string, mine: unknown, theirs: unknown): unknown[] {
  const list = (v: unknown): { fingerprint?: unknown }[] =>
    Array.isArray(v) ? v.filter((k) => typeof k === 'object' && k !== null) : [];
  const here = new Set(list(mine).map((k) => k.fingerprint));
  const fresh = list(theirs).filter((k) => typeof k.fingerprint === 'string' && !here.has(k.fingerprint));
  return id === 'history' ? [...fresh, ...list(mine)] : [...list(mine), ...fresh];
}

/** What becomes of a run whose parts fare differently: the fate of the least weight. */
const WEIGHT: Readonly<Record<RestoreFate, number>> = { refused: 0, differs: 1, new: 2, grows: 3, same: 4 };

export async function planOf(deps: EvidenceDeps, backup: OpenBackup, tell: Tell): Promise<readonly Thing[]> {
  const things: Thing[] = [];
  const runs = new Map<string, BackupDocument[]>();
  let done = 0;
  for (const document of backup.documents) {
    await tell(++done / (backup.documents.length + 1));
    if (groupOf(document) === 'run') {
      runs.set(document.id, [...(runs.get(document.id) ?? []), document]);
      continue;
    }
    const checked = await checkDocument(deps, document, backup.files);
    const base = { group: groupOf(document), id: document.id, title: checked.title };
    if (!checked.ok) {
      things.push({ ...base, fate: 'refused', why: checked.why, puts: [], files: [] });
      continue;
    }
    const resting = await deps.documents.get(document.kind, document.id);
    const over = resting === null ? null : await bodySha(deps, resting.body);
    if (document.kind === 'key') {
      const body = merged(document.id, resting?.body, document.body);
      const fate = bodyText(body) === bodyText(resting?.body ?? []) ? 'same' : 'grows';
      things.push({ ...base, fate, why: null, puts: [{ document: { ...document, body }, over }], files: [] });
      continue;
    }
    const fate = resting === null ? 'new' : compare(document.kind, resting.body, checked.document.body);
    const file = isImport(document.id) ? backup.files.get(`${document.id}.zip`) : undefined;
    const puts = [{ document: checked.document, over }];
    things.push({ ...base, fate, why: null, puts, files: file === undefined ? [] : [file] });
  }
  for (const [id, documents] of runs) {
    await tell(done / (backup.documents.length + 1));
    things.push(await planRun(deps, backup, id, documents));
  }
  return things;
}

async function planRun(
  deps: EvidenceDeps,
  backup: OpenBackup,
  id: string,
  documents: readonly BackupDocument[],
): Promise<Thing> {
  const checkedAll = await Promise.all(documents.map((d) => checkDocument(deps, d, backup.files)));
  const title = checkedAll.find((_, i) => documents[i]!.kind === 'run')?.title ?? '';
  const base = { group: 'run', id, title } as const;
  const bad = checkedAll.find((c) => !c.ok);
  if (bad !== undefined && !bad.ok) return { ...base, fate: 'refused', why: bad.why, puts: [], files: [] };
  const puts: Put[] = [];
  const fates: RestoreFate[] = [];
  const files: BackupFile[] = [];
  for (const kind of RUN_KINDS) {
    const checked = checkedAll.find((c) => c.ok && c.document.kind === kind);
    if (checked === undefined || !checked.ok) continue;
    const resting = await deps.documents.get(checked.document.kind, id);
    const over = resting === null ? null : await bodySha(deps, resting.body);
    puts.push({ document: checked.document, over });
    if (kind !== 'run') {
      fates.push(resting === null ? 'new' : compare(kind, resting.body, checked.document.body));
      continue;
    }
    const file = backup.files.get(pagesName(id))!;
    files.push(file);
    const mine = await hashHere(deps, pagesName(id));
    fates.push(mine === null ? 'new' : mine === file.sha256 ? 'same' : 'differs');
  }
  // A seal or a status without its run, here and there, is about a record that nobody has.
  const orphan = files.length === 0 && (await deps.documents.get('run', id)) === null;
  const kept = documents.some((d) => d.kind === 'review') && backup.files.has(importFileName(id));
  if (orphan && !kept && !documents.every((d) => d.kind === 'review'))
    return { ...base, fate: 'refused', why: 'file-missing', puts: [], files: [] };
  const worst = fates.reduce<RestoreFate>((a, b) => (WEIGHT[b] < WEIGHT[a] ? b : a), 'same');
  // What is partly here and only completed is no other run.
  const fate = worst === 'new' && fates.includes('same') ? 'grows' : worst;
  return { ...base, fate, why: null, puts, files };
}

async function hashHere(deps: EvidenceDeps, name: string): Promise<string | null> {
  const bytes = await unlessMissing(() => deps.files.readAll(name));
  return bytes === null ? null : toHex(await deps.crypto.sha256(bytes));
}
