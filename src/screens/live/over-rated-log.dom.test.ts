import { createRoot, createSignal } from 'solid-js';
import { beforeAll, expect, it, vi } from 'vitest';
import type { Request, RunSummary } from '../../engine/messages.ts';
import { blankJob } from '../../job/job-document.ts';
import { blankPacker, type PackerDocument } from '../../job/packer-document.ts';
import { LIMITS } from '../../job/testing/givens.ts';
import type { Services } from '../context.ts';
import { keepOverRated, keepOverRatedOf } from './over-rated-log.ts';
import { viewWith } from './testing/view.ts';

/** A run on a packer that is rated at 2.5 bar, whose highest pressure the test says. */
function bench(run: object, packerId: string | null = 'packer-1') {
  let packer: PackerDocument = blankPacker('P 100-150');
  let revision = 1;
  const ask = async (r: Request) => {
    if (r.q === 'document' && r.kind === 'job')
      return { kind: 'job', id: 'job-1', revision: 1, savedUtcMs: 0, body: { ...blankJob('J'), packerId } };
    if (r.q === 'document') return { kind: 'packer', id: 'packer-1', revision, savedUtcMs: 0, body: packer };
    if (r.q !== 'put-document') throw new Error(r.q);
    expect(r.document.revision).toBe(revision);
    packer = r.document.body as PackerDocument;
    return { ...r.document, revision: ++revision };
  };
  const [view, setView] = createSignal(viewWith({ limits: LIMITS, peakBar: 1.8 }));
  const fail = vi.fn();
  const live = { run: () => ({ runId: 'run-1', jobId: 'job-1', practice: false, ...run }), view };
  const stop = createRoot((dispose) => {
    keepOverRated({ ask, fail, live } as unknown as Services);
    return dispose;
  });
  const peak = async (peakBar: number) => {
    setView(viewWith({ limits: LIMITS, peakBar }));
    await new Promise((done) => setTimeout(done, 20));
  };
  /** A crash has cut the run off after this, and it is closed. */
  const closed = (events: readonly object[]) =>
    keepOverRatedOf(
      { ask, fail, runs: { detail: async () => ({ events }) } } as unknown as Services,
      { runId: 'run-1', jobId: 'job-1', practice: false, ...run } as RunSummary,
    );
  return { peak, closed, log: () => packer.conditions, writes: () => revision - 1, fail, stop };
}

// Its code comes when it is needed; here it has come.
beforeAll(() => import('../../plan/packer-history.ts'));

it('a packer that a run takes over its rating has it in its log, once a run, with the highest pressure', async () => {
  const b = bench({});
  await b.peak(2.5);
  expect(b.log()).toEqual([]);
  await b.peak(2.52);
  await b.peak(2.53);
  expect(b.log()).toMatchObject([{ what: 'over-rated', peakBar: 2.52, runId: 'run-1' }]);
  expect(b.writes()).toBe(1);
  await b.peak(2.81);
  expect(b.log()).toMatchObject([{ what: 'over-rated', peakBar: 2.81, runId: 'run-1' }]);
  expect(b.fail).not.toHaveBeenCalled();
  b.stop();
});

it('is nothing of a practice, nor where no packer is known', async () => {
  for (const b of [bench({ practice: true }), bench({ jobId: null }), bench({}, null)]) {
    await b.peak(2.9);
    expect(b.writes()).toBe(0);
    expect(b.fail).not.toHaveBeenCalled();
    b.stop();
  }
});

it('of a run that was cut off and is closed, its record tells it: not what a hose alone was at, nor a practice', async () => {
  const over = (bar: number, cause?: string) => ({ e: 'alarm', alarm: 'over-rated', values: { bar, cause } });
  const calm = { e: 'alarm', alarm: 'rising', values: { bar: 2.4 } };
  const b = bench({});
  await b.closed([calm, over(2.6, 'hose')]);
  expect(b.log()).toEqual([]);
  await b.closed([calm, over(2.6, 'hose'), over(2.53), over(2.55)]);
  expect(b.log()).toMatchObject([{ what: 'over-rated', peakBar: 2.55, runId: 'run-1' }]);
  b.stop();
  for (const other of [bench({ practice: true }), bench({ jobId: null }), bench({}, null)]) {
    await other.closed([over(2.6)]);
    expect(other.writes()).toBe(0);
    other.stop();
  }
});
