import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Request, RunView } from '../../engine/messages.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import type { WatchView } from '../../watch/view.ts';
import { held } from '../../widgets/testing/held.ts';
import { METRIC, pressure } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { ENGINE_ERROR } from '../../words/link.ts';
import { LIVE } from '../../words/live.ts';
import { type Services, ServicesContext } from '../context.ts';
import { EndRun } from './EndRun.tsx';
import { createStart } from './start.ts';

const saved = vi.hoisted(() => vi.fn());
vi.mock('../save.ts', () => ({ saveBlob: saved }));

afterEach(cleanup);

/** @param refusal with which the engine meets the first try */
function shown(refusal: { code: string } | null, view: Partial<WatchView> = { bar: 0 }) {
  const asked: Request[] = [];
  const go = vi.fn();
  const fail = vi.fn();
  const [run] = createSignal({ runId: 'r-1' } as RunView);
  const none = () => null;
  const services = {
    ask: async (request: Request) => {
      // What the start looks up for itself.
      if (request.q === 'documents') return [];
      asked.push(request);
      if (request.q !== 'end-run') return [];
      if (refusal !== null && request.givenUp !== true) throw refusal;
      return { runId: 'r-1' };
    },
    runs: { openPages: async () => new Blob(['pages']) },
    live: {
      link: none,
      run,
      view: () => ({ overBar: null, uBar: 0.02, stale: false, ...view }) as WatchView,
      events: () => [],
      left: () => [],
      setup: none,
      setSetup: none,
    },
    settings: defaultSettings,
    units: () => METRIC,
    openRuns: () => [],
    reconnecting: () => null,
    sensorRuns: () => [],
    go,
    fail,
  } as unknown as Services;
  render(() => (
    <ServicesContext.Provider value={services}>
      {(() => {
        const start = createStart(services, () => null);
        return <EndRun start={start} />;
      })()}
    </ServicesContext.Provider>
  ));
  return { asked, ended: () => asked.filter((r) => r.q === 'end-run'), go, fail };
}

const end = () => held(screen.getByTestId('end-run'));

describe('ending a run', () => {
  it('is not done by a tap', () => {
    const { ended } = shown(null);
    fireEvent.click(screen.getByTestId('end-run'), { detail: 1 });
    expect(ended()).toEqual([]);
  });

  it.each([{ bar: 1.7 }, { bar: null }, { bar: 0, stale: true }, { bar: null, overBar: 4 }])(
    'with the line not seen at zero (%o) asks for a reason, which is recorded before the end',
    async (view) => {
      const { asked, ended } = shown(null, view);
      expect(screen.getByText(LIVE.endWhy)).toBeTruthy();
      fireEvent.click(screen.getByTestId('end-reason-1'), { detail: 1 });
      expect(asked).toEqual([]);
      held(screen.getByTestId('end-reason-1'));
      await waitFor(() => expect(ended()).toHaveLength(1));
      expect(asked[0]).toEqual({
        q: 'command',
        command: { c: 'override', what: 'end', reason: LIVE.endReasons[1] },
      });
    },
  );

  it('only by the word of somebody who saw it empty says so of the packer, and that key is not the first', async () => {
    expect(LIVE.endedEmpty).toBeGreaterThan(0);
    for (const [i, said] of [[LIVE.endedEmpty, true] as const, [0, false] as const]) {
      const { asked, go } = shown(null, { bar: null });
      held(screen.getByTestId(i === 0 ? 'end-run' : `end-reason-${i}`));
      await waitFor(() => expect(go).toHaveBeenCalled());
      expect(asked.some((r) => r.q === 'packer-empty' && r.runId === 'r-1')).toBe(said);
      cleanup();
    }
  });

  it.each([{ bar: 1.4 }, { bar: 1.4, stale: true }])(
    'said empty against the reading (%o) is asked with the reading named, and kept as said against it',
    async (view) => {
      const { asked, go } = shown(null, view);
      held(screen.getByTestId(`end-reason-${LIVE.endedEmpty}`));
      expect(asked).toEqual([]);
      const reads = pressure(1.4, METRIC);
      expect(screen.getByTestId('against-reading').textContent).toContain(JOBS.lineReads(reads));
      fireEvent.click(screen.getByTestId('not-sure'));
      expect(screen.queryByTestId('against-reading')).toBeNull();
      held(screen.getByTestId(`end-reason-${LIVE.endedEmpty}`));
      fireEvent.click(screen.getByTestId('say-against'), { detail: 1 });
      expect(asked).toEqual([]);
      held(screen.getByTestId('say-against'));
      await waitFor(() => expect(go).toHaveBeenCalled());
      expect(asked).toEqual([
        { q: 'command', command: { c: 'override', what: 'end', reason: LIVE.endedAgainst(reads) } },
        { q: 'end-run', givenUp: false },
        { q: 'packer-empty', runId: 'r-1', title: '' },
      ]);
    },
  );

  it('leads to its review', async () => {
    const { ended, go } = shown(null);
    end();
    await waitFor(() => expect(go).toHaveBeenCalledWith({ page: 'review', runId: 'r-1' }));
    expect(ended()).toEqual([{ q: 'end-run', givenUp: false }]);
    expect(screen.queryByTestId('unwritten')).toBeNull();
  });

  it('on a full disk says why it goes on, and ends without what waits only when that is saved', async () => {
    saved.mockClear();
    const { ended, go, fail } = shown({ code: 'full' });
    end();
    const note = await screen.findByTestId('unwritten');
    expect(note.textContent).toContain(ENGINE_ERROR.full.title);
    expect(note.textContent).toContain(LIVE.unwrittenText);
    expect(go).not.toHaveBeenCalled();
    expect(fail).not.toHaveBeenCalled();
    expect(screen.getByTestId<HTMLButtonElement>('end-without').disabled).toBe(true);
    fireEvent.click(screen.getByTestId('save-pages'));
    await waitFor(() => expect(screen.getByTestId<HTMLButtonElement>('end-without').disabled).toBe(false));
    expect(saved).toHaveBeenCalledWith('r-1.pages', expect.any(Blob));
    fireEvent.click(screen.getByTestId('end-without'));
    await waitFor(() => expect(go).toHaveBeenCalledWith({ page: 'review', runId: 'r-1' }));
    expect(ended()).toEqual([
      { q: 'end-run', givenUp: false },
      { q: 'end-run', givenUp: true },
    ]);
  });

  it('any other fault is told as one', async () => {
    const { fail } = shown({ code: 'no-run' });
    end();
    await waitFor(() => expect(fail).toHaveBeenCalled());
    expect(screen.queryByTestId('unwritten')).toBeNull();
  });
});
