import { createEffect, createMemo, on } from 'solid-js';
import { withOverRated } from '../../plan/packer-history.ts';
import type { Services } from '../context.ts';
import { keep, loadOne } from '../documents/store.ts';
import { wasOverRated } from './next-stage.ts';

/** A higher peak is written again at each of these steps, bar. */
const STEP_BAR = 0.05;

/** A packer that a run takes over its rating has it in its own log, so that no later job takes it unasked. */
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
  async function write(runId: string, jobId: string, peakBar: number): Promise<void> {
    const packerId = (await loadOne(app, 'job', jobId))?.document.packerId ?? null;
    const packer = packerId === null ? null : await loadOne(app, 'packer', packerId);
    if (packer === null) return;
    const date = new Date().toISOString().slice(0, 10);
    const logged = withOverRated(packer.document, { runId, date, peakBar });
    if (logged !== null) await keep(app, 'packer', packer.id, packer.revision, logged);
  }

  createEffect(
    on(step, () => {
      const now = peak();
      if (now === null) return;
      writing = writing.then(() => write(now.runId, now.jobId, now.bar)).catch(app.fail);
    }),
  );
}
