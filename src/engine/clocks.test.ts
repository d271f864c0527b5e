import { describe, expect, it } from 'vitest';
import { resinOf } from '../job/testing/givens.ts';
import { createScriptedPort, type ScriptedDevice } from '../link/testing/device.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import type { FileStore } from '../record/stores/store.ts';
import { createMemoryStore } from '../record/stores/testing/memory.ts';
import { judgeAgain } from './judge-again.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

// Wall clock, monotonic clock and the device's: which one is believed of what.

const SERIAL = {
  kind: 'serial',
  index: 0,
  usbVendorId: null,
  usbProductId: null,
} as const;
const WALL_MS = Date.UTC(2026, 3, 14, 8);
const RESIN = resinOf();
const HZ = 10;
/** 8 mA, which is 1.5 bar. */
const COUNTS = 20_971;

type Bench = ReturnType<typeof createHostBench>;

const connect = (b: Bench) => b.ask({ q: 'connect', port: SERIAL });

/** A device that goes on whatever becomes of the tablet, and tablets that are connected to it one after the other. */
function site() {
  const { port, device } = createScriptedPort();
  const documents = createMemoryDocuments();
  const tablet = (files: FileStore, wallMs: number) =>
    createHostBench({ files, documents, wallMs, openPort: async () => ({ port, rig: null, speed: 1 }) });
  let n = 0;
  /** Samples at 10 Hz, the first one `lateS` after the last by the device's clock. */
  const flow = async (b: Bench, seconds: number, lateS = 1 / HZ) => {
    for (let i = 0; i < seconds * HZ; i++) {
      device.sample(COUNTS + (n++ % 3), (i === 0 ? lateS : 1 / HZ) * 1e4);
      await b.run(1000 / HZ);
    }
  };
  return { device, tablet, flow };
}

async function inHold() {
  const { device, tablet, flow } = site();
  const files = createMemoryStore();
  const b = tablet(files, WALL_MS);
  await connect(b);
  const setup = practiceSetup({ resin: RESIN, tap: 'packer', rateHz: HZ }, b.moment().link.channels);
  await flow(b, 3);
  const { runId } = await b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: false, setup });
  await b.ask({ q: 'command', command: { c: 'mixed' } });
  await b.ask({ q: 'command', command: { c: 'stage', to: 'hold' } });
  await flow(b, 30);
  return { device, tablet, flow, files, b, runId };
}

const told = (b: Bench) =>
  b.events().flatMap((e) => (e.e === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));
const gaps = (b: Bench) => b.events().flatMap((e) => (e.e === 'gap' ? [e.reason] : []));
const potLife = (b: Bench) => b.moment().view.potLifeLeftS!;

describe('a tablet whose wall clock jumps', () => {
  it.each([72_000, 5, -7200])(
    'by %s s was set, where no sample is missing: nothing changes',
    async (seconds) => {
      const { b, flow } = await inHold();
      const before = potLife(b);
      b.wall.ms += seconds * 1000;
      await flow(b, 30);
      expect(potLife(b)).toBeCloseTo(before - 30, 0);
      expect(told(b)).toEqual([]);
      expect(gaps(b)).toEqual([]);
      expect(b.events().filter((e) => e.e === 'segment' && e.what === 'closed')).toEqual([]);
    },
  );

  it('and whose device’s clock ran on as far was asleep: a gap, pot life and cure go on by so much', async () => {
    const { b, flow } = await inHold();
    const [before, cure] = [potLife(b), b.moment().view.cure!.low];
    b.wall.ms += 1_200_000;
    await flow(b, 3, 1200);
    expect(potLife(b)).toBeCloseTo(before - 1203, 0);
    expect(gaps(b)).toEqual(['clock']);
    expect(told(b)).toContain('clock-jump');
    expect(b.moment().view.cure!.low - cure).toBeGreaterThan(0.03);
  });

  it('that slept on a clock that counts it: one gap, no hours of ticks, and all that counts time goes on', async () => {
    const { b, flow, files, runId } = await inHold();
    const [before, cure, tUs] = [potLife(b), b.moment().view.cure!.low, b.moment().view.tUs];
    b.timers.stand(1_200_000);
    await flow(b, 12, 1200);
    expect(gaps(b)).toEqual(['clock']);
    // Until the first reading nothing is known of the pressure, which stands over the sleep.
    expect(told(b)).toEqual(['pressure-lost']);
    expect(b.moment().view.tUs - tUs).toBeCloseTo(1_212e6, -7);
    expect(potLife(b)).toBeCloseTo(before - 1212, -1);
    expect(b.moment().view.cure!.low - cure).toBeGreaterThan(0.03);
    await b.ask({ q: 'end-run' });
    const { recorded, again, damage } = judgeAgain(await files.readAll(`${runId}.run`));
    expect(damage).toEqual([]);
    expect(again).toEqual(recorded);
  });

  it('is believed no further than the device’s clock goes', async () => {
    const { b, flow } = await inHold();
    const [before, cure] = [potLife(b), b.moment().view.cure!.low];
    b.wall.ms += 72_000_000;
    await flow(b, 3, 20);
    expect(potLife(b)).toBeCloseTo(before - 23, 0);
    expect(b.moment().view.cure!.low - cure).toBeLessThan(0.01);
  });

  it('beside a device that started anew counts for the pot life and not for the cure', async () => {
    const { b, flow, device } = await inHold();
    const [before, cure] = [potLife(b), b.moment().view.cure!.low];
    b.wall.ms += 1_200_000;
    device.reset(42, true);
    device.greet();
    await b.run(1000);
    await flow(b, 3);
    expect(potLife(b)).toBeCloseTo(before - 1204, -1);
    expect(b.moment().view.cure!.low - cure).toBeLessThan(0.01);
  });
});

describe('a run that is taken up again', () => {
  /** The tablet died; another one begins on what it left, `wallS` later by the wall clock. */
  async function next({ b, tablet, files }: Awaited<ReturnType<typeof inHold>>, wallS: number) {
    const left = createMemoryStore();
    for (const { name } of await files.list()) {
      const file = await left.open(name);
      file.append(await files.readAll(name));
      file.flush();
      file.close();
    }
    return tablet(left, b.wall.ms + b.timers.nowUs() / 1000 + wallS * 1000);
  }

  /** @param deviceS the same by the device's clock */
  async function again(
    deviceS: number,
    wallS: number,
    meanwhile: (d: ScriptedDevice) => void = () => undefined,
  ) {
    const run = await inHold();
    meanwhile(run.device);
    const b = await next(run, wallS);
    await connect(b);
    await run.flow(b, 1, deviceS);
    await b.ask({ q: 'resume-run', runId: run.runId });
    await run.flow(b, 5);
    return { b, from: potLife(run.b) };
  }
  const cure = (b: Bench) => b.moment().view.cure!;

  it('lay as long as the device’s clock says, where the wall clock was put right by 20 h meanwhile', async () => {
    const { b, from } = await again(30, 72_000);
    expect(cure(b).low).toBeLessThan(0.01);
    expect(cure(b).metAtS).toBeNull();
    expect(potLife(b)).toBeGreaterThan(from - 40);
    expect(potLife(b)).toBeLessThan(from - 30);
  });

  it.each([
    ['agree', 1200, 1200],
    ['disagree: the wall clock was put back', 1200, -5000],
  ])('is credited with what the device bears out, where the clocks %s', async (_, deviceS, wallS) => {
    const { b, from } = await again(deviceS, wallS);
    expect(cure(b).low).toBeGreaterThan(0.03);
    expect(cure(b).low).toBeLessThan(0.1);
    expect(potLife(b)).toBeCloseTo(from - 1206, -1);
  });

  it('where the wall clock says less than the device, the pot life goes by the device and the cure by the lesser', async () => {
    const { b, from } = await again(1200, 60);
    expect(cure(b).low).toBeLessThan(0.02);
    expect(potLife(b)).toBeCloseTo(from - 1206, -1);
  });

  it('earns no cure for the time it lay, where the device started anew; the pot life goes by the wall clock', async () => {
    const { b, from } = await again(1, 1200, (device) => device.reset(42));
    expect(cure(b).low).toBeLessThan(0.01);
    expect(potLife(b)).toBeCloseTo(from - 1206, -1);
  });

  it('before its device is there earns its cure when the device comes, as far as that ran on', async () => {
    const credit = async (deviceS: number, wallS: number) => {
      const run = await inHold();
      const b = await next(run, wallS);
      await b.ask({ q: 'resume-run', runId: run.runId });
      await b.run(10_000);
      expect(cure(b).low).toBeLessThan(0.01);
      await connect(b);
      await run.flow(b, 5, deviceS);
      return cure(b).low;
    };
    expect(await credit(1210, 1200)).toBeGreaterThan(0.03);
    expect(await credit(40, 72_000)).toBeLessThan(0.01);
  });
});
