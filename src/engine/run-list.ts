import { runFileNames, runOfFile, summarise } from '../record/recovery.ts';
import { unlessMissing } from '../record/stores/missing.ts';
import {
  type DocumentStore,
  type FileStore,
  type StoredDocument,
  StoreError,
  type StoreErrorCode,
} from '../record/stores/store.ts';
import type { RunSummary } from '../record/types.ts';
import { EngineError } from './errors.ts';
import { inSlices, type Slices } from './slices.ts';

/** The list of runs: one document a run, beside the run's file. The file is the truth, the document its label. */
export interface RunList {
  list(): Promise<readonly RunSummary[]>;
  /** @throws EngineError 'missing' */
  find(runId: string): Promise<RunSummary>;
  save(summary: RunSummary): Promise<void>;
  remove(runId: string): Promise<void>;
  /** Files without a document (the process died between the two) get one. */
  adoptOrphans(slices: Slices): Promise<void>;
  codeOf(cause: unknown): StoreErrorCode;
}

export const fileOf = (runId: string): string => runFileNames(runId).pages;

/** A list entry is plain data that this program wrote; what is not one is left out, never believed. */
function summaryOf(document: StoredDocument): RunSummary | null {
  const body = document.body as Partial<RunSummary> | null;
  const good =
    typeof body === 'object' &&
    body !== null &&
    body.runId === document.id &&
    typeof body.title === 'string' &&
    typeof body.openedUtcMs === 'number' &&
    (body.state === 'open' || body.state === 'interrupted' || body.state === 'ended');
  return good ? (body as RunSummary) : null;
}

/** The runs among documents of the kind 'run', newest first. */
export function summariesIn(all: readonly StoredDocument[]): RunSummary[] {
  const summaries = all.map(summaryOf).filter((s): s is RunSummary => s !== null);
  return summaries.sort((a, b) => b.openedUtcMs - a.openedUtcMs);
}

export function createRunList(documents: DocumentStore, files: FileStore, utcMs: () => number): RunList {
  // One put at a time: two of one revision would refuse each other.
  let saving: Promise<void> = Promise.resolve();
  function save(summary: RunSummary): Promise<void> {
    const next = saving.then(() => put(summary));
    saving = next.catch(() => undefined);
    return next;
  }

  async function put(summary: RunSummary): Promise<void> {
    const resting = await documents.get('run', summary.runId);
    await documents.put({
      kind: 'run',
      id: summary.runId,
      revision: resting?.revision ?? 0,
      savedUtcMs: utcMs(),
      body: summary,
    });
  }

  async function list(): Promise<readonly RunSummary[]> {
    return summariesIn(await documents.list('run'));
  }

  return {
    list,
    save,
    async find(runId) {
      const document = await documents.get('run', runId);
      const summary = document === null ? null : summaryOf(document);
      if (summary === null) throw new EngineError('missing', `no run ${runId}`);
      return summary;
    },
    async remove(runId) {
      await documents.remove('run', runId);
    },
    async adoptOrphans(slices) {
      const known = new Set((await list()).map((s) => s.runId));
      for (const { name } of await files.list()) {
        const runId = runOfFile(name);
        if (runId === null || known.has(runId)) continue;
        // Another tab may have removed it since the look.
        const source = await unlessMissing(() => files.source(name));
        if (source === null) continue;
        const summary = await summarise(inSlices(source, slices), { title: '', peakBar: null });
        if (summary?.runId === runId) await save(summary);
      }
    },
    codeOf: (cause) => (cause instanceof StoreError ? cause.code : 'failed'),
  };
}
