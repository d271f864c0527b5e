import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { LeftPacker, LinkView, Request, RunSummary, RunView } from '../../engine/messages.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import type { Setup } from '../../job/setup.ts';
import { busMap } from '../../job/testing/maps.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { WatchView } from '../../watch/view.ts';
import { held } from '../../widgets/testing/held.ts';
import { clockTime, METRIC, pressure } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { TRYING } from '../../words/link.ts';
import { DEMO } from '../../words/testing/demo.ts';
import { type Services, ServicesContext } from '../context.ts';
import { StartPanel } from './StartPanel.tsx';
import { createStart } from './start.ts';

afterEach(cleanup);

/** The services with an engine that follows a script: connecting connects, opening opens, zero is taken. */
function scripted(options: { readonly supported?: boolean; readonly documents?: unknown[] } = {}) {
  const asked: Request[] = [];
  const [link, setLink] = createSignal<LinkView | null>(null);
  const [run, setRun] = createSignal<RunView | null>(null);
  const [view, setView] = createSignal<WatchView | null>(null);
  const [events, setEvents] = createSignal<readonly WatchEvent[]>([]);
  const [setup, setSetup] = createSignal<Setup | null>(null);
  const answer = (request: Request): unknown => {
    switch (request.q) {
      case 'connect':
        setLink({
          state: 'streaming',
          kind: request.port.kind,
          hello: null,
          channels: [],
        } as unknown as LinkView);
        return { state: 'streaming' };
      case 'open-run':
        setRun({ runId: 'r-1', jobId: request.jobId } as RunView);
        setView({ stage: 'prepare', standing: ['not-zeroed'], firstUs: 0 } as unknown as WatchView);
        return { runId: 'r-1' };
      case 'command':
        if (request.command.c === 'zero') {
          setView({ stage: 'prepare', standing: [], firstUs: 0 } as unknown as WatchView);
          setEvents([{ tUs: 0, e: 'zero', taken: true, offsetBar: 0.004, reason: 'ok' }]);
        }
        return null;
      case 'documents':
        return options.documents ?? [];
      case 'put-document':
        return request.document;
      default:
        return null;
    }
  };
  const fail = vi.fn();
  const services = {
    ask: (request: Request) => {
      asked.push(request);
      return Promise.resolve(answer(request));
    },
    live: { link, run, view, events, left: () => [], setup, setSetup },
    settings: defaultSettings,
    nowMs: () => 1e12,
    units: () => METRIC,
    openRuns: () => [],
    reconnecting: () => null,
    sensorRuns: () => [],
    sound: { test: () => null, play: vi.fn(), answer: vi.fn() },
    serial: { supported: options.supported ?? true, choose: () => Promise.resolve(null) },
    fail,
  } as unknown as Services;
  const show = (jobId: string | null = null) =>
    render(() => (
      <ServicesContext.Provider value={services}>
        {(() => {
          const start = createStart(services, () => jobId);
          return (
            <>
              <output data-testid="step">{start.step()}</output>
              <StartPanel start={start} />
            </>
          );
        })()}
      </ServicesContext.Provider>
    ));
  return { asked, services, show, fail };
}

/** A press as a hand makes it: on a button that is there and enabled. */
async function press(id: string) {
  await waitFor(() => expect(screen.getByTestId<HTMLButtonElement>(id).disabled).toBe(false));
  fireEvent.click(screen.getByTestId(id));
}

const step = () => screen.getByTestId('step').textContent;

describe('start in three presses', () => {
  it('after a restart in mid-run the first step says that a run is open and how to go on', () => {
    const { services, show } = scripted();
    const left = { runId: 'r-0', title: 'Crack at 12.4 m', openedUtcMs: 0 } as RunSummary;
    Object.assign(services, { openRuns: () => [left] });
    show();
    expect(screen.getByTestId('open-run-note').textContent).toContain('Crack at 12.4 m');
    expect(screen.getByTestId('open-run-note').textContent).toContain(JOBS.resumeText);
  });

  it('the first thing said then is that a packer may be full, and going on is the main action', async () => {
    const { services, show } = scripted();
    const left = { runId: 'r-0', title: 'Crack at 12.4 m', openedUtcMs: 0, practice: false } as RunSummary;
    const resume = vi.fn(() => Promise.resolve());
    const [runs, setRuns] = createSignal<readonly RunSummary[]>([left]);
    const refill = vi.fn(() => Promise.resolve());
    const port = { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null };
    Object.assign(services, {
      openRuns: runs,
      forgetOpenRun: () => setRuns([]),
      refill,
      runs: { resume },
      serial: { supported: true, choose: () => Promise.resolve(port) },
    });
    const { container } = show();
    const first = container.querySelector('.start > .stack')?.firstElementChild;
    expect(first?.getAttribute('data-testid')).toBe('maybe-full');
    expect([...container.querySelectorAll('.primary')].map((b) => b.getAttribute('data-testid'))).toEqual([
      'connect-resume',
    ]);
    await press('connect-resume');
    await waitFor(() => expect(refill).toHaveBeenCalledWith('r-0'));
    expect(resume).toHaveBeenCalledWith('r-0');
  });

  it('a known device is named before it is connected, its port asked for first, and named once it answers', async () => {
    const body = { speeds: [115_200], deviceId: 'SB-0042', usbVendorId: 7, usbProductId: 1 };
    const { services, show } = scripted({ documents: [{ savedUtcMs: 1, body }] });
    const choose = vi.fn(async () => null);
    Object.assign(services, { serial: { supported: true, choose } });
    show();
    expect((await screen.findByTestId('known-device')).textContent).toContain('SB-0042');
    await press('connect-device');
    expect(choose).toHaveBeenCalledWith(false, [{ usbVendorId: 7, usbProductId: 1 }]);
    cleanup();
    const link = () => ({
      state: 'streaming',
      kind: 'serial',
      channels: [],
      hello: { deviceId: 'SB-7', firmware: '2' },
    });
    Object.assign(services, { live: { ...services.live, link } });
    show();
    expect((await screen.findByTestId('connected-to')).textContent).toContain('SB-7');
  });

  it('a kept map is offered while nothing is connected', async () => {
    const { show } = scripted({ documents: [{ id: 'm-1', revision: 1, savedUtcMs: 1, body: busMap() }] });
    show();
    await screen.findByTestId('connect-map-m-1');
  });

  it('what did not answer leads to the bench, where its lines can be seen', () => {
    const { services, show } = scripted();
    show();
    expect(screen.queryByTestId('connect-to-bench')).toBeNull();
    cleanup();
    const link = () => ({ state: 'idle', kind: 'serial', channels: [], hello: null, error: 'no-hello' });
    Object.assign(services, { live: { ...services.live, link } });
    show();
    expect(screen.getByTestId('connect-to-bench').getAttribute('href')).toBe('#/bench');
  });

  it('a packer that an earlier run left full is told first, at its last pressure, until somebody holds the key', async () => {
    const { asked, services, show } = scripted();
    const utcMs = Date.now() - 60_000;
    const packer = { runId: 'r-0', title: 'Crack', bar: 1.52, utcMs, emptied: null };
    const [left, setLeft] = createSignal<readonly LeftPacker[]>([packer]);
    Object.assign(services.live, { left });
    const { container } = show();
    const first = container.querySelector('.start > .stack')?.firstElementChild;
    expect(first?.getAttribute('data-testid')).toBe('maybe-full');
    const text = JOBS.maybeFullAt(pressure(1.52, METRIC), clockTime(utcMs));
    expect(first?.textContent).toContain(text);
    expect(first?.textContent).toContain('Crack');
    // It is still said when the device is connected, and a tap says nothing.
    await press('connect-rig');
    await waitFor(() => expect(step()).toBe('packer'));
    fireEvent.click(screen.getByTestId('say-empty-r-0'), { detail: 1 });
    expect(asked.some((r) => r.q === 'packer-empty')).toBe(false);
    held(screen.getByTestId('say-empty-r-0'));
    expect(asked.at(-1)).toEqual({ q: 'packer-empty', runId: 'r-0', title: 'Crack' });
    setLeft([{ ...packer, emptied: { how: 'said', utcMs } }]);
    expect(screen.queryByTestId('maybe-full')).toBeNull();
  });

  it('a run that was not closed is no longer called full where somebody has seen its packer empty', () => {
    const { services, show } = scripted();
    const open = { runId: 'r-0', title: 'Crack', openedUtcMs: 0, practice: false } as RunSummary;
    const emptied = { how: 'said', utcMs: 1 } as const;
    Object.assign(services, { openRuns: () => [open] });
    Object.assign(services.live, {
      left: () => [{ runId: 'r-0', title: 'Crack', bar: null, utcMs: 1, emptied }],
    });
    show();
    expect(screen.queryByTestId('maybe-full')).toBeNull();
    expect(screen.getByTestId('open-run-note').textContent).toContain('Crack');
  });

  it.each(['trying', 'failed'] as const)(
    'says that it connects by itself, or could not (%s), beside what may be full',
    (what) => {
      const { services, show } = scripted();
      const open = { runId: 'r-0', title: 'Crack', openedUtcMs: 0, practice: false } as RunSummary;
      Object.assign(services, { openRuns: () => [open], reconnecting: () => what });
      show();
      expect(screen.getByTestId('reconnecting').textContent).toBe(JOBS.reconnecting[what]);
      expect(screen.getByTestId('maybe-full')).toBeTruthy();
      expect(screen.getByTestId('connect-resume')).toBeTruthy();
    },
  );

  it('names the speed that is tried, and giving up the search is no fault', async () => {
    const { asked, services, show, fail } = scripted();
    const [link, setLink] = createSignal<LinkView | null>(null);
    let giveUp = (_: Error): void => {};
    Object.assign(services.live, { link });
    Object.assign(services, {
      serial: { supported: true, choose: async () => ({ kind: 'serial', index: 0 }) },
      ask: (request: Request) => {
        asked.push(request);
        if (request.q === 'connect') {
          setLink({
            state: 'greeting',
            kind: 'serial',
            baudRate: 115_200,
            channels: [],
          } as unknown as LinkView);
          return new Promise((_, reject) => {
            giveUp = reject;
          });
        }
        setLink(null);
        giveUp(new Error('port-gone'));
        return Promise.resolve(null);
      },
    });
    show();
    await press('connect-device');
    await waitFor(() => expect(screen.getByTestId('link-state').textContent).toContain(TRYING(115_200)));
    expect(step()).toBe('connect');
    await press('stop-trying');
    await waitFor(() => expect(screen.queryByTestId('stop-trying')).toBeNull());
    // Which maps there are is asked as well, for their own ways to connect.
    expect(asked.map((a) => a.q).filter((q) => q !== 'documents')).toEqual(['connect', 'disconnect']);
    expect(fail).not.toHaveBeenCalled();
    await waitFor(() => expect(screen.getByTestId<HTMLButtonElement>('connect-device').disabled).toBe(false));
  });

  const port = { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null };
  const main = (container: HTMLElement) =>
    [...container.querySelectorAll('.primary')].map((b) => b.getAttribute('data-testid'));

  it('connected without going on, the open run still leads; a practice that was left open warns of nothing', async () => {
    for (const practice of [false, true]) {
      const { services, show } = scripted();
      const left = { runId: 'r-0', title: 'Crack', openedUtcMs: 0, practice } as RunSummary;
      Object.assign(services, {
        openRuns: () => [left],
        serial: { supported: true, choose: () => Promise.resolve(port) },
      });
      const { container } = show();
      await press(practice ? 'connect-rig' : 'connect-device');
      await waitFor(() => expect(step()).toBe('packer'));
      expect(main(container)).toEqual(['resume-r-0']);
      expect(screen.queryByTestId('maybe-full') === null).toBe(practice);
      cleanup();
    }
  });

  it('a run is offered only over what it can go on with; that a packer may be full is said all the same', async () => {
    const { services, show } = scripted();
    const left = { runId: 'r-0', title: 'Crack', openedUtcMs: 0, practice: false } as RunSummary;
    Object.assign(services, { openRuns: () => [left] });
    const { container } = show();
    await press('connect-rig');
    await waitFor(() => expect(step()).toBe('packer'));
    expect(screen.queryByTestId('resume-r-0')).toBeNull();
    expect(screen.getByTestId('maybe-full')).toBeTruthy();
    expect(main(container)).toEqual(['use-practice']);
  });

  it('of what was left open a real run comes before a practice, whichever is the newer', async () => {
    const { services, show } = scripted();
    const practice = { runId: 'r-1', title: 'Practice', openedUtcMs: 9, practice: true } as RunSummary;
    const real = { runId: 'r-0', title: 'Crack', openedUtcMs: 0, practice: false } as RunSummary;
    Object.assign(services, { openRuns: () => [practice, real] });
    const { container } = show();
    expect(main(container)).toEqual(['connect-resume']);
    expect(screen.getByTestId('open-run-note').textContent).toContain('Crack');
  });

  it('begun from a job sheet its packer is the main action; a practice left open is offered after it', async () => {
    const { services, show } = scripted();
    const left = { runId: 'r-0', title: 'Practice', openedUtcMs: 0, practice: true } as RunSummary;
    const ask = services.ask;
    Object.assign(services, {
      openRuns: () => [left],
      ask: (request: Request) =>
        request.q === 'document' && request.kind === 'job'
          ? Promise.resolve({ kind: 'job', id: 'job-1', revision: 1, savedUtcMs: 0, body: DEMO.job })
          : ask(request as never),
    });
    const { container } = show('job-1');
    await waitFor(() => expect(main(container)).toEqual(['connect-device']));
    await press('connect-rig');
    await waitFor(() => expect(main(container)).toEqual(['use-job']));
    const keys = [...container.querySelectorAll('button')].map((b) => b.getAttribute('data-testid'));
    expect(keys.indexOf('resume-r-0')).toBeGreaterThan(keys.indexOf('use-job'));
  });

  it('connect, packer, zero: and the run is open with the packer’s limit', async () => {
    const { asked, show, fail } = scripted();
    show();
    expect(step()).toBe('connect');
    await press('connect-rig');
    await waitFor(() => expect(step()).toBe('packer'));
    await press('use-practice');
    await waitFor(() => expect(step()).toBe('zero'));
    const opened = asked.find((r) => r.q === 'open-run');
    expect(opened).toMatchObject({ jobId: DEMO.jobId, practice: true });
    // The practice packer's plate at 150 mm: between 125 mm (2.1 bar) and 155 mm (1.8 bar) the lower counts.
    expect(opened?.q === 'open-run' && opened.setup.limits?.ratedBar).toBe(1.8);
    await press('zero');
    await waitFor(() => expect(step()).toBe('running'));
    expect(fail).not.toHaveBeenCalled();
  });

  it('without a packer the Setup carries no limit', async () => {
    const { asked, show } = scripted();
    show();
    await press('connect-rig');
    await waitFor(() => expect(step()).toBe('packer'));
    await press('gauge-only');
    await waitFor(() => expect(step()).toBe('zero'));
    const opened = asked.find((r) => r.q === 'open-run');
    expect(opened?.q === 'open-run' && opened.setup.limits).toBeNull();
  });

  it('going on without zero is recorded as an override', async () => {
    const { asked, show } = scripted();
    show();
    await press('connect-rig');
    await waitFor(() => expect(step()).toBe('packer'));
    await press('gauge-only');
    await waitFor(() => expect(step()).toBe('zero'));
    await waitFor(() => expect(screen.getByTestId<HTMLButtonElement>('skip-zero').disabled).toBe(false));
    held(screen.getByTestId('skip-zero'));
    await waitFor(() => expect(step()).toBe('running'));
    expect(asked).toContainEqual({
      q: 'command',
      command: { c: 'override', what: 'zero', reason: expect.stringMatching(/zero/i) },
    });
  });

  it('a packer with several ratings asks for the diameter, and begins a sheet with it', async () => {
    const { asked, show } = scripted({
      documents: [
        { kind: 'packer', id: 'p-1', revision: 1, savedUtcMs: 0, body: DEMO.packer?.document },
        { kind: 'packer', id: 'p-2', revision: 1, savedUtcMs: 0, body: { version: 99 } },
      ],
    });
    show();
    await press('connect-rig');
    await waitFor(() => expect(screen.getByTestId('use-packer-p-1')).toBeTruthy());
    // A document that cannot be read is offered by nobody.
    expect(screen.queryByTestId('use-packer-p-2')).toBeNull();
    await press('use-packer-p-1');
    const go = await screen.findByTestId<HTMLButtonElement>('use-packer');
    expect(go.disabled).toBe(true);
    fireEvent.input(screen.getByTestId('packer-diameter'), { target: { value: '100' } });
    expect(go.disabled).toBe(false);
    fireEvent.click(go);
    await waitFor(() => expect(step()).toBe('zero'));
    const opened = asked.find((r) => r.q === 'open-run');
    expect(opened?.q === 'open-run' && opened.setup.limits?.ratedBar).toBe(2.5);
    expect(asked.some((r) => r.q === 'put-document' && r.document.kind === 'job')).toBe(true);
  });

  it('closing the port chooser is no error and opens nothing', async () => {
    const { asked, show, fail } = scripted();
    show();
    fireEvent.click(screen.getByTestId('connect-device'));
    await waitFor(() => expect(screen.getByTestId<HTMLButtonElement>('connect-device').disabled).toBe(false));
    expect(asked.some((r) => r.q === 'connect')).toBe(false);
    expect(fail).not.toHaveBeenCalled();
  });

  it('a browser without a serial port says so and still offers practice', () => {
    scripted({ supported: false }).show();
    expect(screen.queryByTestId('connect-device')).toBeNull();
    expect(screen.getByText(/no serial port/)).toBeTruthy();
    expect(screen.getByTestId('connect-rig')).toBeTruthy();
  });
});
