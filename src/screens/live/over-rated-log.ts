import { createEffect, createMemo, on } from 'solid-js';
import type { RunSummary } from '../../engine/messages.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { Services } from '../context.ts';
import { keep, loadOne } from '../documents/store.ts';
import { wasOverRated } from './next-stage.ts';

/** A higher peak is written again at each of these steps, bar. */
const STEP_BAR = 0.05;

/** @param peakBar the highest pressure that the run took the packer of its job to */
async function write(app: Services, runId: string, jobId: string, peakBar: number): Promise<void> {
  const packerId = (await loadOne(app, 'job', jobId))?.document.packerId ?? null;
  const packer = packerId === null ? null : await loadOne(app, 'packer', packerId);
  if (packer === null) return;
  // With the documents' schemas, as store.ts has them: no part of the first page.
  const { withOverRated } = await import('../../plan/packer-history.ts');
  const date = new Date().toISOString().slice(0, 10);
  const logged = withOverRated(packer.document, { runId, date, peakBar });
  if (logged !== null) await keep(app, 'packer', packer.id, packer.revision, logged);
}

/** The highest pressure over rated that the alarms of a run tell of a packer, bar; null: none does. */
function overRatedIn(events: readonly WatchEvent[]): number | null {
  const bars = events.flatMap((e) =>
    e.e === 'alarm' && e.alarm === 'over-rated' && e.values.cause !== 'hose' ? [e.values.bar ?? 0] : [],
  );
  return bars.length === 0 ? null : Math.max(...bars);
}

/** The same of a run that a crash cut off and nobody goes on with: nothing but its record tells of it. */
export async function keepOverRatedOf(app: Services, run: RunSummary): Promise<void> {
  if (run.practice || run.jobId === null) return;
  const peakBar = overRatedIn((await app.runs.detail(run.runId)).events);
  if (peakBar !== null) await write(app, run.runId, run.jobId, peakBar);
}

/**
 * A packer that a run takes over its rating has it in its own log, so that no later job takes it unasked: whatever page is
 * looked at meanwhile.
 */
export function keepOverRated(app: Services): void {
  const { live } = app;
  const peak = createMemo(() => {
    const [run, view] = [live.run(), live.view()];
    if (run === null || run.practice || run.jobId === null || view === null || !wasOverRated(view))
      return null;
    return { runId: run.runId, jobId: run.jobId, bar: view.peakBar ?? 0 };
  });
  const step = createMemo(() => {
    const now = peak();
    return now === null ? null : `${now.runId} ${Math.floor(now.bar / STEP_BAR)}`;
  });

  /** One write at a time, each on what the one before has kept. */
  let writing: Promise<void> = Promise.resolve();
  createEffect(
    on(step, () => {
      const now = peak();
      if (now === null) return;
      writing = writing.then(() => write(app, now.runId, now.jobId, now.bar)).catch(app.fail);
    }),
  );
}
