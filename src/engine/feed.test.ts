import { describe, expect, it } from 'vitest';
import type { HostVerb } from '../link/frames.ts';
import type { Port } from '../link/ports/port.ts';
import { createScriptedPort } from '../link/testing/device.ts';
import { createManualTimers } from '../link/testing/timers.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { createLossyStore } from '../record/stores/testing/memory.ts';
import { judgeAgain } from './judge-again.ts';
import { type BenchOptions, createHostBench, practiceSetup } from './testing/bench.ts';

const SERIAL = {
  q: 'connect',
  port: { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null },
} as const;
const LIMITS = practiceSetup().limits!;

/** A device whose commands take a while to get there. */
function slowDevice(delayMs: number, stores: Pick<BenchOptions, 'files' | 'documents'> = {}) {
  const timers = createManualTimers();
  const scripted = createScriptedPort();
  const port: Port = {
    ...scripted.port,
    async write(bytes) {
      const copy = bytes.slice();
      timers.after(delayMs, () => void scripted.port.write(copy).catch(() => undefined));
    },
  };
  const b = createHostBench({ ...stores, timers, openPort: async () => ({ port, rig: null, speed: 1 }) });
  const { device } = scripted;
  const limits = () =>
    device.done.flatMap((k) => (k.command.verb === 'limit' ? [[k.command.mbar, k.command.counts]] : []));
  const sent = (verb: HostVerb['verb']) => device.done.filter((k) => k.command.verb === verb);
  /** A second of samples at 50 Hz. */
  const second = async (counts: number) => {
    for (let i = 0; i < 50; i++) {
      device.sample(counts);
      await b.run(20);
    }
  };
  const setup = (number: number, ceilingBar: number) =>
    practiceSetup(
      { number, limits: { ...LIMITS, ceilingBar, workingBar: Math.min(1.5, ceilingBar) } },
      b.moment().link.channels,
    );
  const open = (number: number, ceilingBar: number) =>
    b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: false, setup: setup(number, ceilingBar) });
  return { b, scripted, device, limits, sent, second, setup, open };
}

// 4-20 mA over 0-6 bar on 16 bits of 0-25 mA (the scripted device's own scale).
const counts = (bar: number): number => Math.floor(((4000 + (bar / 6) * 16_000) / 25_000) * 65_535);

describe('the limit in the device', () => {
  it('is the one in force, also where it is lowered while the one before is being set', async () => {
    const { b, limits, second, setup, open } = slowDevice(300);
    await b.ask(SERIAL);
    await second(counts(0));
    await open(1, 1.77);
    await b.ask({ q: 'setup', setup: setup(2, 1.5) });
    expect(limits()).toEqual([]);
    for (let i = 0; i < 4; i++) await second(counts(0));
    expect(limits().at(-1)).toEqual([1500, counts(1.5)]);
  });

  it('is set anew when the device tells of a higher one', async () => {
    const { b, device, limits, second, open } = slowDevice(5);
    await b.ask(SERIAL);
    await second(counts(0));
    await open(1, 1.5);
    await second(counts(0));
    expect(limits()).toEqual([[1500, counts(1.5)]]);
    for (let i = 0; i < 6; i++) await second(counts(0));
    const told = { t: 'G', tick: 0, state: 'armed', channel: 0, limitCounts: 40_000, sounder: 0 } as const;
    device.send({ ...told, limitMbar: 1500 });
    await second(counts(0));
    expect(limits()).toHaveLength(1);
    device.send({ ...told, limitMbar: 1700 });
    await second(counts(0));
    expect(limits()).toEqual([
      [1500, counts(1.5)],
      [1500, counts(1.5)],
    ]);
  });

  it('follows the zero: it trips at the pressure that the screen shows', async () => {
    const { b, limits, second, open } = slowDevice(5);
    await b.ask(SERIAL);
    await second(counts(0));
    await open(1, 1.5);
    // The open line reads 40 mbar low: without the zero the device would trip so much late.
    await second(counts(-0.04));
    await second(counts(-0.04));
    await b.ask({ q: 'command', command: { c: 'zero' } });
    await second(counts(-0.04));
    expect(b.moment().view.standing).not.toContain('not-zeroed');
    const [mbar, at] = limits().at(-1)!;
    expect(mbar).toBe(1500);
    expect(Math.abs(at! - counts(1.46))).toBeLessThanOrEqual(1);
  });
});

describe('after a run', () => {
  it('the limit and the zero that it counts on stay in force; another run takes its own zero', async () => {
    const { b, second, open } = slowDevice(5);
    await b.ask(SERIAL);
    await second(counts(-0.04));
    await b.ask({ q: 'command', command: { c: 'zero' } });
    await open(1, 1.5);
    await second(counts(1.4));
    const shown = b.moment().view.bar!;
    expect(shown).toBeCloseTo(1.44, 2);
    await b.ask({ q: 'end-run' });
    await second(counts(1.4));
    expect(b.moment().view.bar).toBeCloseTo(shown, 6);
    expect(b.moment().view.limits?.ceilingBar).toBe(1.5);
    expect(b.moment().view.standing).not.toContain('not-zeroed');
    await open(1, 1.5);
    await second(counts(1.4));
    expect(b.moment().view.standing).toContain('not-zeroed');
  });
});

describe('after a run that was seen to end empty', () => {
  it('the limit of its packer is none of the next one; at zero alone it stays', async () => {
    for (const done of [true, false]) {
      const { b, second, open } = slowDevice(5);
      await b.ask(SERIAL);
      await open(1, 1.5);
      await second(counts(0));
      if (done)
        for (const to of ['inflate', 'let-down', 'done'] as const)
          await b.ask({ q: 'command', command: { c: 'stage', to } });
      await second(counts(0));
      await b.ask({ q: 'end-run' });
      await second(counts(0));
      expect(b.moment().view.limits?.ceilingBar ?? null).toBe(done ? null : 1.5);
    }
  });
});

describe('connecting again without a run', () => {
  const alarms = (b: ReturnType<typeof slowDevice>['b']) =>
    b.moment().view.alarms.map((a) => [a.alarm, a.state]);

  it('ends no alarm before readings come; the same device keeps limit and zero', async () => {
    const { b, scripted, second, open } = slowDevice(5);
    await b.ask(SERIAL);
    await second(counts(-0.04));
    await b.ask({ q: 'command', command: { c: 'zero' } });
    await open(1, 1.5);
    await second(counts(1.4));
    await b.ask({ q: 'end-run' });
    await second(counts(1.4));
    scripted.pull();
    await b.run(500);
    const lost = [['pressure-lost', 'unacknowledged']];
    expect(alarms(b)).toEqual(lost);
    await expect(b.ask(SERIAL)).rejects.toMatchObject({ code: 'port-gone' });
    await b.run(500);
    expect(alarms(b)).toEqual(lost);
    scripted.state.present = true;
    await b.ask(SERIAL);
    await second(counts(1.4));
    await second(counts(1.4));
    await second(counts(1.4));
    expect(alarms(b)).toEqual([['pressure-lost', 'returned']]);
    expect(b.moment().view.bar).toBeCloseTo(1.44, 2);
    expect(b.moment().view.limits?.ceilingBar).toBe(1.5);
    expect(b.moment().view.standing).not.toContain('not-zeroed');
  });

  it('another device is read by its own scale, with no limit of the one before', async () => {
    const { b, device, scripted, second, open } = slowDevice(5);
    await b.ask(SERIAL);
    await open(1, 1.5);
    await second(counts(1.4));
    await b.ask({ q: 'end-run' });
    scripted.pull();
    scripted.state.present = true;
    Object.assign(device.hello, { deviceId: 'sb-8', bootId: 42 });
    await b.ask(SERIAL);
    await second(counts(1.4));
    expect(b.moment().link.hello?.deviceId).toBe('sb-8');
    expect(b.moment().view.bar).toBeCloseTo(1.4, 2);
    expect(b.moment().view.standing).toContain('no-limit');
  });
});

describe('a run that is taken up again', () => {
  it('gives the device its limit and its rate', async () => {
    const files = createLossyStore();
    const documents = createMemoryDocuments();
    const first = slowDevice(5, { files, documents });
    await first.b.ask(SERIAL);
    await first.second(counts(0));
    const channels = first.b.moment().link.channels;
    const setup = practiceSetup({ rateHz: 20, limits: { ...LIMITS, ceilingBar: 1.5 } }, channels);
    const { runId } = await first.b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: false, setup });
    await first.second(counts(0));

    const again = slowDevice(5, { files: files.kill(), documents });
    await again.b.ask(SERIAL);
    await again.second(counts(0));
    expect(again.limits()).toEqual([]);
    await again.b.ask({ q: 'resume-run', runId });
    await again.second(counts(0));
    expect(again.limits()).toEqual([[1500, counts(1.5)]]);
    expect(again.sent('start').at(-1)?.command).toEqual({ verb: 'start', rateHz: 20 });
  });
});

describe('what a run takes over from before it was opened', () => {
  const urgent = (b: ReturnType<typeof slowDevice>['b']) =>
    b.moment().view.alarms.filter((a) => a.alarm === 'pressure-lost');

  it('begins after the last time that the device was gone: no loss of before is one of the run', async () => {
    const { b, second, open } = slowDevice(5);
    await b.ask(SERIAL);
    for (let i = 0; i < 3; i++) await second(counts(1.2));
    await b.ask({ q: 'disconnect' });
    await b.run(20_000);
    await b.ask(SERIAL);
    for (let i = 0; i < 2; i++) await second(counts(0));
    const { runId } = await open(1, 1.77);
    await second(counts(0));
    expect(b.moment().view.bar).toBeCloseTo(0, 2);
    expect(b.moment().link.state).toBe('streaming');
    expect(urgent(b)).toEqual([]);
    expect(b.moment().view.peakBar).toBeLessThan(0.1);
    await b.ask({ q: 'end-run' });
    const { recorded } = judgeAgain(await b.files.readAll(`${runId}.run`));
    expect(recorded.filter((e) => e.e === 'gap' || (e.e === 'alarm' && e.alarm === 'pressure-lost'))).toEqual(
      [],
    );
  });

  it('and after a plug that was out, however it came back', async () => {
    const b = createHostBench();
    await b.connectRig();
    await b.run(3000);
    await b.ask({ q: 'rig-fault', fault: { fault: 'unplug' } });
    await b.run(20_000);
    await b.ask({ q: 'rig-fault', fault: { fault: 'replug' } });
    await b.run(6000);
    expect(b.moment().link.state).toBe('streaming');
    await b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: true, setup: practiceSetup() });
    await b.run(1000);
    expect(b.moment().view.bar).not.toBeNull();
    expect(urgent(b)).toEqual([]);
  });

  it('keeps that the resin was mixed, at its time', async () => {
    const { b, second, open } = slowDevice(5);
    await b.ask(SERIAL);
    await second(counts(0));
    await b.ask({ q: 'command', command: { c: 'mixed' } });
    const saidUs = b.timers.nowUs();
    await b.ask({ q: 'disconnect' });
    await b.run(20_000);
    await b.ask(SERIAL);
    await second(counts(0));
    await open(1, 1.77);
    await second(counts(0));
    const { mixedUs, tUs } = b.moment().view;
    expect((tUs - mixedUs!) / 1e6).toBeCloseTo((b.timers.nowUs() - saidUs) / 1e6, 0);
    expect(urgent(b)).toEqual([]);
  });
});
