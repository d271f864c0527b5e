import { describe, expect, it } from 'vitest';
import { FIRST_BESIDE } from '../job/beside.ts';
import type { ReadingMap } from '../job/reading-map.ts';
import { LIMITS, setupOf } from '../job/testing/givens.ts';
import { busMap, lineMap } from '../job/testing/maps.ts';
import type { Port, PortEvents } from '../link/ports/port.ts';
import { PortError } from '../link/ports/port.ts';
import { createBusSite, putFloat, registerOf } from '../link/testing/bus.ts';
import { createScriptedPort } from '../link/testing/device.ts';
import { createManualTimers } from '../link/testing/timers.ts';
import type { LogEntry } from '../record/log.ts';
import { contentOf } from '../record/manifest.ts';
import { MapSaid } from '../record/map-said.ts';
import { scanRun } from '../record/reader.ts';
import { createPageWriter } from '../record/writer.ts';
import { suggestBeside, suggestChannels } from '../sensing/suggest.ts';
import { judgeAgain } from './judge-again.ts';
import type { SerialChoice } from './messages.ts';
import { fileOf } from './run-list.ts';
import { createHostBench } from './testing/bench.ts';

const SLEEVE = FIRST_BESIDE;
const FIRST: SerialChoice = { kind: 'serial', index: 0, usbVendorId: 1, usbProductId: 2 };
const SECOND: SerialChoice = { kind: 'serial', index: 1, usbVendorId: 3, usbProductId: 4 };

/** A thermometer that prints a line. */
const thermometer = (): ReadingMap => {
  const map = lineMap();
  const [, temperature] = map.channels;
  return { ...map, deviceId: 'WARM-1', cells: 1, channels: [{ ...temperature!, column: 1 }] };
};

function createLinePort() {
  let events: PortEvents | null = null;
  let last: PortEvents | null = null;
  let present = true;
  const port: Port = {
    identity: { kind: 'serial' },
    async open(to) {
      last = to;
      if (!present) throw new PortError('port-gone', 'unplugged');
      events = to;
    },
    async write() {},
    async close() {
      events = null;
    },
  };
  return {
    port,
    say: (text: string) => events?.bytes(new TextEncoder().encode(text)),
    pull() {
      present = false;
      const to = events;
      events = null;
      to?.gone('NetworkError');
    },
    plug() {
      present = true;
      last?.arrived?.();
    },
  };
}

async function twoAdapters() {
  const timers = createManualTimers();
  const device = createScriptedPort({ maxRateHz: 10 });
  const line = createLinePort();
  const host = createHostBench({
    timers,
    openPort: async (choice) => ({
      port: choice.kind === 'serial' && choice.index === 1 ? line.port : device.port,
      rig: null,
      speed: 1,
    }),
  });
  const world = { bar: 0, c: 18, streams: true, prints: true };
  /** So many seconds: the device ten times a second, the thermometer twice. */
  const run = async (seconds: number) => {
    for (let i = 0; i < seconds * 10; i++) {
      // 4-20 mA over 25 mA on 16 bits, 0-6 bar.
      const mA = 4 + (world.bar / 6) * 16;
      if (world.streams) device.device.sample(Math.round((mA / 25) * 65_535), 1000);
      if (world.prints && i % 5 === 0) line.say(`${world.c.toFixed(1)}\r\n`);
      await host.run(100);
    }
  };
  await host.ask({ q: 'connect', port: FIRST });
  await run(1);
  const connected = host.ask({ q: 'connect-beside', port: { ...SECOND, map: thermometer() } });
  for (let i = 0; i < 6; i++) {
    line.say(`${world.c.toFixed(1)}\r\n`);
    await host.run(20);
  }
  await connected;
  await run(2);
  const setup = (number: number) => {
    const { link } = host.moment();
    return setupOf({
      number,
      limits: { ...LIMITS, ratedBar: 1.8, ceilingBar: 1.75, workingBar: 1.5 },
      channels: [...suggestChannels(link.channels), ...suggestBeside(link.beside?.channels ?? [])],
      ...(link.beside?.hello == null ? {} : { besideId: link.beside.hello.deviceId }),
    });
  };
  const sleeve = () => host.moment().view.temps.find((t) => t.channel === SLEEVE)?.c;
  return { host, device, line, world, run, setup, sleeve };
}

async function recorded(during: (site: Awaited<ReturnType<typeof twoAdapters>>) => Promise<void>) {
  const site = await twoAdapters();
  const { runId } = await site.host.ask({
    q: 'open-run',
    jobId: null,
    title: 'Two adapters',
    practice: false,
    setup: site.setup(1),
  });
  await during(site);
  await site.host.ask({ q: 'end-run' });
  const file = await site.host.files.readAll(fileOf(runId));
  const entries: LogEntry[] = [];
  scanRun(file, { entry: (entry) => entries.push(entry) });
  return { ...site, file, entries, runId };
}

const besideEvents = (events: readonly { e: string }[]) =>
  events.flatMap((e) => (e.e === 'beside' ? [(e as { e: 'beside'; what: string }).what] : []));

describe('pressure from one adapter, temperatures from another', () => {
  it('stand beside each other from the first on, before a run too; only the first is armed', async () => {
    const { host, sleeve, device, world, run } = await twoAdapters();
    expect(sleeve()).toBeCloseTo(18, 3);
    expect(host.moment().view.bar).toBeCloseTo(0, 2);
    world.c = 25;
    await run(1);
    expect(sleeve()).toBeCloseTo(25, 3);
    expect(host.moment().link.beside).toMatchObject({ state: 'streaming', hello: { deviceId: 'WARM-1' } });
    expect(device.device.done.some((k) => k.command.verb === 'limit')).toBe(false);
  });

  it('losing the second is said, the pressure goes on, and it comes back by itself', async () => {
    const { host, file } = await recorded(async ({ run, line, world, host, sleeve }) => {
      await run(3);
      line.pull();
      world.bar = 0.5;
      await run(8);
      expect(host.moment().view.bar).toBeCloseTo(0.5, 1);
      expect(sleeve()).toBeNull();
      expect(host.moment().link).toMatchObject({ state: 'streaming', beside: { state: 'lost' } });
      world.c = 31;
      line.plug();
      await run(3);
      expect(sleeve()).toBeCloseTo(31, 3);
    });
    expect(host.moment().link.state).toBe('streaming');
    const { recorded: before, again, damage } = judgeAgain(file);
    expect(damage).toEqual([]);
    expect(again).toEqual(before);
    expect(besideEvents(before)).toEqual(['greeted', 'port', 'back']);
    // Nothing of it is a gap of the pressure.
    expect(before.filter((e) => e.e === 'gap')).toEqual([]);
  });

  it('losing the first is alarmed as ever, and the temperatures go on', async () => {
    const { file } = await recorded(async ({ run, world, device, host, sleeve }) => {
      world.bar = 0.8;
      await run(3);
      device.pull();
      world.streams = false;
      world.c = 44;
      await run(12);
      expect(host.moment().view.stale).toBe(true);
      expect(host.moment().view.alarms.map((a) => a.alarm)).toContain('pressure-lost');
      expect(sleeve()).toBeCloseTo(44, 3);
      // And they are drawn, though no pressure stands beside them.
      const drawn = host.moments().flatMap((m) => (m.m === 'moment' ? [...m.fresh.bar] : []));
      expect(drawn.slice(-5)).toEqual([NaN, NaN, NaN, NaN, NaN]);
    });
    const { recorded: before, again } = judgeAgain(file);
    expect(again).toEqual(before);
    expect(besideEvents(before)).toEqual(['greeted']);
  });

  it('one that falls silent is said to be, without a word of its port', async () => {
    const { file } = await recorded(async ({ run, world }) => {
      await run(3);
      world.prints = false;
      await run(8);
      world.prints = true;
      await run(3);
    });
    const { recorded: before } = judgeAgain(file);
    expect(besideEvents(before)).toEqual(['greeted', 'silent', 'back']);
  });

  it('the record says which source, by pages of a format of their own; what is changed in it is found', async () => {
    const { file, entries } = await recorded(async ({ run, world }) => {
      world.c = 22.5;
      await run(4);
    });
    const formats = new Set<number>();
    const said = new MapSaid();
    scanRun(file, {
      page(page) {
        formats.add(page.header.format);
        said.page(page);
      },
    });
    expect(formats).toContain(2);
    expect(said.findings()).toEqual([]);
    expect(said.remarks()).toEqual([
      { r: 'read-by-map', map: 'columns', lacks: ['check', 'clock'], beside: true },
    ]);
    const { content } = contentOf(file)!;
    expect(content.maps).toBeUndefined();
    expect(content.beside).toEqual([{ deviceId: 'WARM-1', map: thermometer() }]);
    const samples = entries.filter((e) => e.l === 'beside' && e.frame.t === 'S');
    expect(samples.length).toBeGreaterThan(6);
    const last = samples.at(-1);
    expect(last?.l === 'beside' && last.frame.t === 'S' ? last.frame.counts : null).toEqual([22_500]);
    const writer = createPageWriter(scanRun(file).head!);
    for (const e of entries)
      writer.addEntry(
        e === last && e.l === 'beside' && e.frame.t === 'S'
          ? { ...e, frame: { ...e.frame, counts: [60_000] } }
          : e,
      );
    const changed = new MapSaid();
    scanRun(writer.finish(null, 'ended'), { page: (page) => changed.page(page) });
    expect(changed.findings()).toMatchObject([{ f: 'translation', count: 1 }]);
  });

  it('another one in its place is told and not read; a Setup that names it takes it', async () => {
    const { file } = await recorded(async ({ run, world, host, sleeve, line, setup }) => {
      await run(2);
      await host.ask({ q: 'disconnect-beside' });
      expect(host.moment().link.beside).toBeNull();
      world.c = 60;
      const other = { ...thermometer(), deviceId: 'WARM-2' };
      const connected = host.ask({ q: 'connect-beside', port: { ...SECOND, map: other } });
      for (let i = 0; i < 6; i++) {
        line.say('60.0\r\n');
        await host.run(20);
      }
      await connected;
      await run(7);
      expect(sleeve()).toBeNull();
      await host.ask({ q: 'setup', setup: setup(2) });
      await run(1);
      expect(sleeve()).toBeCloseTo(60, 3);
    });
    const { recorded: before, again } = judgeAgain(file);
    expect(again).toEqual(before);
    expect(besideEvents(before)).toEqual(['greeted', 'closed', 'other', 'greeted', 'back']);
  });

  it('a fast line is thinned: five samples a second of each value stand in the record', async () => {
    const { entries } = await recorded(async ({ line, host, run }) => {
      for (let i = 0; i < 200; i++) {
        line.say('20.0\r\n');
        await host.run(20);
      }
      await run(1);
    });
    const kept = entries.filter((e) => e.l === 'beside' && e.frame.t === 'S').length;
    expect(kept).toBeLessThan(45);
  });

  it('a bus and a bus: pressure by one map, temperatures of two units by another', async () => {
    const timers = createManualTimers();
    const sites: ReturnType<typeof createBusSite>[] = [];
    const host = createHostBench({
      timers,
      openPort: async (_, on) => {
        const site = createBusSite(on, 19_200);
        const unit = new Map([[registerOf(3, 2), 0]]);
        putFloat(unit, 3, 0, 1.25);
        if (sites.length === 0) site.units.set(1, unit);
        site.units.set(2, new Map([[registerOf(4, 10), 205]]));
        site.units.set(3, new Map([[registerOf(4, 10), 317]]));
        sites.push(site);
        return { port: site.port, rig: null, speed: 1 };
      },
    });
    const [, temperature] = busMap().channels;
    const warm = busMap({
      deviceId: 'BUS-2',
      channels: [temperature!, { ...temperature!, address: 3, place: 'air' }],
    });
    await host.ask({
      q: 'connect',
      port: { ...FIRST, map: busMap({ channels: busMap().channels.slice(0, 1) }) },
    });
    await host.ask({ q: 'connect-beside', port: { ...SECOND, map: warm } });
    await host.run(3000);
    const { view, link } = host.moment();
    expect(view.bar).toBeCloseTo(1.25, 3);
    expect(view.temps.map((t) => [t.channel, t.place, t.c])).toEqual([
      [SLEEVE, 'sleeve', 20.5],
      [SLEEVE + 1, 'air', 31.7],
    ]);
    // One of its units is off: that value is missing, and nothing else.
    sites[1]!.units.delete(3);
    await host.run(12_000);
    expect(host.moment().view.temps.map((t) => t.c)).toEqual([20.5, null]);
    expect(host.moment().view.bar).toBeCloseTo(1.25, 3);
    expect(link.beside?.map).toEqual(warm);
  });

  it('needs the device with the pressure first, and a thermometer behind it', async () => {
    const device = createScriptedPort();
    const host = createHostBench({ openPort: async () => ({ port: device.port, rig: null, speed: 1 }) });
    await expect(host.ask({ q: 'connect-beside', port: SECOND })).rejects.toMatchObject({
      code: 'not-connected',
    });
    await host.ask({ q: 'connect', port: FIRST });
    const other = createScriptedPort();
    const two = createHostBench({
      openPort: async (choice) => ({
        port: choice.kind === 'serial' && choice.index === 1 ? other.port : device.port,
        rig: null,
        speed: 1,
      }),
    });
    await two.ask({ q: 'connect', port: FIRST });
    await expect(two.ask({ q: 'connect-beside', port: SECOND })).rejects.toMatchObject({
      code: 'no-temperature',
    });
    expect(two.moment().link.beside).toBeNull();
    expect(two.moment().link.state).toBe('streaming');
  });
});
