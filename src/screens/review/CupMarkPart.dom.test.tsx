import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, expect, it, vi } from 'vitest';
import type { Request, RunDetail } from '../../engine/messages.ts';
import { blankJob } from '../../job/job-document.ts';
import { blankResin, type ResinDocument } from '../../job/resin-document.ts';
import { METRIC } from '../../units/display.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { CUP_KEPT } from '../../words/history.ts';
import { type Services, ServicesContext } from '../context.ts';
import { CupMarkPart } from './CupMarkPart.tsx';

afterEach(cleanup);

type Cup = Extract<WatchEvent, { e: 'cup' }>;
const CUP: Cup = {
  tUs: 3000e6,
  e: 'cup',
  verdict: 'usual',
  doubt: null,
  times: { least: 0.9, value: 1, most: 1.1 },
  heatAge: 0.29312,
  riseK: 61.2,
};
const TYPED = { massG: 200, mark: 0.3, riseK: 60 };

function scripted(events: readonly WatchEvent[], massG: number | null = 210, marks = [TYPED]) {
  let resin: ResinDocument = { ...blankResin('Resin A'), cupMarks: marks };
  let revision = 1;
  let undo: (() => void) | undefined;
  const ask = async (r: Request) => {
    const stored = { id: 'x-1', revision, savedUtcMs: 0 };
    if (r.q === 'document' && r.kind === 'job') {
      const job = blankJob('J');
      return { ...stored, kind: 'job', body: { ...job, resin: { ...job.resin, resinId: 'x-1' } } };
    }
    if (r.q === 'document' && r.kind === 'resin') return { ...stored, kind: 'resin', body: resin };
    if (r.q === 'put-document') {
      expect(r.document.revision).toBe(revision);
      resin = r.document.body as ResinDocument;
      revision++;
      return { ...r.document, revision };
    }
    throw new Error(r.q);
  };
  const services = {
    ask: vi.fn(ask),
    units: () => METRIC,
    fail: vi.fn(),
    say: (_: string, back?: () => void) => {
      undo = back;
    },
  };
  const detail = {
    summary: { runId: 'run-1', jobId: 'job-1' },
    setups: [{ resin: massG === null ? {} : { cup: { massG, mark: null } } }],
    events,
  } as unknown as RunDetail;
  render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      <CupMarkPart detail={detail} />
    </ServicesContext.Provider>
  ));
  return { services, marks: () => resin.cupMarks, undo: () => undo?.() };
}

it('puts what the cup has shown into the resin’s document, with its run, and takes it back', async () => {
  const bench = scripted([CUP]);
  expect((await screen.findByTestId('cup-mark')).textContent).toMatch(/0\.29.*61.*210.*1 batch/);
  fireEvent.click(screen.getByTestId('keep-cup'));
  await screen.findByTestId('cup-kept');
  expect(bench.marks()).toEqual([TYPED, { massG: 210, mark: 0.293, riseK: 61.2, runId: 'run-1' }]);
  expect(screen.getByTestId('cup-mark').textContent).toContain('2 batches');
  bench.undo();
  await screen.findByTestId('keep-cup');
  expect(bench.marks()).toEqual([TYPED]);
  expect(bench.services.fail).not.toHaveBeenCalled();
});

it('a slow batch, one that did not get hard, and a resin with all its marks teach nothing, and it is said why', async () => {
  const why = async (events: readonly WatchEvent[], marks = [TYPED]) => {
    scripted(events, 210, marks);
    const text = (await screen.findByTestId('cup-not-kept')).textContent;
    expect(screen.queryByTestId('keep-cup')).toBeNull();
    cleanup();
    return text;
  };
  expect(await why([{ ...CUP, verdict: 'slow' }])).toBe(CUP_KEPT.slow);
  expect(await why([CUP, { tUs: 4000e6, e: 'witness', hard: false, atPipeTemperature: true }])).toBe(
    CUP_KEPT.soft,
  );
  expect(await why([CUP], new Array(20).fill(TYPED))).toBe(CUP_KEPT.full(20));
});

it('a cup that is doubted, or of which nothing was typed, has no mark', async () => {
  for (const [events, massG] of [
    [[{ ...CUP, doubt: 'little-heat' as const }], 210],
    [[{ ...CUP, heatAge: null }], 210],
    [[CUP], null],
    [[], 210],
  ] as const) {
    const bench = scripted(events, massG);
    await waitFor(() => undefined);
    expect(screen.queryByTestId('cup-mark')).toBeNull();
    expect(bench.services.ask).not.toHaveBeenCalled();
    cleanup();
  }
});
