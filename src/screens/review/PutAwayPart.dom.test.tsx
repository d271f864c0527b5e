import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, expect, it, vi } from 'vitest';
import type { Request, RunDetail } from '../../engine/messages.ts';
import { blankJob } from '../../job/job-document.ts';
import { blankPacker, type PackerDocument } from '../../job/packer-document.ts';
import { METRIC } from '../../units/display.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { stageSpans } from '../../widgets/spans.ts';
import { type Services, ServicesContext } from '../context.ts';
import { PutAwayPart } from './PutAwayPart.tsx';

afterEach(cleanup);

const stage = (tS: number, to: 'inflate' | 'hold' | 'let-down' | 'done'): WatchEvent =>
  ({ tUs: tS * 1e6, e: 'stage', stage: to, attempt: 1, by: 'operator' }) as unknown as WatchEvent;
const leak = { verdict: 'tight', mbarPerMin: 0.2, low: 0, high: 0.4, paM3PerS: null, reason: null } as const;
const hold: WatchEvent = {
  tUs: 7200e6,
  e: 'hold',
  fromUs: 600e6,
  minutesInBand: 100,
  minBar: 1.4,
  maxBar: 1.5,
  leak,
};
const events = [
  stage(300, 'inflate'),
  stage(600, 'hold'),
  hold,
  stage(7200, 'let-down'),
  stage(7500, 'done'),
];
const detail = {
  summary: { runId: 'run-1', jobId: 'job-1', openedUtcMs: Date.parse('2026-04-14'), peakBar: 1.523 },
  events,
} as unknown as RunDetail;

function scripted(packerId: string | null = 'packer-1', run: RunDetail = detail) {
  let packer: PackerDocument = blankPacker('P 100-150');
  let revision = 1;
  let undo: (() => void) | undefined;
  const asked: string[] = [];
  const ask = async (r: Request) => {
    if (r.q === 'document') asked.push(r.kind);
    if (r.q === 'document' && r.kind === 'job')
      return { kind: 'job', id: 'job-1', revision: 1, savedUtcMs: 0, body: { ...blankJob('J'), packerId } };
    if (r.q === 'document' && r.kind === 'packer')
      return { kind: 'packer', id: 'packer-1', revision, savedUtcMs: 0, body: packer };
    if (r.q === 'put-document') {
      expect(r.document.revision).toBe(revision);
      packer = r.document.body as PackerDocument;
      revision++;
      return { ...r.document, revision };
    }
    throw new Error(r.q);
  };
  const services = {
    ask,
    units: () => METRIC,
    fail: vi.fn(),
    say: (_: string, back?: () => void) => {
      undo = back;
    },
  };
  render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      <PutAwayPart detail={run} spans={stageSpans(run.events, 0, 7600)} />
    </ServicesContext.Provider>
  ));
  return { services, asked, log: () => packer.conditions, undo: () => undo?.() };
}

it('asks what the hands found and who looked, then logs the cycle; it can be taken back', async () => {
  const bench = scripted();
  const facts = await screen.findByTestId('put-away-cycle');
  expect(facts.textContent).toContain('1.52');
  expect(screen.getByTestId('put-away-leak').textContent).toBe('No leak above 0.4\u00a0mbar/min');
  expect(facts.textContent).toContain('2\u00a0h');
  fireEvent.click(screen.getByTestId('put-away'));
  expect(bench.log()).toEqual([]);
  expect(screen.getAllByRole('alert')).toHaveLength(2);
  fireEvent.change(screen.getByTestId('put-away-found'), { target: { value: 'damage' } });
  fireEvent.input(screen.getByTestId('put-away-by'), { target: { value: 'A.B.' } });
  fireEvent.input(screen.getByTestId('put-away-note'), { target: { value: 'cut at the end' } });
  fireEvent.click(screen.getByTestId('put-away'));
  await screen.findByTestId('put-away-done');
  expect(bench.log()).toMatchObject([
    { what: 'cycle', date: '2026-04-14', peakBar: 1.523, leakMbarPerMin: 0.2, minutes: 120, runId: 'run-1' },
    { what: 'damage', by: 'A.B.', note: 'cut at the end' },
  ]);
  bench.undo();
  await screen.findByTestId('put-away');
  expect(bench.log()).toEqual([]);
  expect(bench.services.fail).not.toHaveBeenCalled();
});

it('a line that rose a little has no leak of less than none, whatever the log keeps for its trend', async () => {
  const rose = { ...leak, mbarPerMin: -0.3, low: -0.6, high: -0.02 };
  const ended = events.map((e) => (e.e === 'hold' ? { ...e, leak: rose } : e));
  const bench = scripted('packer-1', { ...detail, events: ended });
  const said = await screen.findByTestId('put-away-leak');
  expect(said.textContent).toBe('No leak above 0.1\u00a0mbar/min');
  fireEvent.change(screen.getByTestId('put-away-found'), { target: { value: 'well' } });
  fireEvent.input(screen.getByTestId('put-away-by'), { target: { value: 'A.B.' } });
  fireEvent.click(screen.getByTestId('put-away'));
  await screen.findByTestId('put-away-done');
  expect(bench.log()).toContainEqual(expect.objectContaining({ what: 'cycle', leakMbarPerMin: -0.3 }));
});

it('without a packer there is nothing to put away', async () => {
  const { asked } = scripted(null);
  await waitFor(() => expect(asked).toEqual(['job']));
  await new Promise((resolve) => setTimeout(resolve, 0));
  expect(asked).toEqual(['job']);
  expect(screen.queryByTestId('put-away-cycle')).toBeNull();
});
