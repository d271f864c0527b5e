import { cleanup, render, screen, waitFor } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it, vi } from 'vitest';
import type { LinkView, Request, RunView } from '../../engine/messages.ts';
import { practiceRig } from '../../engine/rig-feed.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import type { Setup } from '../../job/setup.ts';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { held } from '../../widgets/testing/held.ts';
import { METRIC } from '../../words/format.ts';
import { SPAN_UNKNOWN } from '../../words/link.ts';
import { LIVE } from '../../words/live.ts';
import { DEMO } from '../../words/testing/demo.ts';
import { type Services, ServicesContext } from '../context.ts';
import { TakeDevice } from './TakeDevice.tsx';

afterEach(cleanup);

const FRAMES = practiceRig().channels.frames;
const HELLO = {
  t: 'H',
  version: 1,
  deviceId: 'sb-8',
  firmware: '1',
  bootId: 2,
  uptime: 0,
  channels: FRAMES.length,
  maxRateHz: 100,
} as const;

/** A run on a job whose sheet names a sensor for the first device's channel 0. */
function show(
  options: {
    link?: Partial<LinkView>;
    run?: Partial<RunView> | null;
    channels?: typeof FRAMES;
    sensorDeviceId?: string;
  } = {},
) {
  const asked: Request[] = [];
  const said: string[] = [];
  const sensor = DEMO.sensors[0]!;
  const job = {
    ...DEMO.job,
    device: {
      ...DEMO.job.device,
      channels: [{ channel: 0, role: 'pressure', place: null, sensorId: sensor.id }],
    },
  };
  const stored: Record<string, unknown> = {
    job,
    packer: DEMO.packer!.document,
    resin: DEMO.resin!.document,
    sensor: { ...sensor.document, deviceId: options.sensorDeviceId ?? null },
  };
  const [link] = createSignal({
    kind: 'serial',
    hello: { ...HELLO, deviceId: 'sb-7' },
    channels: FRAMES,
    other: { hello: HELLO, channels: options.channels ?? FRAMES },
    ...options.link,
  });
  const [run] = createSignal(options.run === null ? null : { jobId: 'j', practice: false, ...options.run });
  const [setup, setSetup] = createSignal<Setup | null>(setupOf({ number: 4, limits: LIMITS }));
  const services = {
    live: { link, run, setup, setSetup, view: () => null },
    ask: async (request: Request) => {
      asked.push(request);
      if (request.q === 'document')
        return { kind: request.kind, id: request.id, revision: 3, savedUtcMs: 0, body: stored[request.kind] };
      return request.q === 'put-document' ? request.document : null;
    },
    settings: defaultSettings,
    sensorRuns: () => [],
    units: () => METRIC,
    say: (text: string) => said.push(text),
    fail: vi.fn(),
  } as unknown as Services;
  render(() => (
    <ServicesContext.Provider value={services}>
      <TakeDevice />
    </ServicesContext.Provider>
  ));
  return { asked, said, setup, services };
}

const take = () => held(screen.getByTestId('take-device'));

it('gives the run a Setup of the other device’s own channels, under the lower ceiling, and clears the sheet of the first one’s sensors', async () => {
  const { asked, setup, services } = show();
  expect(screen.getByTestId('take-device').textContent).toContain('sb-8');
  take();
  await waitFor(() => expect(asked.at(-1)?.q).toBe('take-device'));
  const request = asked.at(-1);
  if (request?.q !== 'take-device') throw new Error('not asked');
  expect(request.deviceId).toBe('sb-8');
  expect(request.setup.number).toBe(5);
  const pressure = request.setup.channels.find((c) => c.role === 'pressure');
  expect(pressure?.calibration ?? null).toBeNull();
  expect(pressure?.sensorSerial ?? null).toBeNull();
  expect(request.setup.limits?.ceilingBar).toBeLessThanOrEqual(LIMITS.ceilingBar);
  const kept = asked.find((r) => r.q === 'put-document');
  expect(kept).toMatchObject({
    document: { kind: 'job', id: 'j', revision: 3, body: { device: { channels: [] } } },
  });
  await waitFor(() => expect(setup()).toBe(request.setup));
  expect(services.fail).not.toHaveBeenCalled();
});

it('is not offered outside a run, without another device, or between practice and a real line', () => {
  for (const given of [
    { run: null },
    { link: { other: null } },
    { run: { practice: true } },
    { link: { kind: 'rig' as const } },
  ]) {
    show(given);
    expect(screen.queryByTestId('take-device')).toBeNull();
    cleanup();
  }
});

it('a device whose scale is not known is not taken, and says why', async () => {
  const channels = FRAMES.map((c) => (c.quantity === 'press' ? { ...c, signal: 'voltage' as const } : c));
  const { asked, said } = show({ channels });
  take();
  await waitFor(() => expect(said.join()).toContain(SPAN_UNKNOWN.title));
  expect(asked.some((r) => r.q === 'take-device')).toBe(false);
});

it('of the first device with another scale no sensor stays on the sheet, also one that names it', async () => {
  const { asked } = show({
    sensorDeviceId: 'sb-7',
    link: { error: 'rescaled', other: { hello: { ...HELLO, deviceId: 'sb-7' }, channels: FRAMES } },
  });
  expect(screen.getByText(LIVE.takeRescaledText)).toBeTruthy();
  take();
  await waitFor(() => expect(asked.at(-1)?.q).toBe('take-device'));
  const kept = asked.find((r) => r.q === 'put-document');
  expect(kept).toMatchObject({ document: { body: { device: { channels: [] } } } });
});
