/** What a restore would do with one run of a backup: its pages, its seal, its additions, the decisions on it. */

import type { BackupDocument } from '../../record/backup.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { sameBytes } from '../../record/bytes.ts';
import { toHex } from '../../record/hex.ts';
import { parseManifest } from '../../record/manifest.ts';
import { summarise } from '../../record/recovery.ts';
import { type Sealed, sealedOf } from '../../record/seal.ts';
import { keyHistory } from '../../record/stores/keys.ts';
import { unlessMissing } from '../../record/stores/missing.ts';
import type { EvidenceDeps } from '../deps.ts';
import { bodySha, growth, type Put, reviewFate, type Thing } from './fates.ts';
import { pagesName } from './make.ts';
import type { RefusedWhy, RestoreFate } from './messages.ts';
import type { OpenBackup } from './open.ts';
import { type CheckedSeal, checkSeal, type RunPages } from './seals.ts';
import { checkDocument, checkRun } from './things.ts';

/** What a backup has of one run. */
export interface RunDocuments {
  readonly run?: BackupDocument;
  readonly seal?: BackupDocument;
  readonly review?: BackupDocument;
}

const sameSeal = (a: Sealed, b: Sealed): boolean =>
  sameBytes(a.manifest, b.manifest) && sameBytes(a.signature, b.signature);
const statements = (s: Sealed): string[] => s.additions.map((a) => toHex(a.statement));

async function bytesHere(deps: EvidenceDeps, id: string) {
  const bytes = await unlessMissing(() => deps.files.readAll(pagesName(id)));
  return bytes === null ? null : { bytes, sha256: toHex(await deps.crypto.sha256(bytes)) };
}

/** Of a run that is here and not in the backup. */
async function pagesHere(here: Awaited<ReturnType<typeof bytesHere>>): Promise<RunPages | null> {
  if (here === null) return null;
  const summary = await summarise(bytesSource(here.bytes), { title: '', peakBar: null });
  return summary === null ? null : { runId: summary.runId, sha256: here.sha256 };
}

/** The pages that a seal which rests here is of, SHA-256, hex. */
function sealedPages(mine: Sealed): string | null {
  const read = parseManifest(mine.manifest);
  return read.ok ? read.manifest.pagesSha256 : null;
}

/** When the label of a run says that its file was handed out: worth no more than any label, and kept as one. */
function sentOf(run: BackupDocument | undefined): number | null {
  const { sentUtcMs } = (run?.body ?? {}) as { readonly sentUtcMs?: unknown };
  return typeof sentUtcMs === 'number' && sentUtcMs > 0 && sentUtcMs <= Number.MAX_SAFE_INTEGER
    ? sentUtcMs
    : null;
}

export async function planRun(
  deps: EvidenceDeps,
  backup: OpenBackup,
  id: string,
  { run, seal, review }: RunDocuments,
): Promise<readonly Thing[]> {
  const here = await bytesHere(deps, id);
  const checked = run === undefined ? null : await checkRun(run, backup.files.get(pagesName(id)));
  const title = checked?.title ?? '';
  const base = { id, title, why: null, puts: [], files: [] } as const;
  const refused = (group: Thing['group'], why: RefusedWhy): Thing => ({
    ...base,
    group,
    fate: 'refused',
    why,
  });
  const put = async (document: BackupDocument): Promise<Put> => {
    const resting = await deps.documents.get(document.kind, id);
    return { document, over: resting === null ? null : await bodySha(deps, resting.body) };
  };
  const pages = checked?.ok === true ? checked.pages : await pagesHere(here);
  const parts = [seal && 'seal', review && 'review'] as const;
  if (pages === null || checked?.ok === false) {
    const why = checked?.ok === false ? checked.why : 'file-missing';
    const groups = run === undefined ? parts.filter((p) => p !== undefined) : (['run'] as const);
    return groups.map((group) => refused(group, why));
  }
  const theirs = seal === undefined ? null : await checkSeal(deps, seal, pages);
  const things: Thing[] = [];
  let fate: RestoreFate = here === null ? 'new' : here.sha256 === pages.sha256 ? 'same' : 'differs';
  const mine = sealedOf((await deps.documents.get('seal', id))?.body);
  // Pages that were lost here come back only as those that were sealed.
  if (here === null && mine !== null && sealedPages(mine) !== pages.sha256) return [refused('run', 'pages')];
  // A run has one seal: with another one it is another record of the same pages.
  if (fate === 'same' && theirs?.ok === true && mine !== null && !sameSeal(mine, theirs.sealed))
    fate = 'differs';
  // A run whose seal speaks against it, or against itself, is no run that somebody sealed, and not one to seal here.
  if (theirs?.ok === false && fate !== 'same') return [refused('run', theirs.why)];
  if (checked?.ok === true)
    things.push({
      ...base,
      group: 'run',
      fate,
      puts: [await put(checked.document)],
      files: [backup.files.get(pagesName(id))!],
    });
  if (theirs?.ok === false) things.push(refused('seal', theirs.why));
  else if (theirs !== null && seal !== undefined)
    things.push(...(await sealThings(deps, base, { fate, seal, theirs, mine, sentUtcMs: sentOf(run), put })));
  if (review !== undefined) {
    const read = checkDocument('review', review, backup.files);
    if (!read.ok) things.push(refused('review', read.why));
    else {
      const resting = (await deps.documents.get('review', id))?.body ?? null;
      // On a record that is here it is another's word about it, new or not.
      const fresh = fate === 'same' ? 'grows' : fate;
      const stands = resting === null || fate === 'differs' ? fresh : reviewFate(resting, read.document.body);
      things.push({ ...base, group: 'review', fate: stands, puts: [await put(read.document)] });
    }
  }
  return things;
}

interface SealFacts {
  /** Of the run. */
  readonly fate: RestoreFate;
  readonly seal: BackupDocument;
  readonly theirs: CheckedSeal & { readonly ok: true };
  readonly mine: Sealed | null;
  readonly sentUtcMs: number | null;
  put(document: BackupDocument): Promise<Put>;
}

async function sealThings(
  deps: EvidenceDeps,
  base: Pick<Thing, 'id' | 'title' | 'why' | 'puts' | 'files'>,
  { fate, seal, theirs, mine, sentUtcMs, put }: SealFacts,
): Promise<readonly Thing[]> {
  const { sealed, manifest, signers } = theirs;
  const { fingerprint } = manifest.signer;
  const bare = await put({ ...seal, body: { ...sealed, additions: [] } satisfies Sealed });
  const facts = {
    fingerprint,
    label: { sealedUtcMs: manifest.sealedUtcMs, ...(sentUtcMs === null ? {} : { sentUtcMs }) },
  };
  const signed = sealed.additions.map((a, i) => ({ signed: a, fingerprint: signers[i]! }));
  const additions = (has: RestoreFate, more: typeof signed): readonly Thing[] =>
    signed.length === 0 ? [] : [{ ...base, group: 'addition', fate: has, additions: more }];
  const whole = { ...base, group: 'seal', seal: facts, puts: [bare] } as const;
  if (fate === 'differs') return [{ ...whole, fate }, ...additions(fate, signed)];
  if (mine !== null) {
    if (!sameSeal(mine, sealed)) return [{ ...whole, fate: 'differs' }];
    const has = growth(statements(mine), statements(sealed));
    return [
      { ...whole, fate: 'same' },
      ...additions(has, has === 'grows' ? signed.slice(mine.additions.length) : []),
    ];
  }
  if (fate === 'new') return [{ ...whole, fate }, ...additions(fate, signed)];
  // The run is here without a seal. Whoever else signed it: it is this tablet's to seal, or nobody's.
  if (!(await keyHistory(deps.documents)).some((k) => k.fingerprint === fingerprint))
    return [{ ...base, group: 'seal', fate: 'refused', why: 'unsealed-here' }];
  return [{ ...whole, fate: 'new' }, ...additions('new', signed)];
}
