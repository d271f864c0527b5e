/** Who has played what, and how it ended: kept on this computer, beside the runs, which may be removed. */
import { DRILLS, OUTCOMES } from '../practice/codes.ts';
import type { Debrief, Result } from '../practice/shapes.ts';
import type { EvidenceDeps } from './deps.ts';

const ID = 'progress';
const MOST = 1000;

const isResult = (v: unknown): v is Result => {
  if (typeof v !== 'object' || v === null) return false;
  const { runId, drill, trainee, outcome, utcMs } = v as Record<keyof Result, unknown>;
  return (
    typeof runId === 'string' &&
    typeof trainee === 'string' &&
    Number.isFinite(utcMs) &&
    (DRILLS as readonly unknown[]).includes(drill) &&
    (OUTCOMES as readonly unknown[]).includes(outcome)
  );
};

const read = (body: unknown): readonly Result[] => (Array.isArray(body) ? body.filter(isResult) : []);

export async function progressOf({ documents }: Pick<EvidenceDeps, 'documents'>): Promise<readonly Result[]> {
  return read((await documents.get('practice', ID))?.body);
}

/** Keeps how a drill ended, once; one that was broken off, or in which nothing went wrong, counts for nothing. */
export async function keepProgress(
  { documents, utcMs }: Pick<EvidenceDeps, 'documents' | 'utcMs'>,
  runId: string,
  openedUtcMs: number,
  { drill, trainee, outcome }: Debrief,
): Promise<void> {
  if (drill === null || (outcome !== 'met' && outcome !== 'not-met')) return;
  const resting = await documents.get('practice', ID);
  const before = read(resting?.body);
  if (before.some((r) => r.runId === runId)) return;
  const body = [...before, { runId, drill, trainee, outcome, utcMs: openedUtcMs }].slice(-MOST);
  await documents.put({
    kind: 'practice',
    id: ID,
    revision: resting?.revision ?? 0,
    savedUtcMs: utcMs(),
    body,
  });
}
