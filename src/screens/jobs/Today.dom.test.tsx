import { cleanup, configure, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Request } from '../../engine/messages.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import { DAY } from '../../words/day.ts';
import { AGAIN, DUE, MIX } from '../../words/due.ts';
import { METRIC } from '../../words/format.ts';
import { DEMO } from '../../words/testing/demo.ts';
import { WELCOME } from '../../words/welcome.ts';
import { type Services, ServicesContext } from '../context.ts';
import { Jobs } from './Jobs.tsx';

// The validators are loaded behind the page: on a busy machine not within a second.
configure({ asyncUtilTimeout: 10_000 });

const TODAY = '2026-11-28';
const NOW_MS = new Date(2026, 10, 28, 9).getTime();

afterEach(() => {
  cleanup();
  localStorage.clear();
});

interface Stored {
  kind: string;
  id: string;
  revision: number;
  savedUtcMs: number;
  body: unknown;
}

/** A tablet whose documents are kept by a map, as the engine's store would. */
function tablet(sheets: Readonly<Record<string, object>>, runs: readonly object[] = []) {
  const kept = new Map<string, Stored>();
  const put = (kind: string, id: string, body: unknown, revision = 0): Stored => {
    const document = { kind, id, revision: revision + 1, savedUtcMs: NOW_MS, body };
    kept.set(`${kind} ${id}`, document);
    return document;
  };
  for (const [id, more] of Object.entries(sheets)) put('job', id, { ...DEMO.job, date: TODAY, ...more });
  put('packer', DEMO.packer!.id, DEMO.packer!.document);
  put('resin', DEMO.resin!.id, DEMO.resin!.document);
  for (const s of DEMO.sensors) put('sensor', s.id, s.document);
  const said: { text: string; undo: (() => void) | undefined }[] = [];
  const went: unknown[] = [];
  const answer = async (request: Request): Promise<unknown> => {
    switch (request.q) {
      case 'runs':
        return runs;
      case 'documents':
        return [...kept.values()].filter((d) => d.kind === request.kind);
      case 'document':
        return kept.get(`${request.kind} ${request.id}`) ?? null;
      case 'put-document': {
        const { kind, id, revision, body } = request.document;
        const resting = kept.get(`${kind} ${id}`)?.revision ?? 0;
        if (resting !== revision) throw new Error('stale');
        return put(kind, id, body, revision);
      }
      case 'remove-document':
        kept.delete(`${request.kind} ${request.id}`);
        return null;
      default:
        return null;
    }
  };
  const evidence = vi.fn(async () => null);
  const services = {
    ask: answer,
    evidence,
    live: {
      run: () => null,
      view: () => null,
      link: () => null,
      setup: () => null,
      left: () => [],
    },
    openRuns: () => [],
    sensorRuns: () => [],
    settings: createSignal(defaultSettings())[0],
    units: () => METRIC,
    nowMs: () => NOW_MS,
    go: (route: unknown) => went.push(route),
    say: (text: string, undo?: () => void) => said.push({ text, undo }),
    fail: (error: unknown) => {
      throw error;
    },
  } as unknown as Services;
  render(() => (
    <ServicesContext.Provider value={services}>
      <Jobs />
    </ServicesContext.Provider>
  ));
  return { kept, said, went, evidence };
}

const run = (jobId: string, more: object = {}) => ({
  runId: `run-${jobId}`,
  jobId,
  title: `Run of ${jobId}`,
  practice: false,
  openedUtcMs: NOW_MS - 3_600_000,
  endedUtcMs: NOW_MS - 600_000,
  state: 'ended',
  seconds: 3000,
  readings: 60_000,
  peakBar: 1.5,
  gaps: 0,
  alarms: 0,
  bytes: 1000,
  ...more,
});
const order = () =>
  [...screen.getByTestId('today').querySelectorAll('[data-testid^="repair-"]')].map((row) =>
    row.getAttribute('data-testid'),
  );
const at = (chainageM: number, title: string) => ({ title, defect: { ...DEMO.job.defect, chainageM } });

describe('today', () => {
  it('is what the page leads with once it is in use: each repair with its state and the key that leads on', async () => {
    tablet({ a: at(4, 'First'), b: at(9, 'Second'), c: { date: '2026-11-20', title: 'Old one' } }, [
      run('a', { sealedUtcMs: NOW_MS }),
    ]);
    expect(await screen.findByText(DAY.head(TODAY))).toBeTruthy();
    expect(screen.queryByText(WELCOME.what)).toBeNull();
    expect(order()).toEqual(['repair-a', 'repair-b']);
    expect(screen.getByTestId('state-a').textContent).toBe(DAY.states.sealed);
    expect(screen.getByTestId('next-a').getAttribute('href')).toBe('#/run/run-a');
    expect(screen.getByTestId('state-b').textContent).toBe(DAY.states.planned);
    expect(screen.getByTestId('next-b').getAttribute('href')).toBe('#/live/b');
    // Other days' sheets stand apart, and can be taken to today.
    fireEvent.click(screen.getByTestId('more-c'));
    fireEvent.click(screen.getByTestId('to-today-c'));
    await waitFor(() => expect(order()).toContain('repair-c'));
  });

  it('takes the order that the crew gives it, and keeps it', async () => {
    const { kept } = tablet({ a: at(4, 'First'), b: at(9, 'Second') });
    fireEvent.click(await screen.findByTestId('more-b'));
    fireEvent.click(screen.getByTestId('up-b'));
    expect(order()).toEqual(['repair-b', 'repair-a']);
    await waitFor(() => expect(kept.get('day order')?.body).toEqual({ jobs: ['b', 'a'] }));
    // It stays opened, and there is nothing above it any more.
    expect(screen.getByTestId<HTMLButtonElement>('up-b').disabled).toBe(true);
    expect(document.activeElement).toBe(screen.getByTestId('down-b'));
  });

  it('gives a removed sheet back, at its place', async () => {
    const { said, kept } = tablet({ a: at(4, 'First'), b: at(9, 'Second') });
    fireEvent.click(await screen.findByTestId('more-a'));
    fireEvent.click(screen.getByTestId('remove-a'));
    await waitFor(() => expect(order()).toEqual(['repair-b']));
    expect(said[0]?.text).toBe(DAY.removed('First'));
    said[0]?.undo?.();
    await waitFor(() => expect(order()).toEqual(['repair-a', 'repair-b']));
    expect(kept.get('job a')?.body).toMatchObject({ title: 'First' });
  });

  it('does a repair once more: what must be new is asked, the rest is as it was', async () => {
    const { kept, went } = tablet({ a: at(4, 'Crack') });
    fireEvent.click(await screen.findByTestId('again-a'));
    await screen.findByText(AGAIN.what('Crack'));
    fireEvent.input(screen.getByTestId('again-chainage'), { target: { value: '18,2' } });
    fireEvent.click(screen.getByTestId('again-batch'));
    fireEvent.click(screen.getByTestId('again-make'));
    await waitFor(() => expect(went).toHaveLength(1));
    const { jobId } = went[0] as { jobId: string };
    expect(kept.get(`job ${jobId}`)?.body).toMatchObject({
      title: 'Crack (2)',
      date: TODAY,
      packerId: DEMO.job.packerId,
      defect: { chainageM: 18.2, infiltration: 'not-looked' },
      resin: { resinBatch: DEMO.job.resin.resinBatch, mixC: null },
      answers: [],
    });
    expect(kept.get('day order')?.body).toEqual({ jobs: ['a', jobId] });
  });

  it('tells what is due in one place, and the resin that the day takes', async () => {
    const { evidence } = tablet({ a: at(4, 'First'), b: at(9, 'Second'), c: at(12, 'Third') }, [
      run('a', { sealedUtcMs: NOW_MS }),
      run('gone'),
    ]);
    const due = await screen.findByTestId('due');
    expect(screen.getByTestId('due-not-sealed-run-gone').getAttribute('href')).toBe('#/run/run-gone');
    // The run with the demo packer was not put away.
    expect(due.textContent).toContain(DUE['not-inspected']);
    fireEvent.click(screen.getByTestId('sent-run-a'));
    expect(evidence).toHaveBeenCalledWith({ q: 'sent', runId: 'run-a' });
    const mix = await screen.findByTestId('mix');
    expect(mix.textContent).toContain(MIX.sleeves(2));
    expect(mix.textContent).toContain(MIX.packer(DEMO.packer!.document.name, 2));
  });

  it('says that nothing is planned, and offers the last one again', async () => {
    tablet({ a: { date: '2026-11-20' } });
    expect(await screen.findByText(DAY.none)).toBeTruthy();
    fireEvent.click(screen.getByTestId('same-as-last'));
    expect(await screen.findByTestId('again-make')).toBeTruthy();
  });
});
