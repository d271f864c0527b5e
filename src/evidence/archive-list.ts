/** The archive: every run of this tablet and every file kept from elsewhere, one line each. */

import { createRunList } from '../engine/run-list.ts';
import type { Manifest } from '../record/manifest.ts';
import { sealedOf } from '../record/seal.ts';
import { listImports } from '../record/stores/imports.ts';
import { loadSealed } from '../record/stores/sealed-store.ts';
import type { EvidenceDeps } from './deps.ts';
import { about, type FileLabel, labelsIn } from './labels.ts';
import type { ArchiveEntry } from './messages.ts';
import { manifestOf } from './opened-records.ts';
import { papersOf } from './papers.ts';
import { newestStatuses } from './reviews.ts';
import { label as labelRun } from './sealing.ts';
import { signerAt, type Trust } from './signers.ts';

export async function listArchive(
  deps: EvidenceDeps,
  trust: Trust,
  /** Of a file whose label is gone. */
  makeLabel: (sha256: string) => Promise<FileLabel>,
): Promise<readonly ArchiveEntry[]> {
  const reviews = await deps.documents.list('review');
  const statuses = newestStatuses(reviews);
  const labelOf = labelsIn(reviews);
  const runList = createRunList(deps.documents, deps.files, deps.utcMs);
  const sealedIds = new Set(
    (await deps.documents.list('seal')).filter((d) => sealedOf(d.body) !== null).map((d) => d.id),
  );
  const sealedBy = (m: Manifest | null): ArchiveEntry['sealed'] =>
    m === null
      ? null
      : {
          utcMs: m.sealedUtcMs,
          fingerprint: m.signer.fingerprint,
          signer: signerAt(trust, m.signer.fingerprint, m.sealedUtcMs),
        };
  const entries: ArchiveEntry[] = [];
  for (const run of await runList.list()) {
    const sealed = sealedIds.has(run.runId) ? await loadSealed(deps.documents, run.runId) : null;
    const manifest = manifestOf(sealed);
    // A process that died between seal and label leaves the label to be made up.
    if (manifest !== null) await labelRun(deps, run.runId, manifest.sealedUtcMs).catch(() => undefined);
    entries.push({
      ref: { kind: 'run', runId: run.runId },
      runId: run.runId,
      title: run.title,
      ...about(manifest === null ? await papersOf(deps.documents, run.jobId) : manifest.job),
      practice: run.practice,
      state: run.state,
      openedUtcMs: run.openedUtcMs,
      seconds: run.seconds,
      peakBar: run.peakBar,
      alarms: run.alarms,
      gaps: run.gaps,
      cure: null,
      sealed: sealedBy(manifest),
      imported: null,
      status: statuses.get(run.runId) ?? null,
    });
  }
  for (const file of await listImports(deps.documents)) {
    const label = labelOf(file.sha256) ?? (await makeLabel(file.sha256).catch(() => null));
    const { sealedUtcMs, fingerprint, ...shown } = label ?? {
      ...about(null),
      title: file.name,
      state: 'ended' as const,
      openedUtcMs: file.importedUtcMs,
      seconds: 0,
      peakBar: null,
      alarms: 0,
      gaps: 0,
      cure: null,
      sealedUtcMs: null,
      fingerprint: null,
    };
    entries.push({
      ref: { kind: 'import', sha256: file.sha256 },
      runId: file.runId,
      ...shown,
      practice: false,
      sealed:
        fingerprint === null
          ? null
          : { utcMs: sealedUtcMs, fingerprint, signer: signerAt(trust, fingerprint, sealedUtcMs) },
      imported: { utcMs: file.importedUtcMs, name: file.name },
      status: statuses.get(file.sha256) ?? null,
    });
  }
  return entries.sort((a, b) => b.openedUtcMs - a.openedUtcMs);
}
