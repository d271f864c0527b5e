import { describe, expect, it } from 'vitest';
import { createScriptedPort } from '../link/testing/device.ts';
import { bytesSource } from '../record/byte-source.ts';
import type { LogEntry } from '../record/log.ts';
import { scanRun } from '../record/reader.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { createLossyStore } from '../record/stores/testing/memory.ts';
import type { Reading } from '../sensing/reading.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import { createRun, stepRun } from './core.ts';
import { judgeAgain } from './judge-again.ts';
import { outlineOf } from './outline.ts';

import { createHostBench, practiceSetup } from './testing/bench.ts';
import { senseRun } from './testing/readings-alone.ts';

const SERIAL = {
  q: 'connect',
  port: { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null },
} as const;
const { limits: LIMITS } = practiceSetup();

/** 4-20 mA over the span on 16 bits of 0-25 mA (the scripted device's own scale). */
const countsOver = (spanBar: number) => (bar: number) =>
  Math.floor(((4000 + (bar / spanBar) * 16_000) / 25_000) * 65_535);
const first = countsOver(6);
const second = countsOver(10);

/** A run in the stage before the fill, zeroed on sb-7 by 40 mbar; then sb-8, of another span, in its place. */
async function swapped() {
  const channel: { rangeHi?: number } = {};
  const site = createScriptedPort({}, channel);
  const files = createLossyStore();
  const documents = createMemoryDocuments();
  const b = createHostBench({
    files,
    documents,
    openPort: async () => ({ port: site.port, rig: null, speed: 1 }),
  });
  const { device } = site;
  const stream = async (counts: number, ms = 1000) => {
    for (let i = 0; i < ms / 20; i++) {
      device.sample(counts);
      await b.run(20);
    }
  };
  await b.ask(SERIAL);
  const setup = practiceSetup({ practice: false, channels: suggestChannels(b.moment().link.channels) });
  const { runId } = await b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: false, setup });
  await stream(first(-0.04), 2000);
  await b.ask({ q: 'command', command: { c: 'zero' } });
  await stream(first(0.3), 2000);
  expect(b.moment().view.bar).toBeCloseTo(0.34, 2);
  const be = (deviceId: string, bootId: number, spanBar: number) => {
    device.reset(bootId);
    Object.assign(device.hello, { deviceId });
    channel.rangeHi = spanBar * 100_000;
  };
  be('sb-8', 99, 10);
  device.greet();
  await stream(second(0), 3000);
  const of = (ceilingBar: number, number = 2) =>
    practiceSetup({
      number,
      practice: false,
      channels: suggestChannels(b.moment().link.other?.channels ?? []),
      limits: { ...LIMITS!, ratedBar: 2.5, ceilingBar, workingBar: Math.min(1.5, ceilingBar) },
    });
  const armed = () =>
    device.done.flatMap((k) => (k.command.verb === 'limit' ? [[k.command.mbar, k.command.counts]] : []));
  const told = () => b.events().flatMap((e) => (e.e === 'device' ? [e.what] : []));
  const lost = () => b.moment().view.alarms.find((a) => a.alarm === 'pressure-lost')?.state ?? null;
  return { ...site, b, files, documents, stream, be, of, armed, told, lost, runId };
}

describe('another device that is taken for the run', () => {
  it('is offered by its name and channels, read by its own scale, without a zero, and armed by both', async () => {
    const { b, stream, of, armed, told, lost } = await swapped();
    expect(b.moment().link).toMatchObject({ error: 'other-device', other: { hello: { deviceId: 'sb-8' } } });
    const before = armed().length;
    await b.ask({ q: 'take-device', deviceId: 'sb-8', setup: of(1.6) });
    await stream(second(0.3), 4000);
    expect(b.moment().link).toMatchObject({ state: 'streaming', error: null, other: null });
    expect(b.moment().link.hello?.deviceId).toBe('sb-8');
    expect(b.moment().view.bar).toBeCloseTo(0.3, 2);
    expect(b.moment().view.standing).toContain('not-zeroed');
    expect(b.moment().view.limits?.ceilingBar).toBe(1.6);
    expect(lost()).toBe('returned');
    expect(told()).toEqual(['greeted', 'other', 'taken']);
    const since = armed().slice(before);
    expect(since.length).toBeGreaterThan(0);
    for (const [mbar, at] of since) {
      expect(mbar).toBe(1600);
      expect(Math.abs(at! - second(1.6))).toBeLessThanOrEqual(1);
    }
    // Its own zero is taken like the first one's.
    await stream(second(0.02), 2000);
    await b.ask({ q: 'command', command: { c: 'zero' } });
    await stream(second(0.32), 2000);
    expect(b.moment().view.bar).toBeCloseTo(0.3, 2);
    expect(b.moment().view.standing).not.toContain('not-zeroed');
  });

  it('is the run’s from then on: unplugged it comes back, and the first one is the other', async () => {
    const { b, device, stream, be, of, pull, state } = await swapped();
    await b.ask({ q: 'take-device', deviceId: 'sb-8', setup: of(1.6) });
    await stream(second(0.3), 3000);
    pull();
    await b.run(500);
    state.present = true;
    await stream(second(0.3), 4000);
    expect(b.moment().link).toMatchObject({ state: 'streaming', error: null });
    be('sb-7', 41, 6);
    device.greet();
    await stream(first(0.3), 3000);
    expect(b.moment().link).toMatchObject({ error: 'other-device', other: { hello: { deviceId: 'sb-7' } } });
  });

  it('is taken only where a run is open, where it answers, and under the limits of the run', async () => {
    const { b, stream, of, told, armed, lost } = await swapped();
    const before = armed().length;
    const take = (deviceId: string, ceilingBar: number) =>
      b.ask({ q: 'take-device', deviceId, setup: of(ceilingBar) });
    await expect(take('sb-9', 1.6)).rejects.toMatchObject({ code: 'not-connected' });
    await expect(take('sb-8', 1.9)).rejects.toMatchObject({ code: 'refused' });
    await expect(
      b.ask({ q: 'command', command: { c: 'take-device', deviceId: 'sb-8' } }),
    ).rejects.toMatchObject({ code: 'bad-request' });
    // A Setup that comes later takes nobody.
    await b.ask({ q: 'setup', setup: of(1.6) });
    await stream(second(0.3), 3000);
    expect(told()).toEqual(['greeted', 'other']);
    expect(lost()).toBe('unacknowledged');
    expect(armed()).toHaveLength(before);
    await b.ask({ q: 'end-run' });
    await expect(take('sb-8', 1.6)).rejects.toMatchObject({ code: 'no-run' });
  });

  it('its record names it, gives the same events again, and the same values', async () => {
    const { b, stream, of, runId } = await swapped();
    await b.ask({ q: 'take-device', deviceId: 'sb-8', setup: of(1.6) });
    await stream(second(0.3), 3000);
    await b.ask({ q: 'end-run' });
    const bytes = await b.files.readAll(`${runId}.run`);
    const { recorded, again, damage } = judgeAgain(bytes);
    expect(damage).toEqual([]);
    expect(again).toEqual(recorded);
    const entries: LogEntry[] = [];
    const judged: Reading[] = [];
    const { head } = scanRun(bytes, { entry: (e) => entries.push(e) });
    const run = createRun(head!);
    for (const entry of entries)
      stepRun(run, entry, {
        event: () => undefined,
        reading: (r) => judged.push(structuredClone(r)),
      });
    const sense = senseRun(head!, recorded);
    const sensed = entries.flatMap((entry) => {
      const reading = sense(entry);
      return reading === null ? [] : [structuredClone(reading)];
    });
    expect(sensed).toEqual(judged);
    expect(judged.at(-1)?.bar).toBeCloseTo(0.3, 2);
    expect(await outlineOf(bytesSource(bytes))).toMatchObject({
      hello: { deviceId: 'sb-8' },
      channels: [{ rangeHi: 1e6 }],
    });
  });

  it('does not name a record by a device that only answered', async () => {
    const { b, runId } = await swapped();
    await b.ask({ q: 'end-run' });
    const outline = await outlineOf(await b.files.source(`${runId}.run`));
    expect(outline).toMatchObject({ hello: { deviceId: 'sb-7' }, channels: [{ rangeHi: 600_000 }] });
  });

  it('a log that breaks off between the word and its Setup leaves the run with its first device', async () => {
    const { b, runId } = await swapped();
    await b.ask({ q: 'end-run' });
    const entries: LogEntry[] = [];
    const { head } = scanRun(await b.files.readAll(`${runId}.run`), { entry: (e) => entries.push(e) });
    const run = createRun(head!);
    const sink = { event: () => undefined };
    for (const entry of entries)
      if (entry.l !== 'notice' || entry.notice.n !== 'end') stepRun(run, entry, sink);
    const tUs = run.nowUs;
    const setup = practiceSetup({ number: 5, practice: false });
    stepRun(run, { l: 'command', tUs, command: { c: 'take-device', deviceId: 'sb-8' } }, sink);
    const gap = { n: 'gap', reason: 'resumed', fromUs: tUs, toUs: tUs + 1e6, lost: 0 } as const;
    stepRun(run, { l: 'notice', tUs: tUs + 1e6, notice: gap }, sink);
    stepRun(run, { l: 'setup', tUs: tUs + 1e6, setup }, sink);
    expect(run).toMatchObject({ foreign: true, hello: { deviceId: 'sb-7' }, setup: { number: 5 } });
    stepRun(run, { l: 'command', tUs: tUs + 1e6, command: { c: 'take-device', deviceId: 'sb-9' } }, sink);
    stepRun(run, { l: 'setup', tUs: tUs + 1e6, setup: { ...setup, number: 6 } }, sink);
    expect(run.hello?.deviceId).toBe('sb-7');
  });
});

describe('another device after a restart of the tablet', () => {
  it('is let go when the run of the first one is resumed, told as that, and can be taken', async () => {
    const { files, documents, device, of, port, runId, armed } = await swapped();
    const next = createHostBench({
      files: files.kill(),
      documents,
      openPort: async () => ({ port, rig: null, speed: 1 }),
    });
    const stream = async (ms: number) => {
      for (let i = 0; i < ms / 20; i++) {
        device.sample(second(0.3));
        await next.run(20);
      }
    };
    await next.ask(SERIAL);
    await stream(1000);
    const before = armed().length;
    await next.ask({ q: 'resume-run', runId });
    await stream(3000);
    expect(next.moment().link).toMatchObject({
      error: 'other-device',
      other: { hello: { deviceId: 'sb-8' } },
    });
    expect(next.moment().view.alarms).toMatchObject([
      { alarm: 'pressure-lost', values: { cause: 'other-device' } },
    ]);
    expect(armed()).toHaveLength(before);
    const setup = { ...of(1.6), channels: suggestChannels(next.moment().link.other?.channels ?? []) };
    await next.ask({ q: 'take-device', deviceId: 'sb-8', setup });
    await stream(3000);
    expect(next.moment().view.bar).toBeCloseTo(0.3, 2);
    expect(armed().at(-1)).toEqual([1600, second(1.6)]);
  });

  it('can be taken once the run is resumed without it', async () => {
    const { files, documents, device, of, port, runId } = await swapped();
    const next = createHostBench({
      files: files.kill(),
      documents,
      openPort: async () => ({ port, rig: null, speed: 1 }),
    });
    await next.ask({ q: 'resume-run', runId });
    await expect(next.ask(SERIAL, 30_000)).rejects.toMatchObject({ code: 'other-device' });
    await next.run(200);
    expect(next.moment().link).toMatchObject({ state: 'idle', other: { hello: { deviceId: 'sb-8' } } });
    const setup = { ...of(1.6), channels: suggestChannels(next.moment().link.other?.channels ?? []) };
    await next.ask({ q: 'take-device', deviceId: 'sb-8', setup });
    for (let i = 0; i < 100; i++) {
      device.sample(second(0.3));
      await next.run(20);
    }
    expect(next.moment().link.state).toBe('streaming');
    expect(next.moment().view.bar).toBeCloseTo(0.3, 2);
  });
});
