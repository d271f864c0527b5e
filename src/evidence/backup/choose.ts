/** What a choice makes of a plan: the documents to put and the files to write, under the names they will have. */
import type { BackupDocument } from '../../record/backup.ts';
import { type Sealed, sealedOf } from '../../record/seal.ts';
import { withoutAdded } from '../../record/witness/run-proof.ts';
import type { EvidenceDeps } from '../deps.ts';
import { trustOf } from '../signers.ts';
import { bodySha, type Put, type Thing } from './fates.ts';
import { keyPuts } from './keys.ts';
import { pagesName } from './make.ts';
import type { RestoreChoice } from './messages.ts';
import { otherName } from './names.ts';
import type { BackupFile, OpenBackup } from './open.ts';

export interface Chosen {
  readonly puts: readonly Put[];
  /** By the name in the store; none of them is there yet. */
  readonly files: ReadonlyMap<string, BackupFile>;
  readonly keptBoth: number;
}

/** Another name for the backup's version, the same each time it is restored. */
async function nameBeside(deps: EvidenceDeps, thing: Thing, things: readonly Thing[]): Promise<string> {
  const parts = thing.group === 'run' ? things.filter((t) => isPart(t) && t.id === thing.id) : [thing];
  const facts = parts.flatMap((t) => t.files.map((f) => f.sha256));
  for (const { document } of parts.flatMap((t) => t.puts)) facts.push(await bodySha(deps, document.body));
  return otherName(thing.id, await bodySha(deps, facts));
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

/** The seal of a run, its additions and the decisions on it fare as the run does. */
const isPart = ({ group, id }: Thing): boolean =>
  group === 'run' ||
  group === 'seal' ||
  group === 'addition' ||
  (group === 'review' && !/^[0-9a-f]{64}$/.test(id));

/** Kinds of which the backup's version can be kept beside the one here. */
const isKeptBeside = ({ group, fate }: Thing): boolean =>
  fate === 'differs' &&
  ['job', 'packer', 'resin', 'sensor', 'registers', 'columns', 'checklist', 'run'].includes(group);

export async function choose(
  deps: EvidenceDeps,
  backup: OpenBackup,
  things: readonly Thing[],
  choice: RestoreChoice,
): Promise<Chosen> {
  const names = new Map<string, string>();
  if (choice.differing === 'both')
    for (const thing of things)
      if (isKeptBeside(thing)) names.set(`${thing.group}/${thing.id}`, await nameBeside(deps, thing, things));
  const puts: Put[] = [...(await keyPuts(deps, backup, choice))];
  const files = new Map<string, BackupFile>();
  let keptBoth = 0;
  for (const thing of things) {
    const { group, id, fate } = thing;
    if (isPart(thing) || fate === 'refused' || fate === 'same') continue;
    const taken =
      group === 'settings'
        ? fate === 'new' || choice.settings
        : group === 'review'
          ? fate === 'new' || (fate === 'grows' && choice.decisions)
          : fate !== 'differs';
    if (taken) {
      puts.push(...thing.puts.map((p) => ({ ...p, document: follow(p.document, names) })));
      for (const file of thing.files) files.set(file.name, file);
      continue;
    }
    const name = names.get(`${group}/${id}`);
    if (name === undefined) continue;
    keptBoth++;
    for (const { document } of thing.puts)
      puts.push({ document: { ...follow(document, names), id: name }, over: null });
  }
  const allowed = await allowedSigners(deps, choice);
  const runs = new Map<string, Thing[]>();
  for (const t of things) if (isPart(t)) runs.set(t.id, [...(runs.get(t.id) ?? []), t]);
  for (const [id, parts] of runs) {
    const name = names.get(`run/${id}`);
    const took = await chooseRun(deps, { id, parts, name, choice, allowed });
    puts.push(...took.puts);
    for (const [file, from] of took.files) files.set(file, from);
    if (name !== undefined && took.files.size > 0) keptBoth++;
  }
  // What is there already, by an earlier restore or because only a seal was missing, is not written again.
  const here = new Set((await deps.files.list()).map((f) => f.name));
  for (const name of [...files.keys()]) if (here.has(name)) files.delete(name);
  return { puts, files, keptBoth };
}

/** Keys by which something may be added to a record that is here. */
async function allowedSigners(deps: EvidenceDeps, choice: RestoreChoice): Promise<ReadonlySet<string>> {
  return new Set([...(await trustOf(deps.documents)).names.keys(), ...choice.own, ...choice.known]);
}

interface RunParts {
  readonly id: string;
  readonly parts: readonly Thing[];
  /** Under which a run that differs is kept beside the one here. */
  readonly name: string | undefined;
  readonly choice: RestoreChoice;
  readonly allowed: ReadonlySet<string>;
}

async function chooseRun(
  deps: EvidenceDeps,
  { id, parts, name, choice, allowed }: RunParts,
): Promise<{ readonly puts: readonly Put[]; readonly files: ReadonlyMap<string, BackupFile> }> {
  const part = (group: Thing['group']): Thing | undefined =>
    parts.find((p) => p.group === group && p.fate !== 'refused');
  const [run, seal, addition, review] = [part('run'), part('seal'), part('addition'), part('review')];
  const puts: Put[] = [];
  const files = new Map<string, BackupFile>();
  const comes =
    run !== undefined &&
    choice.runs &&
    (run.fate === 'new' || (run.fate === 'differs' && name !== undefined));
  const isHere = run === undefined || run.fate === 'same';
  const place = name ?? id;
  const as = (p: Put, body: unknown = p.document.body): Put => ({
    document: { ...p.document, id: place, body },
    over: name === undefined ? p.over : null,
  });
  const sealed =
    seal !== undefined &&
    choice.seals &&
    ((comes && seal.fate === run.fate) || (isHere && seal.fate === 'new'));
  if (comes) {
    const label = run.puts[0]!;
    const stamp = sealed || seal?.fate === 'same' ? seal.seal?.label : undefined;
    puts.push(as(label, { ...(label.document.body as object), runId: place, ...stamp }));
    for (const file of run.files) files.set(pagesName(place), file);
    if (review?.fate === run.fate) puts.push(as(review.puts[0]!));
  }
  if (review?.fate === 'grows' && choice.decisions) puts.push(as(review.puts[0]!));
  const more = choice.additions ? (addition?.additions ?? []) : [];
  if (sealed) {
    const bare = seal.puts[0]!;
    const body = bare.document.body as Sealed;
    const additions = more.map((a) => a.signed);
    const { hashing } = deps.crypto;
    // What is left out by choice is not to look as if it had been taken away.
    const proof = additions.length > 0 ? body.proof : withoutAdded(hashing, body.proof);
    puts.push(as(bare, { ...body, additions, proof } satisfies Sealed));
  } else if (seal?.fate === 'same' && addition?.fate === 'grows') {
    const until = more.findIndex((a) => !allowed.has(a.fingerprint));
    const taken = until === -1 ? more : more.slice(0, until);
    const mine = sealedOf((await deps.documents.get('seal', id))?.body);
    if (mine !== null && taken.length > 0) {
      const body: Sealed = { ...mine, additions: [...mine.additions, ...taken.map((a) => a.signed)] };
      puts.push(as(seal.puts[0]!, body));
    }
  }
  return { puts, files };
}
