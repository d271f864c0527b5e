import { describe, expect, it } from 'vitest';
import type { ReadingMap } from '../job/reading-map.ts';
import { LIMITS, setupOf } from '../job/testing/givens.ts';
import { busMap, lineMap } from '../job/testing/maps.ts';
import type { Port, PortEvents } from '../link/ports/port.ts';
import { createBusSite, putFloat, registerOf } from '../link/testing/bus.ts';
import { createManualTimers } from '../link/testing/timers.ts';
import type { Timers } from '../link/timers.ts';
import { DeviceClock } from '../record/clock-apart.ts';
import type { LogEntry } from '../record/log.ts';
import { contentOf } from '../record/manifest.ts';
import { MapSaid } from '../record/map-said.ts';
import { scanRun } from '../record/reader.ts';
import { captureOf } from '../record/testing/capture.ts';
import { createPageWriter } from '../record/writer.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import { judgeAgain } from './judge-again.ts';
import type { MappedPort } from './messages.ts';
import { fileOf } from './run-list.ts';
import { createHostBench } from './testing/bench.ts';

const RATED = { ...LIMITS, ratedBar: 1.8, uBar: 0.03, ceilingBar: 1.77, workingBar: 1.5 };

const portBy = (map: ReadingMap): MappedPort => ({
  kind: 'serial',
  index: 0,
  usbVendorId: 1,
  usbProductId: 2,
  map,
});

function bench(openPort: (timers: Timers) => Port) {
  const timers = createManualTimers();
  let port: Port | null = null;
  const host = createHostBench({
    timers,
    openPort: async (_, on) => {
      port ??= openPort(on);
      return { port, rig: null, speed: 1 };
    },
  });
  return host;
}

/** A bus whose pressure is put by the test, read by the engine. */
function busBench() {
  const unit = new Map([[registerOf(3, 2), 0]]);
  putFloat(unit, 3, 0, 0);
  let site: ReturnType<typeof createBusSite> | null = null;
  const host = bench((on) => {
    site = createBusSite(on, 19_200);
    site.units.set(1, unit);
    site.units.set(2, new Map([[registerOf(4, 10), 205]]));
    return site.port;
  });
  return { host, put: (bar: number) => putFloat(unit, 3, 0, bar), site: () => site! };
}

async function recorded() {
  const { host, put, site } = busBench();
  await host.ask({ q: 'connect', port: portBy(busMap()) });
  await host.run(3000);
  const channels = suggestChannels(host.moment().link.channels);
  const setup = setupOf({ limits: RATED, channels, rateHz: 20 });
  const { runId } = await host.ask({
    q: 'open-run',
    jobId: null,
    title: 'By a map',
    practice: false,
    setup,
  });
  for (let i = 0; i <= 95; i++) {
    put(i / 50);
    await host.run(100);
  }
  const alarms = host
    .events()
    .flatMap((e) => (e.e === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));
  site().pull();
  await host.run(2000);
  site().replug();
  await host.run(3000);
  put(0);
  await host.run(5000);
  await host.ask({ q: 'end-run' });
  const file = await host.files.readAll(fileOf(runId));
  return { file, alarms, host, runId };
}

const entriesOf = (file: Uint8Array): LogEntry[] => {
  const entries: LogEntry[] = [];
  scanRun(file, { entry: (entry) => entries.push(entry) });
  return entries;
};

/** The pages of these entries, and what is found in them. */
function held(file: Uint8Array, entries: readonly LogEntry[]) {
  const writer = createPageWriter(scanRun(file).head!);
  for (const entry of entries) writer.addEntry(entry);
  const said = new MapSaid();
  const pages = writer.finish(null, 'ended');
  scanRun(pages, { page: (page) => said.page(page) });
  return { findings: said.findings(), remarks: said.remarks(), pages };
}

describe('a run that was read off a bus', () => {
  it('is guarded and recorded as one of a device; its record gives the same events again', async () => {
    const { file, alarms } = await recorded();
    expect(alarms).toContain('ceiling');
    const { recorded: before, again, damage } = judgeAgain(file);
    expect(damage).toEqual([]);
    expect(before.length).toBeGreaterThan(5);
    expect(again).toEqual(before);
    // The page that tells of a lost port tells it of this one too.
    expect(before.some((e) => e.e === 'gap' && e.reason === 'port')).toBe(true);
    expect(before.some((e) => e.e === 'device' && e.what === 'reset')).toBe(false);
  });

  it('keeps what each sample was made of: the very bytes of the bus, the map, and whose clock it is', async () => {
    const { file } = await recorded();
    const entries = entriesOf(file);
    const samples = entries.filter((e) => e.l === 'frame' && e.frame.t === 'S');
    expect(samples.length).toBeGreaterThan(150);
    expect(samples.every((e) => e.l === 'frame' && e.raw !== undefined && e.raw.length > 0)).toBe(true);
    const { content } = contentOf(file)!;
    expect(content.maps).toEqual([busMap()]);
    // 01 03 06 …: the first answer as it came.
    const capture = await captureOf(file);
    expect([...capture.subarray(0, 3)].slice(0, 2)).toEqual([capture[0], capture[0] === 1 ? 3 : 4]);
    expect(new TextDecoder('latin1').decode(capture)).not.toContain('H,1,');
    // A clock that is the computer's own is no second witness of time.
    const clock = new DeviceClock();
    scanRun(file, { page: (page) => clock.page(page) });
    expect(clock.remarks()).toEqual([]);
  });

  it('verification makes the samples again: sound as they are, found where one was changed', async () => {
    const { file } = await recorded();
    const entries = entriesOf(file);
    const sound = held(file, entries);
    expect(sound.findings).toEqual([]);
    expect(sound.remarks).toEqual([
      { r: 'read-by-map', map: 'registers', lacks: ['clock', 'guard', 'button'] },
    ]);
    // Pages of pages: what was written is read back whole.
    expect(entriesOf(sound.pages)).toEqual(entries);

    const n = entries.findIndex((e, i) => i > 200 && e.l === 'frame' && e.frame.t === 'S');
    const changed = (change: (e: Extract<LogEntry, { l: 'frame' }>) => LogEntry) =>
      held(
        file,
        entries.map((e, i) => (i === n && e.l === 'frame' ? change(e) : e)),
      ).findings;
    const lower = changed((e) =>
      e.frame.t === 'S' ? { ...e, frame: { ...e.frame, counts: [100_000, null] } } : e,
    );
    expect(lower).toMatchObject([{ f: 'translation', count: 1 }]);
    // Without its evidence a sample is nobody's.
    expect(changed(({ raw: _, ...e }) => e)).toMatchObject([{ f: 'translation', count: 1 }]);
    // With another scale in the map, what follows from it is another pressure.
    const scaled = entries.map((e) =>
      e.l === 'frame' && e.map?.is === 'registers'
        ? { ...e, map: { ...e.map, channels: e.map.channels.map((c) => ({ ...c, scale: 0.5 * c.scale })) } }
        : e,
    );
    expect(held(file, scaled).findings[0]!.count).toBeGreaterThan(100);
  });

  it('lost bytes and a disturbed line stand in the record as what they were', async () => {
    const { host, site } = busBench();
    await host.ask({ q: 'connect', port: portBy(busMap()) });
    await host.run(1000);
    site().say(Uint8Array.of(1, 2, 3));
    await host.run(1000);
    expect(host.moment().link.strayBytes).toBe(3);
    expect(host.moment().link.error).toBeNull();
  });

  it('a trial reading shows each value, and is refused in a run', async () => {
    const { host, put } = busBench();
    put(1.25);
    const port = portBy(busMap());
    const found = await host.ask({ q: 'test-read', port });
    expect(found).toMatchObject({ trouble: null, channels: [{ value: 1.25, doubt: null }, { value: 20.5 }] });
    const swapped = busMap();
    const wrong = { ...swapped, channels: swapped.channels.map((c) => ({ ...c, order: 'cdab' as const })) };
    const other = await host.ask({ q: 'test-read', port: portBy(wrong) });
    expect(other.channels[0]).toMatchObject({ value: null, doubt: 'no-number' });
    expect(other.channels[0]!.orders.filter((o) => o.fits)).toEqual([
      { order: 'abcd', value: 1.25, fits: true },
    ]);
    await host.ask({ q: 'connect', port });
    const setup = setupOf({ channels: suggestChannels(host.moment().link.channels) });
    await host.ask({ q: 'open-run', jobId: null, title: 'x', practice: false, setup });
    await expect(host.ask({ q: 'test-read', port })).rejects.toMatchObject({ code: 'run-open' });
  });

  it('what is no map is refused before any port is opened', async () => {
    const { host } = busBench();
    const port = portBy({ ...busMap(), channels: [] });
    await expect(host.ask({ q: 'connect', port })).rejects.toMatchObject({ code: 'bad-request' });
  });

  it('a run opened a while after connecting brings map and evidence along', async () => {
    const { host } = busBench();
    await host.ask({ q: 'connect', port: portBy(busMap()) });
    await host.run(5000);
    const setup = setupOf({ channels: suggestChannels(host.moment().link.channels), limits: RATED });
    const { runId } = await host.ask({ q: 'open-run', jobId: null, title: 'x', practice: false, setup });
    await host.run(1000);
    await host.ask({ q: 'end-run' });
    const file = await host.files.readAll(fileOf(runId));
    const said = new MapSaid();
    scanRun(file, { page: (page) => said.page(page) });
    expect(said.findings()).toEqual([]);
    expect(said.remarks()).toHaveLength(1);
    expect(entriesOf(file).filter((e) => e.l === 'frame' && e.raw !== undefined).length).toBeGreaterThan(80);
  });
});

it('a run read off a plain line is an unchecked one', async () => {
  let to: PortEvents | null = null;
  const host = bench(() => ({
    identity: { kind: 'serial' },
    open: async (events) => {
      to = events;
    },
    write: async () => undefined,
    close: async () => undefined,
  }));
  const say = (text: string): void => to?.bytes(new TextEncoder().encode(text));
  const connected = host.ask({ q: 'connect', port: portBy(lineMap()) });
  await host.run(20);
  say('\n0.02,20.1\n');
  await connected;
  const setup = setupOf({ channels: suggestChannels(host.moment().link.channels), limits: RATED });
  const { runId } = await host.ask({ q: 'open-run', jobId: null, title: 'x', practice: false, setup });
  for (let i = 0; i < 30; i++) {
    say(`${(i / 20).toFixed(2)},20.1\r\n`);
    await host.run(100);
  }
  expect(host.moment().view.bar).toBeCloseTo(1.45, 2);
  await host.ask({ q: 'end-run' });
  const file = await host.files.readAll(fileOf(runId));
  const said = new MapSaid();
  scanRun(file, { page: (page) => said.page(page) });
  expect(said.findings()).toEqual([]);
  expect(said.remarks()).toEqual([
    { r: 'read-by-map', map: 'columns', lacks: ['check', 'clock', 'guard', 'button'] },
  ]);
  expect(new TextDecoder().decode(await captureOf(file))).toContain('1.45,20.1\r');
  const { recorded: before, again } = judgeAgain(file);
  expect(again).toEqual(before);
});
