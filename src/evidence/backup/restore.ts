/** Looking into a backup and restoring it, behind the evidence worker's requests. */

import { RESTORE_LOCK, recoverHeld, restoreAll } from '../../engine/restore-journal.ts';
import { createRunList } from '../../engine/run-list.ts';
import { manifestBytes } from '../../record/backup.ts';
import { toHex } from '../../record/hex.ts';
import { loadSigner } from '../../record/stores/keys.ts';
import type { EvidenceDeps, Tell } from '../deps.ts';
import { EvidenceError } from '../faults.ts';
import { signerFor } from '../signers.ts';
import { choose } from './choose.ts';
import type { Thing } from './fates.ts';
import { keysOf } from './keys.ts';
import {
  BACKUP_GROUPS,
  type BackupKey,
  PLAIN_CHOICE,
  RESTORE_FATES,
  type RestoreChoice,
  type RestoreDone,
  type RestoreSummary,
} from './messages.ts';
import { openBackup } from './open.ts';
import { planOf } from './plan.ts';

const MOST_LINES = 300;

async function locked<T>(deps: EvidenceDeps, work: () => Promise<T>): Promise<T> {
  const release = await deps.locks.acquire(RESTORE_LOCK);
  if (release === null) throw new EvidenceError('run-locked', 'a restore is under way in another tab');
  try {
    return await work();
  } finally {
    release();
  }
}

async function tokenOf(
  deps: EvidenceDeps,
  sums: string,
  things: readonly Thing[],
  keys: readonly BackupKey[],
): Promise<string> {
  const facts = things.map(({ group, id, fate, puts }) => [group, id, fate, ...puts.map((p) => p.over)]);
  const text = JSON.stringify([sums, facts, keys]);
  return toHex(await deps.crypto.sha256(new TextEncoder().encode(text)));
}

/** What restoring this file would do. Nothing is written. */
export function lookInto(deps: EvidenceDeps, file: Blob, tell: Tell): Promise<RestoreSummary> {
  return locked(deps, async () => {
    await recoverHeld(deps);
    const backup = await openBackup(deps, file, (share) => tell(share / 2));
    const things = await planOf(deps, backup, (share) => tell(0.5 + share / 2));
    const counts = Object.fromEntries(
      BACKUP_GROUPS.map((g) => [
        g,
        Object.fromEntries(
          RESTORE_FATES.map((f) => [f, things.filter((t) => t.group === g && t.fate === f).length]),
        ),
      ]),
    ) as RestoreSummary['counts'];
    const keys = await keysOf(deps, backup, things);
    const written = await choose(deps, backup, things, { ...PLAIN_CHOICE, differing: 'both' });
    return {
      token: await tokenOf(deps, backup.manifest.sumsSha256, things, keys),
      madeUtcMs: backup.manifest.madeUtcMs,
      software: backup.manifest.software,
      counts,
      lines: things
        .filter((t) => t.fate === 'differs' || t.fate === 'refused')
        .slice(0, MOST_LINES)
        .map(({ group, id, title, fate, why }) => ({ group, id, title, fate, why })),
      strangeLines: backup.strange,
      leftOut: backup.manifest.leftOut.length,
      bytes: [...written.files.values()].reduce((s, f) => s + f.size, 0),
      room: await deps.files.room().catch(() => null),
      keyThere: backup.manifest.key,
      keys,
      keyHere: (await loadSigner(deps.documents, deps.subtle)).state === 'ready',
    };
  });
}

/** A run under way needs the disk and the processor for itself. */
async function refuseWhileRunning(deps: EvidenceDeps): Promise<void> {
  for (const run of await createRunList(deps.documents, deps.files, deps.utcMs).list()) {
    if (run.state !== 'open') continue;
    const release = await deps.locks.acquire(`run-${run.runId}`);
    if (release === null) throw new EvidenceError('run-open', 'a run is under way');
    release();
  }
}

/**
 * @returns with the SHA-256 of the backup's manifest
 * @throws EvidenceError 'stale' when the backup or what is here is not what the summary was made of
 */
export function restoreFrom(
  deps: EvidenceDeps,
  file: Blob,
  token: string,
  choice: RestoreChoice,
  tell: Tell,
): Promise<RestoreDone & { readonly sha256: string }> {
  return locked(deps, async () => {
    await refuseWhileRunning(deps);
    await recoverHeld(deps);
    const backup = await openBackup(deps, file, (share) => tell(share / 3));
    const things = await planOf(deps, backup, (share) => tell((1 + share) / 3));
    const keys = await keysOf(deps, backup, things);
    if ((await tokenOf(deps, backup.manifest.sumsSha256, things, keys)) !== token)
      throw new EvidenceError('stale', 'the tablet’s documents changed since the summary was made');
    const chosen = await choose(deps, backup, things, choice);
    const files = [...chosen.files].map(([name, f]) => ({ name, size: f.size, read: () => f.read() }));
    const total = files.reduce((s, f) => s + f.size, 1);
    const before = files.map((_, i) => files.slice(0, i).reduce((s, f) => s + f.size, 0));
    const documents = chosen.puts.map(({ document, over }) => ({ ...document, over }));
    await restoreAll(deps, { files, documents }, deps.utcMs(), (i) =>
      tell((2 + (before[i] ?? total) / total) / 3),
    );
    return {
      documents: documents.length,
      files: files.length,
      keptBoth: chosen.keptBoth,
      key: await keyFor(deps),
      sha256: toHex(await deps.crypto.sha256(manifestBytes(backup.manifest))),
    };
  });
}

/** The key of the backup stays where it was made: one is made here where there is none. */
async function keyFor(deps: EvidenceDeps): Promise<RestoreDone['key']> {
  try {
    const { signer, made } = await signerFor(deps);
    return { fingerprint: signer.fingerprint, made: made !== null };
  } catch (cause) {
    if (cause instanceof EvidenceError && cause.code === 'key-missing') return null;
    throw cause;
  }
}
