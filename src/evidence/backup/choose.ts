/** What a choice makes of a plan: the documents to put and the files to write, under the names they will have. */
import type { BackupDocument } from '../../record/backup.ts';
import type { EvidenceDeps } from '../deps.ts';
import { pagesName } from './make.ts';
import type { RestoreChoice } from './messages.ts';
import type { BackupFile } from './open.ts';
import { bodySha, type Put, type Thing } from './plan.ts';

export interface Chosen {
  readonly puts: readonly Put[];
  /** By the name in the store; none of them is there yet. */
  readonly files: ReadonlyMap<string, BackupFile>;
  readonly keptBoth: number;
}

const ID_MOST = 64;

/** Another name for the backup's version, the same each time it is restored. */
async function otherName(deps: EvidenceDeps, thing: Thing): Promise<string> {
  const facts = thing.files.map((f) => f.sha256);
  for (const { document } of thing.puts) facts.push(await bodySha(deps, document.body));
  const mark = (await bodySha(deps, facts)).slice(0, 10);
  return `${thing.id.slice(0, ID_MOST - 12)}-b${mark}`;
}

type Names = ReadonlyMap<string, string>;

/** A job follows its papers: where a packer, resin or sensor is kept under another name, it refers to that. */
function follow(document: BackupDocument, names: Names): BackupDocument {
  if (document.kind !== 'job') return document;
  const body = document.body as {
    packerId: string | null;
    resin: { resinId: string | null };
    device: { channels: readonly { sensorId: string | null }[] };
  };
  const to = (kind: string, id: string | null) => (id === null ? null : (names.get(`${kind}/${id}`) ?? id));
  return {
    ...document,
    body: {
      ...body,
      packerId: to('packer', body.packerId),
      resin: { ...body.resin, resinId: to('resin', body.resin.resinId) },
      device: {
        ...body.device,
        channels: body.device.channels.map((c) => ({ ...c, sensorId: to('sensor', c.sensorId) })),
      },
    },
  };
}

export async function choose(
  deps: EvidenceDeps,
  things: readonly Thing[],
  choice: RestoreChoice,
): Promise<Chosen> {
  const names = new Map<string, string>();
  if (choice.differing === 'both')
    for (const thing of things)
      if (thing.fate === 'differs' && thing.group !== 'settings')
        names.set(`${thing.group}/${thing.id}`, await otherName(deps, thing));
  const puts: Put[] = [];
  const files = new Map<string, BackupFile>();
  let keptBoth = 0;
  for (const thing of things) {
    const { group, id, fate } = thing;
    if (fate === 'refused' || fate === 'same') continue;
    if (group === 'settings') {
      if (fate === 'new' || choice.settings) puts.push(...thing.puts);
      continue;
    }
    if (fate !== 'differs') {
      puts.push(...thing.puts.map((p) => ({ ...p, document: follow(p.document, names) })));
      for (const file of thing.files) files.set(file.name, file);
      continue;
    }
    const name = names.get(`${group}/${id}`);
    if (name === undefined) continue;
    keptBoth++;
    for (const { document } of thing.puts) {
      const renamed = { ...follow(document, names), id: name };
      const body = document.kind === 'run' ? { ...(renamed.body as object), runId: name } : renamed.body;
      puts.push({ document: { ...renamed, body }, over: null });
    }
    for (const file of thing.files) files.set(group === 'run' ? pagesName(name) : file.name, file);
  }
  // What is there already, by an earlier restore or because only a seal was missing, is not written again.
  const here = new Set((await deps.files.list()).map((f) => f.name));
  for (const name of [...files.keys()]) if (here.has(name)) files.delete(name);
  return { puts, files, keptBoth };
}
