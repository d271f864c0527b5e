import { cleanup, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Request } from '../../engine/messages.ts';
import { METRIC } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { ENGINE_ERROR } from '../../words/link.ts';
import { WELCOME } from '../../words/welcome.ts';
import { type Services, ServicesContext } from '../context.ts';
import { Jobs } from './Jobs.tsx';

afterEach(() => {
  cleanup();
  localStorage.clear();
  vi.useRealTimers();
});

const NOW_MS = new Date(2026, 10, 28, 9).getTime();

function show(answer: (request: Request) => Promise<unknown>) {
  const services = {
    ask: answer,
    live: { run: () => null, view: () => null, left: () => [] },
    openRuns: () => [],
    units: () => METRIC,
    nowMs: () => NOW_MS,
    fail: vi.fn(),
  } as unknown as Services;
  return render(() => (
    <ServicesContext.Provider value={services}>
      <Jobs />
    </ServicesContext.Provider>
  ));
}

describe('jobs page', () => {
  it('is there before its data are, and calls nothing empty that has not answered', () => {
    vi.useFakeTimers();
    show(() => new Promise(() => undefined));
    expect(screen.getByTestId('start-live')).toBeTruthy();
    expect(screen.getAllByTestId('loading')).toHaveLength(2);
    expect(screen.queryByText(WELCOME.empty)).toBeNull();
    expect(screen.queryByTestId('no-answer')).toBeNull();
    vi.advanceTimersByTime(6500);
    expect(screen.getAllByTestId('no-answer')).toHaveLength(2);
  });

  it('says that the list could not be read, and is not empty', async () => {
    show(() => Promise.reject(new Error('disk')));
    await waitFor(() => expect(screen.getAllByTestId('no-answer')).toHaveLength(2));
    expect(screen.queryByText(WELCOME.empty)).toBeNull();
    expect(screen.queryByText(JOBS.noSheets)).toBeNull();
  });

  it('says before anything is entered that it cannot be kept, and why', async () => {
    const storage = { persisted: null, roomBytes: null, faults: { files: null, documents: 'silent' } };
    show((request) => Promise.resolve(request.q === 'storage' ? storage : []));
    const note = await screen.findByTestId('store-fault-documents');
    expect(note.getAttribute('role')).toBe('alert');
    expect(note.textContent).toContain(ENGINE_ERROR.silent.title);
    expect(note.textContent).toContain(JOBS.documentsFault);
    expect(note.textContent).toContain(ENGINE_ERROR.silent.todo);
    expect(screen.queryByTestId('store-fault-files')).toBeNull();
    // What the browser does not say is not said.
    expect(screen.getByTestId('storage').textContent?.trim()).toBe('');
  });

  it('an empty answer is called empty', async () => {
    show((request) => Promise.resolve(request.q === 'storage' ? null : []));
    expect(await screen.findByText(WELCOME.empty, {}, { timeout: 10_000 })).toBeTruthy();
    expect(await screen.findByText(JOBS.noSheets, {}, { timeout: 10_000 })).toBeTruthy();
    expect(screen.queryByTestId('loading')).toBeNull();
  });
});
