/** The plan of a restore: what is new, here already, longer, other, refused. Nothing is written by it. */
import { type BackupDocument, type BackupKind, bodyText } from '../../record/backup.ts';
import { importFileName } from '../../record/stores/imports.ts';
import type { EvidenceDeps, Tell } from '../deps.ts';
import { photoFilesIn } from '../enclosed/kept.ts';
import { bodySha, enclosedFate, reviewFate, type Thing } from './fates.ts';
import type { BackupGroup, RestoreFate } from './messages.ts';
import type { OpenBackup } from './open.ts';
import { planRun, type RunDocuments } from './plan-run.ts';
import { checkDocument, isImport, type PlainKind } from './things.ts';

const GROUP: Readonly<Record<PlainKind, BackupGroup>> = {
  job: 'job',
  packer: 'packer',
  resin: 'resin',
  sensor: 'sensor',
  registers: 'registers',
  columns: 'columns',
  checklist: 'checklist',
  bench: 'bench',
  settings: 'settings',
  seal: 'import',
  review: 'review',
  enclosed: 'enclosed',
};

/** What belongs to a kept file stands by itself; everything else of these kinds belongs to a run. */
const ofKeptFile = ({ kind, id }: BackupDocument): boolean =>
  (kind === 'seal' && isImport(id)) || (kind === 'review' && /^[0-9a-f]{64}$/.test(id));

const RUN_KINDS: Readonly<Partial<Record<BackupKind, keyof RunDocuments>>> = {
  run: 'run',
  seal: 'seal',
  review: 'review',
};

export async function planOf(deps: EvidenceDeps, backup: OpenBackup, tell: Tell): Promise<readonly Thing[]> {
  const things: Thing[] = [];
  const runs = new Map<string, RunDocuments>();
  const steps = backup.documents.length + 1;
  let done = 0;
  for (const document of backup.documents) {
    await tell(++done / steps);
    const { kind, id } = document;
    const part = RUN_KINDS[kind];
    if (part !== undefined && !ofKeptFile(document)) runs.set(id, { ...runs.get(id), [part]: document });
    else if (kind !== 'run' && kind !== 'key') things.push(await planPlain(deps, backup, kind, document));
  }
  for (const [id, documents] of runs) {
    await tell(done / steps);
    things.push(...(await planRun(deps, backup, id, documents)));
  }
  return things;
}

async function planPlain(
  deps: EvidenceDeps,
  backup: OpenBackup,
  kind: PlainKind,
  document: BackupDocument,
): Promise<Thing> {
  const { id } = document;
  const checked = checkDocument(kind, document, backup.files);
  const base = { group: GROUP[kind], id, title: checked.title };
  if (!checked.ok) return { ...base, fate: 'refused', why: checked.why, puts: [], files: [] };
  const resting = await deps.documents.get(kind, id);
  const over = resting === null ? null : await bodySha(deps, resting.body);
  const puts = [{ document: checked.document, over }];
  const fate = resting === null ? 'new' : plainFate(kind, resting.body, checked.document.body);
  if (kind === 'review') {
    const here = (await deps.documents.get('seal', `import-${id}`)) !== null;
    if (!here && !backup.files.has(importFileName(id)))
      return { ...base, fate: 'refused', why: 'file-missing', puts: [], files: [] };
    // On a file that is here it is another's word about it, new or not.
    return { ...base, fate: fate === 'new' && here ? 'grows' : fate, why: null, puts, files: [] };
  }
  const names =
    kind === 'seal' ? [`${id}.zip`] : kind === 'enclosed' ? photoFilesIn(checked.document.body) : [];
  const files = names.flatMap((name) => backup.files.get(name) ?? []);
  return { ...base, fate, why: null, puts, files };
}

function plainFate(kind: PlainKind, mine: unknown, theirs: unknown): RestoreFate {
  if (bodyText(mine) === bodyText(theirs)) return 'same';
  if (kind === 'enclosed') return enclosedFate(mine, theirs);
  return kind === 'review' ? reviewFate(mine, theirs) : 'differs';
}
