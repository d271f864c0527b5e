/** The archive: every run of this tablet and every file kept from elsewhere, one line each. */

import type { Manifest } from '../../record/manifest.ts';
import { sealedOf } from '../../record/seal.ts';
import { listImports } from '../../record/stores/imports.ts';
import { loadSealed } from '../../record/stores/sealedStore.ts';
import { createLedger } from '../ledger.ts';
import type { EvidenceDeps } from './deps.ts';
import type { ArchiveEntry } from './messages.ts';
import { bundleIn, papersOf } from './papers.ts';
import { allStatuses } from './reviews.ts';
import { label } from './sealing.ts';
import { manifestOf, summaryOf } from './shelf.ts';
import type { Trust } from './signers.ts';

const about = (papers: unknown) => {
  const bundle = bundleIn(papers);
  return {
    site: bundle?.job.site ?? '',
    client: bundle?.job.client ?? '',
    crew: bundle?.job.crew ?? '',
    packer: bundle?.packer?.document.name ?? '',
  };
};

export async function listArchive(
  deps: EvidenceDeps,
  trust: Trust,
  manifestOfImport: (sha256: string) => Promise<Manifest>,
): Promise<readonly ArchiveEntry[]> {
  const statuses = await allStatuses(deps.documents);
  const ledger = createLedger(deps.documents, deps.files, deps.utcMs);
  const sealedIds = new Set(
    (await deps.documents.list('seal')).filter((d) => sealedOf(d.body) !== null).map((d) => d.id),
  );
  const sealedBy = (m: Manifest | null): ArchiveEntry['sealed'] =>
    m === null
      ? null
      : {
          utcMs: m.sealedUtcMs,
          fingerprint: m.signer.fingerprint,
          signer: trust.names.get(m.signer.fingerprint) ?? null,
        };
  const entries: ArchiveEntry[] = [];
  for (const run of await ledger.list()) {
    const sealed = sealedIds.has(run.runId) ? await loadSealed(deps.documents, run.runId) : null;
    const manifest = manifestOf(sealed);
    // A process that died between seal and label leaves the label to be made up.
    if (manifest !== null) await label(deps, run.runId, manifest.sealedUtcMs).catch(() => undefined);
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
      sealed: sealedBy(manifest),
      imported: null,
      status: statuses.get(run.runId) ?? null,
    });
  }
  for (const file of await listImports(deps.documents)) {
    const manifest = await manifestOfImport(file.sha256).catch(() => null);
    const summary = manifest === null ? null : summaryOf(manifest, null);
    entries.push({
      ref: { kind: 'import', sha256: file.sha256 },
      runId: file.runId,
      title: summary?.title ?? file.name,
      ...about(manifest?.job ?? null),
      practice: false,
      state: summary?.state ?? 'ended',
      openedUtcMs: summary?.openedUtcMs ?? file.importedUtcMs,
      seconds: summary?.seconds ?? 0,
      peakBar: null,
      alarms: summary?.alarms ?? 0,
      gaps: summary?.gaps ?? 0,
      sealed: sealedBy(manifest),
      imported: { utcMs: file.importedUtcMs, name: file.name },
      status: statuses.get(file.sha256) ?? null,
    });
  }
  return entries.sort((a, b) => b.openedUtcMs - a.openedUtcMs);
}
