import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it, vi } from 'vitest';
import type { BesideView, Request } from '../../engine/messages.ts';
import { setupOf } from '../../job/testing/givens.ts';
import { lineMap } from '../../job/testing/maps.ts';
import { introduce } from '../../link/maps/introduce.ts';
import { CURRENT_LOOP } from '../../link/testing/device.ts';
import { BESIDE } from '../../words/beside.ts';
import { type Services, ServicesContext } from '../context.ts';
import { BesideNote } from './BesideNote.tsx';
import { SecondAdapter } from './SecondAdapter.tsx';

afterEach(cleanup);

const warm = {
  ...lineMap(),
  deviceId: 'WARM-1',
  channels: [{ ...lineMap().channels[1]!, column: 1 }],
  cells: 1,
};
const { hello, channels } = introduce(warm, 1, 0);
const CONNECTED: BesideView = {
  state: 'streaming',
  error: null,
  hello,
  channels,
  rateHz: 5,
  baudRate: 115_200,
  strayLine: null,
  map: warm,
  doubts: [],
};

function show(part: { kind?: 'serial' | 'rig'; beside?: BesideView | null; running?: boolean } = {}) {
  const asked: Request[] = [];
  const choose = vi.fn(async () => ({ kind: 'serial' as const, index: 1, usbVendorId: 3, usbProductId: 4 }));
  const [setup, setSetup] = createSignal(part.running ? setupOf({ number: 4 }) : null);
  const kept: Record<string, unknown[]> = {
    columns: [{ kind: 'columns', id: 'columns-1', revision: 1, savedUtcMs: 1, body: warm }],
    speed: [
      {
        savedUtcMs: 1,
        body: {
          speeds: [115_200],
          deviceId: 'WARM-1',
          usbVendorId: 3,
          usbProductId: 4,
          map: warm,
          besideOf: 'SB-1',
        },
      },
    ],
  };
  const app = {
    live: {
      link: () => ({
        kind: part.kind ?? 'serial',
        port: { usbVendorId: 1, usbProductId: 2 },
        hello: { deviceId: 'SB-1' },
        channels: [CURRENT_LOOP],
        beside: part.beside ?? null,
      }),
      run: () => (part.running ? { runId: 'r', jobId: null } : null),
      setup,
      setSetup,
      view: () => null,
      events: () => [],
    },
    settings: () => null,
    sensorRuns: () => [],
    serial: { supported: true, choose },
    fail: (e: unknown) => {
      throw e;
    },
    ask: async (request: Request) => {
      asked.push(request);
      if (request.q === 'documents') return kept[request.kind] ?? [];
      return request.q === 'connect-beside' ? { hello, channels } : null;
    },
  } as unknown as Services;
  render(() => (
    <ServicesContext.Provider value={app}>
      <BesideNote />
      <SecondAdapter />
    </ServicesContext.Provider>
  ));
  return { asked, choose, setup };
}

it('beside the practice rig there is none', () => {
  show({ kind: 'rig' });
  expect(screen.queryByTestId('second-adapter')).toBeNull();
});

it('a map reads another port than the first; the one that was read here before is one press', async () => {
  const { asked, choose } = show();
  (await screen.findByTestId('beside-map-columns-1')).click();
  await vi.waitFor(() => expect(asked.some((r) => r.q === 'connect-beside')).toBe(true));
  expect(choose).toHaveBeenCalledWith(false, [], { usbVendorId: 1, usbProductId: 2 });
  expect(asked.find((r) => r.q === 'connect-beside')).toMatchObject({ port: { index: 1, map: warm } });
  // Without a run nothing is set.
  expect(asked.some((r) => r.q === 'setup')).toBe(false);
  (await screen.findByTestId('beside-known')).click();
  await vi.waitFor(() => expect(choose).toHaveBeenCalledTimes(2));
  expect(choose).toHaveBeenLastCalledWith(false, [expect.objectContaining({ usbVendorId: 3 })], {
    usbVendorId: 1,
    usbProductId: 2,
  });
});

it('in a run it is read at once, by a Setup that changes nothing else', async () => {
  const { asked, setup } = show({ running: true });
  fireEvent.click(await screen.findByTestId('beside-map-columns-1'));
  await vi.waitFor(() => expect(setup()?.number).toBe(5));
  const told = asked.find((r) => r.q === 'setup');
  expect(told).toMatchObject({
    setup: { number: 5, besideId: 'WARM-1', channels: [{ index: 7, place: 'sleeve' }] },
  });
  expect(setup()?.limits).toEqual(setupOf({}).limits);
});

it('says when it is gone, what to do, and whose values are doubted', async () => {
  show({
    running: true,
    beside: {
      ...CONNECTED,
      state: 'lost',
      error: 'port-gone',
      doubts: [{ code: 'missing', channel: 0, value: null }],
    },
  });
  expect(screen.getByTestId('beside-error').textContent).toContain('the pressure goes on');
  expect(screen.getByTestId('beside-doubt').textContent).toMatch(/^Second adapter\. Row 1/);
  expect(screen.getByTestId('beside-state').textContent).toContain('WARM-1');
  // It came before the run could name it.
  expect(await screen.findByText(BESIDE.unread)).toBeDefined();
});
