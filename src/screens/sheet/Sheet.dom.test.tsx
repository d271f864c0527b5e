import { cleanup, configure, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Request } from '../../engine/messages.ts';
import type { JobDocument } from '../../job/job-document.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import { METRIC } from '../../words/format.ts';
import { SHEET } from '../../words/sheet.ts';
import { DEMO } from '../../words/testing/demo.ts';
import { type Services, ServicesContext } from '../context.ts';
import { Sheet } from './Sheet.tsx';

// The validators are loaded behind the page: on a busy machine not within a second.
configure({ asyncUtilTimeout: 10_000 });

// jsdom lays nothing out and scrolls nowhere.
Element.prototype.scrollIntoView = () => undefined;

afterEach(cleanup);

async function sheet(change: Partial<JobDocument> = {}) {
  const kept = vi.fn();
  const services = {
    ask: async (request: Request) => {
      switch (request.q) {
        case 'documents':
          return [];
        case 'document':
          return {
            kind: 'job',
            id: request.id,
            revision: 1,
            savedUtcMs: 1,
            body: { ...DEMO.job, ...change },
          };
        case 'put-document':
          kept(request.document.body);
          return { ...request.document, revision: request.document.revision + 1 };
        default:
          return null;
      }
    },
    evidence: async () => null,
    nowMs: () => 0,
    sound: { state: () => null },
    live: { run: () => null, view: () => null, link: () => null, setup: () => null, events: () => [] },
    sensorRuns: () => [],
    settings: defaultSettings,
    units: () => METRIC,
    go: vi.fn(),
    say: vi.fn(),
    fail: (error: unknown) => {
      throw error;
    },
  } as unknown as Services;
  render(() => (
    <ServicesContext.Provider value={services}>
      <Sheet jobId="job-1" />
    </ServicesContext.Provider>
  ));
  await screen.findByTestId('step-run');
  return { kept };
}

const field = (path: string) => screen.getByTestId<HTMLInputElement>(`job-${path}`);
const noteAt = (path: string) => field(path).parentElement?.querySelector('.field-note')?.textContent ?? '';

describe('the short sheet', () => {
  it('begins with what a run needs, and its main key leads to the live page', async () => {
    await sheet();
    for (const path of ['packerId', 'pipe.innerMm', 'tap', 'line', 'pressures.workingBar', 'resin.resinId'])
      expect(field(path)).toBeTruthy();
    expect(screen.getByTestId('step-run').textContent).toContain(SHEET.answers(5, 5));
    expect(screen.getByTestId('to-live').getAttribute('href')).toBe('#/live/job-1');
    expect(field('pipe.innerMm').inputMode).toBe('decimal');
  });

  it('says a refusal at its field and on the main key, which leads there from another step', async () => {
    await sheet();
    fireEvent.focus(field('pressures.workingBar'));
    fireEvent.input(field('pressures.workingBar'), { target: { value: '2.4' } });
    const key = await screen.findByTestId('to-refused');
    expect(screen.queryByTestId('to-live')).toBeNull();
    expect(noteAt('pressures.workingBar')).toBe(screen.getByTestId('refusal-working-over-rated').textContent);
    expect(field('pressures.workingBar').getAttribute('aria-invalid')).toBe('true');
    // Nobody is held up who has mixed already.
    expect(screen.getByTestId('to-live-mixed').getAttribute('href')).toBe('#/live/job-1');
    fireEvent.click(screen.getByTestId('step-record'));
    expect(screen.queryByTestId('job-pressures.workingBar')).toBeNull();
    fireEvent.click(key);
    await waitFor(() => expect(document.activeElement).toBe(field('pressures.workingBar')));
  });

  it('leads from a remark to the field that answers it, also where that is folded', async () => {
    await sheet({ heating: { by: 'hot-air', toC: null } });
    const remark = screen.getByTestId('warning-heated-to-unknown');
    fireEvent.click(remark.querySelector('button')!);
    await waitFor(() => expect(document.activeElement).toBe(field('heating.toC')));
    expect(screen.getByTestId<HTMLDetailsElement>('step-more').open).toBe(true);
  });

  it('takes entries back, field by field, and keeps what stands', async () => {
    const { kept } = await sheet();
    const undo = screen.getByTestId<HTMLButtonElement>('sheet-undo');
    expect(undo.disabled).toBe(true);
    const before = field('pipe.innerMm').value;
    fireEvent.focus(field('pipe.innerMm'));
    for (const value of ['1', '14', '148']) fireEvent.input(field('pipe.innerMm'), { target: { value } });
    fireEvent.blur(field('pipe.innerMm'));
    fireEvent.click(undo);
    expect(field('pipe.innerMm').value).toBe(before);
    expect(undo.disabled).toBe(true);
    await waitFor(() => expect(kept).toHaveBeenCalled());
    expect(kept.mock.lastCall?.[0].pipe).toEqual(DEMO.job.pipe);
  });
});
