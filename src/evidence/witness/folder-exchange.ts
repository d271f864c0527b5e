/** Checkpoints and cosignatures through the shared folder. What lies there may be anybody's: read in bounds, believed by keys. */
import { storeErrorOf } from '../../record/stores/dom-errors.ts';
import { StoreError } from '../../record/stores/store.ts';
import {
  cosignedText,
  MOST_CONTINUED,
  MOST_EXCHANGE_BYTES,
  publishedText,
  readCosigned,
  readPublished,
} from '../../record/witness/exchange.ts';
import { keyTag } from '../../record/witness/names.ts';
import type { EvidenceDeps } from '../deps.ts';
import { type Folder, MOST_FILES, writeInto } from '../office/folder.ts';
import type { WitnessReport } from './messages.ts';
import type { OwnLog } from './own-log.ts';
import { takeCosigned } from './taking.ts';
import { witness } from './witness.ts';

const PUBLISHED = /^log-([0-9a-f]{16})-(\d{9})\.checkpoint\.json$/;
const COSIGNED = /^log-([0-9a-f]{16})-(\d{9})\.cosigned-([0-9a-f]{16})\.json$/;

const publishedName = (tag: string, size: number): string =>
  `log-${tag}-${String(size).padStart(9, '0')}.checkpoint.json`;
const cosignedName = (tag: string, size: number, by: string): string =>
  `log-${tag}-${String(size).padStart(9, '0')}.cosigned-${by}.json`;

async function namesIn(folder: Folder): Promise<readonly string[]> {
  const names: string[] = [];
  try {
    for await (const { kind, name } of folder.values())
      if (kind === 'file' && names.length < MOST_FILES && (PUBLISHED.test(name) || COSIGNED.test(name)))
        names.push(name);
  } catch (cause) {
    throw storeErrorOf(cause);
  }
  return names.sort();
}

/** null where it can't be read: a file that is still being synced is one of these. */
async function textOf(folder: Folder, name: string): Promise<string | null> {
  try {
    const file = await (await folder.getFileHandle(name)).getFile();
    return file.size > MOST_EXCHANGE_BYTES ? null : await file.text();
  } catch {
    return null;
  }
}

async function lay(deps: EvidenceDeps, folder: Folder, name: string, text: string): Promise<void> {
  try {
    await writeInto(folder, name, new Blob([text]), deps.crypto.hashing);
  } catch (cause) {
    // Another laid one of that name there meanwhile: it says the same or is nobody's.
    if (!(cause instanceof StoreError && cause.code === 'stale')) throw cause;
  }
}

/** Whether anything was noted from this place on but words of witnesses: these alone would go on for ever. */
async function hasNews(log: OwnLog, from: number): Promise<boolean> {
  for await (const { index, leaf } of log.leaves())
    if (index >= from && leaf.leaf !== 'witnessed') return true;
  return false;
}

/** Lays this log's newest checkpoint there. @returns its size; null: it lies there already, or the log is empty */
async function publish(
  deps: EvidenceDeps,
  log: OwnLog,
  folder: Folder,
  names: readonly string[],
): Promise<number | null> {
  const tree = await log.tree();
  const { publicKey } = await log.key();
  const tag = keyTag(deps.crypto.hashing, publicKey);
  const laid = names.flatMap((n) => {
    const m = PUBLISHED.exec(n);
    return m?.[1] === tag ? [Number(m[2])] : [];
  });
  if (laid.includes(tree.size) || !(await hasNews(log, Math.min(tree.size, Math.max(0, ...laid)))))
    return null;
  const earlier = (await log.shown()).filter((n) => n > 0 && n < tree.size).slice(-MOST_CONTINUED);
  const { note, size } = await log.show();
  const now = await log.tree();
  const continues = earlier.map((n) => ({ size: n, path: now.consistency(n, size) }));
  await lay(deps, folder, publishedName(tag, size), publishedText({ note, publicKey, continues }));
  return size;
}

/**
 * One visit to the folder.
 * @param countersign signs what others laid there, where it continues what was seen
 * @throws StoreError where the folder can't be read or written
 */
export async function visitFolder(
  deps: EvidenceDeps,
  log: OwnLog,
  folder: Folder,
  countersign: boolean,
): Promise<WitnessReport> {
  const names = await namesIn(folder);
  const { publicKey, name: origin } = await log.key();
  const tag = keyTag(deps.crypto.hashing, publicKey);
  let taken = 0;
  for (const name of names) {
    const m = COSIGNED.exec(name);
    if (m === null || m[1] !== tag) continue;
    const given = readCosigned((await textOf(folder, name)) ?? '');
    if (given !== null && (await takeCosigned(deps, log, given)) === 'taken') taken++;
  }
  const report = { published: await publish(deps, log, folder, names), taken };
  let cosigned = 0;
  const refused: WitnessReport['refused'][number][] = [];
  // By log and size, as the names sort.
  for (const name of countersign ? names : []) {
    const m = PUBLISHED.exec(name);
    if (m === null || m[1] === tag) continue;
    const given = readPublished((await textOf(folder, name)) ?? '');
    const seen =
      given === null
        ? { outcome: 'form' as const, origin: null, size: null, cosigned: null }
        : await witness(deps, given, origin);
    if (seen.cosigned !== null && given !== null) {
      const by = keyTag(deps.crypto.hashing, seen.cosigned.publicKey);
      const to = cosignedName(keyTag(deps.crypto.hashing, given.publicKey), seen.size!, by);
      if (names.includes(to)) continue;
      await lay(deps, folder, to, cosignedText(seen.cosigned));
      cosigned++;
    } else if (seen.outcome !== 'known' && seen.outcome !== 'own')
      refused.push({ origin: seen.origin ?? name, size: seen.size ?? 0, why: seen.outcome });
  }
  return { ...report, cosigned, refused };
}
