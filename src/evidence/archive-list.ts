/**
 * The archive: every run of this tablet and every file kept from elsewhere, one line each. What a line says rests in parts
 * (record/stores/row-parts.ts); a part that a change took back is made up again from its documents.
 */

import { summariesIn } from '../engine/run-list.ts';
import { sealedOf } from '../record/seal.ts';
import { importsIn } from '../record/stores/imports.ts';
import { partIn, type RowPart } from '../record/stores/row-parts.ts';
import type { StoredDocument } from '../record/stores/store.ts';
import type { RunSummary } from '../record/types.ts';
import { accountOf } from './account.ts';
import type { EvidenceDeps } from './deps.ts';
import { about, type FileLabel, labelsIn } from './labels.ts';
import { type ArchiveEntry, ceilingOf } from './messages.ts';
import { lastLimited } from './numbers.ts';
import { manifestOf } from './opened-records.ts';
import { papersOf } from './papers.ts';
import { newestStatuses } from './reviews.ts';
import { label as labelRun } from './sealing.ts';
import { signerAt, type Trust } from './signers.ts';

/** A line as it rests. Whose key it is depends on the keys that are known, and papers that no seal holds may be edited. */
interface Row extends Omit<ArchiveEntry, 'sealed'> {
  readonly sealed: Omit<NonNullable<ArchiveEntry['sealed']>, 'signer'> | null;
  /** The job whose papers say the rest of the line; null: the line says all. */
  readonly jobId: string | null;
}

/** Of the rows' form: a part of another one is made up again. */
const FORM = 1;

function rowsIn({ body }: StoredDocument): readonly Row[] | null {
  const part = body as { form?: unknown; rows?: unknown } | null;
  if (part?.form !== FORM || typeof part.rows !== 'string') return null;
  return JSON.parse(part.rows) as readonly Row[];
}

export async function listArchive(
  deps: EvidenceDeps,
  trust: Trust,
  /** Of a file whose label is gone. */
  makeLabel: (sha256: string) => Promise<FileLabel>,
): Promise<readonly ArchiveEntry[]> {
  const rows: Row[] = [];
  // One after the other: a file whose label is gone is read whole.
  for (const resting of await deps.documents.list('rows')) {
    const part = partIn(resting.id);
    if (part !== null) rows.push(...(rowsIn(resting) ?? (await makeUp(deps, resting, part, makeLabel))));
  }
  const papers = new Map<string, ReturnType<typeof about>>();
  for (const jobId of new Set(rows.map((r) => r.jobId)))
    if (jobId !== null) papers.set(jobId, about(await papersOf(deps.documents, jobId)));
  const entries = rows.map(
    ({ jobId, sealed, ...row }): ArchiveEntry => ({
      ...row,
      ...(jobId === null ? {} : papers.get(jobId)),
      sealed: sealed && { ...sealed, signer: signerAt(trust, sealed.fingerprint, sealed.utcMs) },
    }),
  );
  return entries.sort((a, b) => b.openedUtcMs - a.openedUtcMs);
}

/** The rows of a part from its documents, kept where no document changed meanwhile and nothing is left to be told later. */
async function makeUp(
  deps: EvidenceDeps,
  resting: StoredDocument,
  { of, begins }: RowPart,
  makeLabel: (sha256: string) => Promise<FileLabel>,
): Promise<readonly Row[]> {
  const { rows, whole } = await (of === 'run' ? runRows(deps, begins) : fileRows(deps, begins, makeLabel));
  if (!whole) return rows;
  const body = { form: FORM, rows: JSON.stringify(rows) };
  // Stale, or a full disk: it is made up again the next time.
  await deps.documents.put({ ...resting, savedUtcMs: deps.utcMs(), body }).catch(() => undefined);
  return rows;
}

interface MadeUp {
  readonly rows: readonly Row[];
  /** Each row could be made from what rests. */
  readonly whole: boolean;
}

async function runRows(deps: EvidenceDeps, begins: string): Promise<MadeUp> {
  const statuses = newestStatuses(await deps.documents.list('review', begins));
  const seals = new Map((await deps.documents.list('seal', begins)).map(({ id, body }) => [id, body]));
  const rows: Row[] = [];
  for (const run of summariesIn(await deps.documents.list('run', begins))) {
    const manifest = manifestOf(sealedOf(seals.get(run.runId)));
    // A process that died between seal and label leaves the label to be made up.
    if (manifest !== null) await labelRun(deps, run.runId, manifest.sealedUtcMs).catch(() => undefined);
    const { firstUs, lastUs } = manifest?.pages ?? { firstUs: 0, lastUs: 0 };
    const account =
      manifest &&
      accountOf(
        manifest.events,
        firstUs ?? 0,
        lastUs,
        run.peakBar,
        lastLimited(manifest.setups.map((s) => s.setup)),
      );
    rows.push({
      ...shownOf(run),
      ref: { kind: 'run', runId: run.runId },
      ...about(manifest?.job ?? null),
      jobId: manifest === null ? run.jobId : null,
      cure: account?.cure.state ?? null,
      ceiling: account && ceilingOf(account),
      sealed: manifest && { utcMs: manifest.sealedUtcMs, fingerprint: manifest.signer.fingerprint },
      imported: null,
      status: statuses.get(run.runId) ?? null,
    });
  }
  return { rows, whole: true };
}

const shownOf = (run: RunSummary) => {
  const { runId, title, practice, state, openedUtcMs, seconds, peakBar, alarms, gaps } = run;
  return { runId, title, practice, state, openedUtcMs, seconds, peakBar, alarms, gaps };
};

async function fileRows(
  deps: EvidenceDeps,
  begins: string,
  makeLabel: (sha256: string) => Promise<FileLabel>,
): Promise<MadeUp> {
  const statuses = newestStatuses(await deps.documents.list('review', begins));
  const labelOf = labelsIn(await deps.documents.list('review', `label-${begins}`));
  const rows: Row[] = [];
  let whole = true;
  for (const file of importsIn(await deps.documents.list('seal', `import-${begins}`))) {
    const label = labelOf(file.sha256) ?? (await makeLabel(file.sha256).catch(() => null));
    whole &&= label !== null;
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
      ceiling: null,
      sealedUtcMs: null,
      fingerprint: null,
    };
    rows.push({
      ref: { kind: 'import', sha256: file.sha256 },
      runId: file.runId,
      ...shown,
      jobId: null,
      practice: false,
      sealed: fingerprint === null ? null : { utcMs: sealedUtcMs, fingerprint },
      imported: { utcMs: file.importedUtcMs, name: file.name },
      status: statuses.get(file.sha256) ?? null,
    });
  }
  return { rows, whole };
}
