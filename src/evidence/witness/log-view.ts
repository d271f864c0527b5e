/** What the page on the witness log shows. */
import { createRunList } from '../../engine/run-list.ts';
import { fromHex } from '../../record/hex.ts';
import { noteSigner } from '../../record/stores/note-keys.ts';
import { shortForm } from '../../record/witness/checkpoint.ts';
import { isOfRun, leafBytes, runHash } from '../../record/witness/leaves.ts';
import { keyFingerprint } from '../../record/witness/names.ts';
import type { EvidenceDeps } from '../deps.ts';
import type { Trust } from '../signers.ts';
import type { LogView, Unsealed } from './messages.ts';
import type { OwnLog } from './own-log.ts';
import { seenLogs } from './witness.ts';

interface RunNoted {
  openedUtcMs: number | null;
  endedUtcMs: number | null;
  practice: boolean;
  readonly manifests: Set<string>;
}

async function runsNoted(log: OwnLog): Promise<ReadonlyMap<string, RunNoted>> {
  const runs = new Map<string, RunNoted>();
  for await (const { leaf } of log.leaves()) {
    if (!isOfRun(leaf)) continue;
    const run: RunNoted = runs.get(leaf.run) ?? {
      openedUtcMs: null,
      endedUtcMs: null,
      practice: false,
      manifests: new Set(),
    };
    runs.set(leaf.run, run);
    if (leaf.leaf === 'opened') {
      run.openedUtcMs = leaf.at;
      run.practice = leaf.practice;
    }
    if (leaf.leaf === 'ended') run.endedUtcMs = leaf.at;
    if (leaf.leaf === 'sealed') run.manifests.add(leaf.manifest);
  }
  return runs;
}

export async function logView(deps: EvidenceDeps, log: OwnLog, trust: Trust): Promise<LogView> {
  const { hashing } = deps.crypto;
  const { note, size } = await log.show();
  const runs = await runsNoted(log);
  const here = new Map(
    (await createRunList(deps.documents, deps.files, deps.utcMs).list()).map((r) => [
      runHash(hashing, r.runId),
      r,
    ]),
  );
  const unsealed: Unsealed[] = [];
  for (const [run, { openedUtcMs, endedUtcMs, practice, manifests }] of runs) {
    if (practice || manifests.size > 0 || openedUtcMs === null) continue;
    const there = here.get(run);
    unsealed.push({
      runId: there?.runId ?? null,
      title: there?.title ?? null,
      openedUtcMs,
      endedUtcMs,
    });
  }
  const newest = new Map<string, LogView['witnesses'][number]>();
  for (const { by, size: of, utcMs } of await log.given()) {
    const key = by.what === 'cosignature' ? fromHex(by.publicKey) : null;
    const fingerprint = key === null ? null : keyFingerprint(hashing, key);
    const name = fingerprint === null ? null : (trust.names.get(fingerprint) ?? null);
    newest.set(fingerprint ?? '', { what: by.what, fingerprint, name, size: of, utcMs });
  }
  const all = [...runs.values()];
  return {
    origin: (await log.key()).name,
    leaves: size,
    checkpoint: note,
    short: shortForm(note),
    unsealed: unsealed.reverse(),
    practice: all.filter((r) => r.practice).length,
    sealedTwice: all.filter((r) => r.manifests.size > 1).length,
    witnesses: [...newest.values()],
    asWitness: (await noteSigner(deps.documents, deps.subtle, 'witness', deps.utcMs())).fingerprint,
    seen: await seenLogs(deps),
  };
}

/** The leaves as they rest, one a line: their bytes are what the tree is of. */
export async function logFile(log: OwnLog): Promise<Blob> {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  for await (const text of log.texts()) parts.push(leafBytes(`${text}\n`) as Uint8Array<ArrayBuffer>);
  return new Blob(parts, { type: 'text/plain' });
}
