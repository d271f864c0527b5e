import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Request } from '../engine/messages.ts';
import { RequestError } from '../engine/worker/request-error.ts';
import type { EvidenceRequest } from '../evidence/messages.ts';
import { createRunAccess } from './run-access.ts';

const PAGES = new Uint8Array(2500).map((_, i) => i);

/** @param closed the engine has just closed the run that the page holds for open */
function bench(openRun: string | null, closed = false) {
  const engine: Request[] = [];
  const evidence: EvidenceRequest[] = [];
  let silent = false;
  const answer = (request: Request): unknown => {
    switch (request.q) {
      case 'run-pages':
        return { runId: openRun, bytes: PAGES.slice(request.from, request.from + 1000) };
      case 'live-window':
        return { fromS: request.fromS };
      case 'runs':
        return [{ runId: 'open', title: 'now' }];
      default:
        return null;
    }
  };
  const runs = createRunAccess(
    (async (request: Request) => {
      engine.push(request);
      if (closed) throw new RequestError('no-run', 'that run is not open');
      return answer(request);
    }) as never,
    (async (request: EvidenceRequest) => {
      evidence.push(request);
      if (silent) await new Promise(() => undefined);
      return request.q === 'pages-outline' ? { lastS: request.pages.size } : request;
    }) as never,
    () => openRun,
  );
  return {
    runs,
    engine,
    evidence,
    hang: () => {
      silent = true;
    },
  };
}

afterEach(() => {
  vi.useRealTimers();
});

describe('a run that nobody records', () => {
  it('is the evidence worker’s alone: the guard is asked nothing', async () => {
    const { runs, engine, evidence } = bench(null);
    await runs.detail('r-1', true);
    await runs.window('r-1', 0, 60, 100);
    await runs.capture('r-1');
    expect(evidence).toEqual([
      { q: 'run', runId: 'r-1', check: true },
      { q: 'run-window', runId: 'r-1', fromS: 0, toS: 60, points: 100 },
      { q: 'run-capture', runId: 'r-1' },
    ]);
    expect(engine).toEqual([]);
  });

  it('is removed with its seal, and its files are let go before it is taken up again', async () => {
    const { runs, engine, evidence } = bench(null);
    await runs.remove('r-1');
    await runs.resume('r-2');
    expect(evidence.map((r) => r.q)).toEqual(['remove-run']);
    await runs.window('r-2', 0, 60, 100);
    await runs.resume('r-2');
    expect(evidence.map((r) => r.q)).toEqual(['remove-run', 'run-window', 'let-go']);
    expect(engine).toEqual([
      { q: 'remove-document', kind: 'seal', id: 'r-1' },
      { q: 'resume-run', runId: 'r-2' },
      { q: 'resume-run', runId: 'r-2' },
    ]);
  });

  it('is taken up again though its files are never let go', async () => {
    vi.useFakeTimers();
    const { runs, engine, hang } = bench(null);
    await runs.window('r-2', 0, 60, 100);
    hang();
    const resumed = runs.resume('r-2');
    await vi.advanceTimersByTimeAsync(1100);
    await resumed;
    expect(engine).toEqual([{ q: 'resume-run', runId: 'r-2' }]);
  });
});

describe('the open run', () => {
  it('gives its pages in pieces, and what is made of them is made by the evidence worker', async () => {
    const { runs, engine, evidence } = bench('open');
    expect(await runs.detail('open')).toEqual({ summary: { runId: 'open', title: 'now' }, lastS: 2500 });
    expect(engine).toEqual([
      ...[0, 1000, 2000, 2500].map((from) => ({ q: 'run-pages', runId: 'open', from })),
      { q: 'runs' },
    ]);
    const pages = await runs.openPages('open');
    expect(new Uint8Array(await pages.arrayBuffer())).toEqual(PAGES);
    await runs.capture('open');
    expect(evidence.map((r) => r.q)).toEqual(['pages-outline', 'pages-capture']);
  });

  it('gives its picture itself: it stands in memory', async () => {
    const { runs, engine, evidence } = bench('open');
    await runs.window('open', 0, 60, 100);
    expect(engine).toEqual([{ q: 'live-window', runId: 'open', fromS: 0, toS: 60, points: 100 }]);
    expect(evidence).toEqual([]);
  });
});

it('a run that was closed a moment ago is a saved one, though the page has not heard of it yet', async () => {
  const { runs, evidence } = bench('r-1', true);
  await runs.detail('r-1');
  await runs.window('r-1', 0, 60, 100);
  await runs.capture('r-1');
  expect(evidence.map((r) => r.q)).toEqual(['run', 'run-window', 'run-capture']);
});
