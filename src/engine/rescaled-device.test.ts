import { describe, expect, it } from 'vitest';
import type { ChannelFrame } from '../link/frames.ts';
import { createScriptedPort } from '../link/testing/device.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import { judgeAgain } from './judge-again.ts';
import { outlineOf } from './outline.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

const SERIAL = {
  q: 'connect',
  port: { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null },
} as const;

// 4-20 mA over the span on 16 bits of 0-25 mA (the scripted device's own scale).
const counts = (bar: number, spanBar: number): number =>
  Math.floor(((4000 + (bar / spanBar) * 16_000) / 25_000) * 65_535);

/** A run in a hold at 1.5 bar on a device of 0-6 bar. */
async function holding() {
  const channel: Partial<{ -readonly [K in keyof ChannelFrame]: ChannelFrame[K] }> = {};
  const site = createScriptedPort({}, channel);
  const b = createHostBench({ openPort: async () => ({ port: site.port, rig: null, speed: 1 }) });
  const { device } = site;
  const stream = async (bar: number, spanBar: number, ms = 1000) => {
    for (let i = 0; i < ms / 20; i++) {
      device.sample(counts(bar, spanBar));
      await b.run(20);
    }
  };
  await b.ask(SERIAL);
  await stream(0, 6, 2000);
  await b.ask({ q: 'command', command: { c: 'zero' } });
  const setup = practiceSetup({ practice: false, channels: suggestChannels(b.moment().link.channels) });
  const { runId } = await b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: false, setup });
  for (const to of ['inflate', 'hold'] as const) {
    await b.ask({ q: 'command', command: { c: 'stage', to } });
    await stream(1.5, 6, 2000);
  }
  expect(b.moment().view.bar).toBeCloseTo(1.5, 2);
  const lost = () => b.moment().view.alarms.find((a) => a.alarm === 'pressure-lost') ?? null;
  const armed = () => device.done.filter((k) => k.command.verb === 'limit').length;
  const told = () => b.events().flatMap((e) => (e.e === 'device' ? [e.what] : []));
  return { ...site, b, channel, stream, setup, runId, lost, armed, told };
}

type Site = Awaited<ReturnType<typeof holding>>;

/** How the device comes back. */
const COMES: readonly [string, (site: Site) => Promise<void>][] = [
  [
    'plugged in again',
    async ({ pull, state, device, b }) => {
      pull();
      await b.run(500);
      device.reset(99);
      state.present = true;
      await b.run(1500);
    },
  ],
  [
    'after a restart on the line',
    async ({ device }) => {
      device.reset(99);
      device.greet();
    },
  ],
  ['in a hello that nobody asked for, of the same start', async ({ device }) => device.greet()],
];

const CHANGES: readonly [string, Partial<ChannelFrame>][] = [
  ['span', { rangeHi: 1_000_000 }],
  ['kind of signal', { signal: 'voltage' }],
  ['ends of the converter', { elHi: 20_000 }],
  ['resolution', { bits: 12 }],
  ['place', { place: 'supply' }],
];

describe('the device of the run, with another scale', () => {
  it.each(COMES)('%s is told as that within 1.2 s, not read and not armed', async (_, comes) => {
    const site = await holding();
    const { b, channel, stream, device, lost, armed, told } = site;
    const before = armed();
    channel.rangeHi = 1_000_000;
    await comes(site);
    device.streaming = true;
    await stream(2.1, 10, 1200);
    expect(lost()).toMatchObject({ state: 'unacknowledged', values: { cause: 'rescaled' } });
    await stream(2.1, 10, 6000);
    expect(lost()).toMatchObject({ values: { cause: 'rescaled' } });
    expect(b.moment().view.bar).toBeCloseTo(1.5, 2);
    expect(b.moment().view.stale).toBe(true);
    expect(b.moment().link).toMatchObject({ error: 'rescaled', other: { hello: { deviceId: 'sb-7' } } });
    expect(armed()).toBe(before);
    expect(told().filter((what) => what === 'rescaled')).toHaveLength(1);
  });

  it.each(CHANGES)('also where another %s is what changed', async (_, change) => {
    const { b, channel, device, stream, lost } = await holding();
    Object.assign(channel, change);
    device.greet();
    await stream(1.5, 6, 1500);
    expect(lost()).toMatchObject({ values: { cause: 'rescaled' } });
    expect(b.moment().link.error).toBe('rescaled');
  });

  it('how often a channel converts is none: it goes on', async () => {
    const { b, channel, device, stream, lost } = await holding();
    channel.rateMilliHz = 50_000;
    device.greet();
    await stream(1.52, 6, 3000);
    expect(lost()).toBeNull();
    expect(b.moment().view.bar).toBeCloseTo(1.52, 2);
  });

  it('goes on where it was when its first scale is back', async () => {
    const { b, channel, device, stream, lost, told } = await holding();
    channel.rangeHi = 1_000_000;
    device.greet();
    await stream(2.1, 10, 3000);
    channel.rangeHi = 600_000;
    device.greet();
    await stream(1.5, 6, 5000);
    expect(lost()?.state).toBe('returned');
    expect(b.moment().view.bar).toBeCloseTo(1.5, 2);
    expect(b.moment().link).toMatchObject({ state: 'streaming', error: null });
    expect(told().slice(-2)).toEqual(['rescaled', 'greeted']);
  });

  it('can be taken: read by its new scale, without the zero of the first, and armed by it', async () => {
    const { b, channel, device, stream, setup, lost, armed, told, runId } = await holding();
    channel.rangeHi = 1_000_000;
    device.greet();
    await stream(2.1, 10, 3000);
    const outline = async () => outlineOf(await b.files.source(`${runId}.run`));
    const before = armed();
    const channels = suggestChannels(b.moment().link.other?.channels ?? []);
    await b.ask({ q: 'take-device', deviceId: 'sb-7', setup: { ...setup, number: 2, channels } });
    await stream(1.6, 10, 4000);
    expect(b.moment().link).toMatchObject({ state: 'streaming', error: null, other: null });
    expect(b.moment().view.bar).toBeCloseTo(1.6, 2);
    expect(b.moment().view.standing).toContain('not-zeroed');
    expect(lost()?.state).toBe('returned');
    expect(armed()).toBeGreaterThan(before);
    expect(told().slice(-2)).toEqual(['rescaled', 'taken']);
    await b.ask({ q: 'end-run' });
    expect(await outline()).toMatchObject({ channels: [{ rangeHi: 1e6 }] });
    const { recorded, again } = judgeAgain(await b.files.readAll(`${runId}.run`));
    expect(again).toEqual(recorded);
  });

  it('does not name a record by a scale that only answered', async () => {
    const { b, channel, device, stream, runId } = await holding();
    channel.rangeHi = 1_000_000;
    device.greet();
    await stream(2.1, 10, 3000);
    await b.ask({ q: 'end-run' });
    expect(await outlineOf(await b.files.source(`${runId}.run`))).toMatchObject({
      channels: [{ rangeHi: 600_000 }],
    });
  });
});
