import { createRoot, createSignal } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { LinkView, Request, RunSummary, RunView } from '../engine/messages.ts';
import type { Services } from '../screens/context.ts';
import { createReconnect } from './reconnect.ts';

const port = (usbVendorId: number, connected = true) => ({
  connected,
  getInfo: () => ({ usbVendorId, usbProductId: 1 }),
});
const choice = (usbVendorId: number, index = 0) =>
  ({ kind: 'serial', index, usbVendorId, usbProductId: 1 }) as const;
const LEFT = {
  runId: 'r-1',
  practice: false,
  port: { usbVendorId: 7, usbProductId: 1 },
} as RunSummary;

let granted: unknown[] = [];
let plugged: (() => void)[] = [];
const ends: (() => void)[] = [];

beforeEach(() => {
  granted = [];
  plugged = [];
  vi.stubGlobal('navigator', {
    ...navigator,
    serial: {
      getPorts: async () => granted,
      addEventListener: (_: string, listener: () => void) => plugged.push(listener),
      removeEventListener: () => undefined,
    },
  });
});
afterEach(() => {
  for (const end of ends.splice(0)) end();
  vi.unstubAllGlobals();
});

/** A page that was just loaded, over an engine that connects. */
function page() {
  const [link, setLink] = createSignal<LinkView | null>(null);
  const [run] = createSignal<RunView | null>(null);
  const [openRuns, setOpenRuns] = createSignal<readonly RunSummary[]>([]);
  const asked: Request[] = [];
  let refuse = false;
  const ask = async (request: Request) => {
    asked.push(request);
    if (refuse) throw new Error('busy');
    if (request.q === 'connect') setLink({ kind: request.port.kind } as LinkView);
    return {};
  };
  const state = createRoot((end) => {
    ends.push(end);
    return createReconnect({
      ask,
      live: { link, run },
      openRuns,
    } as unknown as Services);
  });
  const settle = () => new Promise((resolve) => setTimeout(resolve, 5));
  return {
    asked,
    state,
    setLink,
    setOpenRuns,
    settle,
    refuse: () => {
      refuse = true;
    },
  };
}

it('loaded again in mid-run the page connects to the port of that run, says so, and resumes nothing', async () => {
  granted = [port(9), port(7)];
  const p = page();
  await p.settle();
  expect(p.asked).toEqual([]);
  p.setOpenRuns([LEFT]);
  await p.settle();
  expect(p.asked).toEqual([{ q: 'connect', port: choice(7, 1) }]);
  expect(p.state()).toBeNull();
});

it.each([
  ['a strange port', [port(9)]],
  ['two that could be it', [port(7), port(7)]],
  ['one that is unplugged', [port(7, false)]],
  ['none', []],
])('never opens %s by itself', async (_, ports) => {
  granted = ports;
  const p = page();
  p.setOpenRuns([LEFT]);
  await p.settle();
  expect(p.asked).toEqual([]);
  expect(p.state()).toBeNull();
});

it('waits for the plug where it is out', async () => {
  const p = page();
  p.setOpenRuns([LEFT]);
  await p.settle();
  granted = [port(7)];
  for (const listener of plugged.slice(-1)) listener();
  await p.settle();
  expect(p.asked).toHaveLength(1);
});

it('does nothing without a run that was left open, for a practice, for one whose port is not known, or over a connection that is there', async () => {
  granted = [port(7)];
  for (const runs of [
    [],
    [{ ...LEFT, practice: true }],
    [{ ...LEFT, port: undefined } as unknown as RunSummary],
  ]) {
    const p = page();
    p.setOpenRuns(runs);
    await p.settle();
    expect(p.asked).toEqual([]);
  }
  const p = page();
  p.setLink({ kind: 'rig' } as LinkView);
  p.setOpenRuns([LEFT]);
  await p.settle();
  // Nor after somebody has closed it.
  p.setLink({ kind: null } as LinkView);
  await p.settle();
  expect(p.asked).toEqual([]);
});

it('tells a port that cannot be opened, and tries no second time by itself', async () => {
  granted = [port(7)];
  const p = page();
  p.refuse();
  p.setOpenRuns([LEFT]);
  await p.settle();
  expect(p.state()).toBe('failed');
  for (const listener of plugged) listener();
  await p.settle();
  expect(p.asked).toHaveLength(1);
});
