import {
  closeSync,
  constants,
  mkdtempSync,
  openSync,
  readFileSync,
  readSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { crc32c } from '../src/link/crc32c.ts';
import { createDecoder } from '../src/link/decode.ts';
import { encodeFrame } from '../src/link/encode.ts';
import type { Frame, HostVerb, SampleFrame, StrayReason } from '../src/link/frames.ts';
import { notRun } from '../tests/unit/not-run.ts';
import { compiler, NO_COMPILER } from './build.mjs';
import { countsAtBar, type HostDevice, startDevice } from './host/run.ts';

// The C device, end to end without a browser: real bytes over a pty, read by the TypeScript codec.

const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** A host on the other end of the pty: reads all the time, keeps frames, stray bytes and the bytes themselves. */
class Host {
  readonly frames: Frame[] = [];
  readonly strays: { reason: StrayReason; bytes: Uint8Array }[] = [];
  readonly bytes: number[] = [];
  private readonly decoder = createDecoder('device');
  private readonly fd: number;
  private readonly timer: NodeJS.Timeout;
  private number = 100;
  paused = false;

  constructor(pts: string) {
    this.fd = openSync(pts, constants.O_RDWR | constants.O_NOCTTY | constants.O_NONBLOCK);
    this.timer = setInterval(() => {
      if (!this.paused) this.read();
    }, 2);
  }

  private read(): void {
    const chunk = new Uint8Array(65536);
    for (;;) {
      let n = 0;
      try {
        n = readSync(this.fd, chunk);
      } catch {
        return; // nothing there, or hung up
      }
      if (n === 0) return;
      for (const b of chunk.subarray(0, n)) this.bytes.push(b);
      this.decoder.push(chunk.slice(0, n), {
        frame: (f) => this.frames.push(f),
        stray: (reason, bytes) => this.strays.push({ reason, bytes }),
      });
    }
  }

  send(verb: HostVerb, number = this.number++): number {
    writeSync(this.fd, encodeFrame({ t: 'K', number, command: verb }));
    return number;
  }

  raw(bytes: Uint8Array): void {
    writeSync(this.fd, bytes);
  }

  async until<T>(what: () => T | undefined | false, ms = 3000): Promise<T> {
    const end = performance.now() + ms;
    for (;;) {
      const got = what();
      if (got !== undefined && got !== false) return got;
      if (performance.now() > end)
        throw new Error(`not seen in ${ms} ms; last: ${JSON.stringify(this.frames.slice(-5))}`);
      await sleep(3);
    }
  }

  async ask(verb: HostVerb, number?: number) {
    const from = this.frames.length;
    const sent = this.send(verb, number);
    return this.until(() =>
      this.frames.slice(from).find((f) => f.t === 'R' && f.command === sent),
    ) as Promise<Frame & { t: 'R' }>;
  }

  samples(from = 0): SampleFrame[] {
    return this.frames.slice(from).filter((f): f is SampleFrame => f.t === 'S');
  }

  close(): void {
    clearInterval(this.timer);
    closeSync(this.fd);
  }
}

let folder = '';
let device: HostDevice | null = null;
let host: Host | null = null;

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'steadybar-device-'));
});
afterEach(async () => {
  host?.close();
  host = null;
  await device?.quit();
  device = null;
  rmSync(folder, { recursive: true, force: true });
});

async function begin(...options: string[]): Promise<{ device: HostDevice; host: Host }> {
  device = startDevice(options);
  const opened = await device.op('open');
  expect(opened).toMatch(/^ok \/dev\/pts\/\d+$/);
  host = new Host(opened.slice(3));
  expect(await device.op('wait_open')).toBe('ok open=1');
  return { device, host };
}

describe('the device on a pty', () => {
  beforeEach((context) => {
    if (process.platform !== 'linux') notRun(context, 'the pty device needs Linux');
    if (compiler() === null) notRun(context, NO_COMPILER);
  });

  it('is silent until spoken to, says hello, streams what was written, count for count', async () => {
    const tap = path.join(folder, 'tap');
    const { device, host } = await begin('--tap', tap, '--seed', '7', '--id', 'sb-test');
    await device.op('true 150000 21000 19000 24000');
    await sleep(60);
    expect(host.bytes).toHaveLength(0);

    expect(await host.ask({ verb: 'hello' })).toMatchObject({ result: 'ok', value: null });
    await host.until(() => host.frames.filter((f) => f.t === 'C').length === 5);
    expect(host.frames.find((f) => f.t === 'H')).toMatchObject({
      version: 1,
      deviceId: 'sb-test',
      channels: 5,
    });
    // Nothing in the store yet: announced by a guard line and a fault.
    expect(host.frames.find((f) => f.t === 'G')).toMatchObject({ state: 'unarmed', limitCounts: null });
    expect(host.frames.find((f) => f.t === 'E')).toMatchObject({ code: 'fault', value: 6 });

    expect(await host.ask({ verb: 'start', rateHz: 200 })).toMatchObject({ result: 'ok', value: 200 });
    await host.until(() => host.samples().length > 100);
    await host.ask({ verb: 'stop' });
    await sleep(30);

    // The LF before the first line, and nothing else.
    expect(host.strays).toEqual([{ reason: 'partial', bytes: new Uint8Array([0x0a]) }]);
    expect(Buffer.from(host.bytes).equals(readFileSync(tap))).toBe(true);
    const samples = host.samples();
    samples.forEach((s, i) => {
      expect(s.seq).toBe(samples[0]!.seq + i);
      expect(s.tick - samples[0]!.tick).toBeGreaterThanOrEqual(i * 50 - 1);
      expect(s.tick - samples[0]!.tick).toBeLessThanOrEqual(i * 50 + 1);
    });
    // 1.5 bar of a 0.5-4.5 V sensor for 6 bar is 1.5 V: 12 000 counts of 125 µV; noise 0.8 counts.
    const pressures = samples.map((s) => s.counts[0] as number);
    expect(pressures.reduce((a, b) => a + b, 0) / pressures.length).toBeCloseTo(12_000, -1);
    expect(countsAtBar(1.5)).toBe(12_000);
    expect(Math.max(...pressures) - Math.min(...pressures)).toBeGreaterThan(1);
    // Supply at 10 Hz: every twentieth line, empty between.
    expect(samples.filter((s) => s.counts[1] !== null).length).toBe(Math.ceil(samples.length / 20));
    // Type K, 21 °C against a junction of 24 °C: -0.1206 mV of 10 nV a count (NIST table: 0.838 and 0.9587 mV).
    expect(samples[0]!.counts[2]! / 1e5).toBeCloseTo(0.838 - 0.9587, 2);
    expect(samples[0]!.counts[3]).toBeCloseTo(24 * 128, -1);
  });

  it('clamps the rate to what the wire carries, and then drops nothing', async () => {
    const { host } = await begin('--baud', '115200');
    const reply = await host.ask({ verb: 'start', rateHz: 500 });
    expect(reply.result).toBe('clamped');
    expect(reply.value).toBeGreaterThan(90);
    expect(reply.value).toBeLessThan(160);
    await host.until(() => host.samples().length > 150);
    const samples = host.samples();
    expect(samples.at(-1)!.seq - samples[0]!.seq).toBe(samples.length - 1);
    expect(samples.every((s) => (s.status & 3) === 0)).toBe(true);
    // The first command was no hello, so the start was announced.
    expect(host.frames.some((f) => f.t === 'E' && f.code === 'boot')).toBe(true);
  });

  it('drops whole lines when the host does not read, and says so', async () => {
    const { host } = await begin('--baud', '0');
    await host.ask({ verb: 'start', rateHz: 1000 });
    await host.until(() => host.samples().length > 20);
    host.paused = true;
    await sleep(1500);
    host.paused = false;
    await host.until(() => host.samples().some((s) => (s.status & 1) !== 0), 6000);
    const samples = host.samples();
    const at = samples.findIndex((s) => (s.status & 1) !== 0);
    expect(samples[at]!.seq - samples[at - 1]!.seq).toBeGreaterThan(1);
    expect(host.strays.filter((s) => s.reason !== 'partial')).toEqual([]);
  });

  it('arms, lowers, refuses to raise under pressure, trips, is silenced, and keeps the limit over a reset', async () => {
    const { device, host } = await begin('--store', path.join(folder, 'store'));
    const limit = (counts: number, mbar: number) =>
      host.ask({ verb: 'limit', channel: 0, counts, mbar } as const);
    const guard = (state: string) =>
      host.until(() => {
        const g = host.frames.findLast((f) => f.t === 'G');
        return g?.t === 'G' && g.state === state && g;
      });
    expect(await limit(12_000, 1500)).toMatchObject({ result: 'ok', value: 12_000 });
    await guard('armed');
    await device.op('true 100000');
    await sleep(20);
    expect(await limit(11_000, 1312)).toMatchObject({ result: 'ok', value: 11_000 });
    expect(await limit(11_001, 1312)).toMatchObject({ result: 'refused', value: 11_000 });
    expect(await host.ask({ verb: 'disarm' })).toMatchObject({ result: 'refused' });
    expect(await limit(4000, 100)).toMatchObject({ result: 'range' });

    await device.op('true 140000');
    expect(await guard('tripped')).toMatchObject({ sounder: 1, limitCounts: 11_000, limitMbar: 1312 });
    await host.until(() => host.frames.some((f) => f.t === 'E' && f.code === 'trip'));
    await device.op('button');
    expect(await guard('silenced')).toMatchObject({ sounder: 0 });
    await device.op('true 100000');
    await guard('armed');

    const before = await device.state();
    expect(await device.op('reset')).not.toContain(before.boot);
    const from = host.frames.length;
    await sleep(30);
    expect(host.frames.length).toBe(from);
    expect((await device.state()).guard).toBe('armed');
    await host.ask({ verb: 'hello' });
    expect(await guard('armed')).toMatchObject({ limitCounts: 11_000, limitMbar: 1312 });
    await device.op('true 0');
    await sleep(20);
    expect(await host.ask({ verb: 'disarm' })).toMatchObject({ result: 'ok' });
    await guard('unarmed');
  });

  it('a reset in mid-stream: new boot id, counts anew, found by hello', async () => {
    const { device, host } = await begin('--seq0', '4294967280', '--tick0', '4294966000');
    await host.ask({ verb: 'hello' });
    await host.ask({ verb: 'start', rateHz: 250 });
    // Both counters wrap on the way.
    await host.until(() => host.samples().some((s) => s.seq < 100 && s.tick < 100_000));
    const first = host.frames.find((f) => f.t === 'H');
    await device.op('reset');
    await sleep(50);
    const from = host.frames.length;
    await host.ask({ verb: 'hello' });
    const second = await host.until(() => host.frames.slice(from).find((f) => f.t === 'H'));
    expect(second.t === 'H' && first?.t === 'H' && second.bootId !== first.bootId).toBe(true);
    await host.ask({ verb: 'start', rateHz: 250 });
    await host.until(() => host.samples(from).length > 5);
    // Of the reset there is at most the one line that it cut, closed by the LF of the new start.
    const spoilt = host.strays.filter((s) => s.reason !== 'partial');
    expect(spoilt.length).toBe(1);
    expect(spoilt[0]!.bytes.at(-1)).toBe(0x0a);
  });

  it('garbage in mid-stream costs at most the lines it touches', async () => {
    const { device, host } = await begin();
    await host.ask({ verb: 'start', rateHz: 500 });
    await host.until(() => host.samples().length > 20);
    await device.op('garbage 300');
    await device.op('garbage 00ff530a');
    const from = host.frames.length;
    await host.until(() => host.samples(from).length > 50);
    expect(host.strays.length).toBeGreaterThan(0);
    const samples = host.samples();
    const missing = samples.at(-1)!.seq - samples[0]!.seq - samples.length + 1;
    expect(missing).toBeLessThanOrEqual(20);
    expect(samples.every((s) => Math.abs(s.counts[0]! - 4000) < 20)).toBe(true);
  });

  it('answers a repeated number again without carrying it out twice, and bad commands by name', async () => {
    const { host } = await begin();
    await host.ask({ verb: 'start', rateHz: 100 }, 7);
    await host.ask({ verb: 'stop' }, 8);
    await sleep(20);
    const count = host.samples().length;
    expect(await host.ask({ verb: 'stop' }, 8)).toMatchObject({ result: 'ok' });
    expect(await host.ask({ verb: 'start', rateHz: 100 }, 8)).toMatchObject({ result: 'ok', value: null });
    await sleep(40);
    expect(host.samples().length).toBe(count);
    const closed = (body: string) => `${body}${crc32c(Buffer.from(body)).toString(16).padStart(8, '0')}\n`;
    const answer = (n: number) =>
      host.until(() => host.frames.find((f) => f.t === 'R' && f.command === n)) as Promise<
        Frame & { t: 'R' }
      >;
    host.raw(Buffer.from(closed('K,9,fly,')));
    expect(await answer(9)).toMatchObject({ result: 'unknown' });
    host.raw(Buffer.from(closed('K,10,start,0,')));
    expect(await answer(10)).toMatchObject({ result: 'range' });
    // A wrong CRC gets no answer and wedges nothing.
    host.raw(Buffer.from('K,11,stop,00000000\n'));
    expect(await host.ask({ verb: 'beat' }, 12)).toMatchObject({ result: 'ok' });
    expect(host.frames.some((f) => f.t === 'R' && f.command === 11)).toBe(false);
  });

  it('notices the silent host after 3 s, and its return', async () => {
    const { host } = await begin();
    await host.ask({ verb: 'start', rateHz: 100 });
    await host.until(() => host.samples().some((s) => (s.status & 32) !== 0), 4500);
    expect(host.frames.some((f) => f.t === 'E' && f.code === 'hostlost')).toBe(true);
    await host.ask({ verb: 'beat' });
    await host.until(() => host.frames.some((f) => f.t === 'E' && f.code === 'hostback'));
    await host.until(() => (host.samples().at(-1)!.status & 32) === 0);
  });

  it('plays its faults', async () => {
    const { device, host } = await begin();
    await device.op('true 100000 30000');
    await host.ask({ verb: 'start', rateHz: 100 });
    await host.until(() => host.samples().length > 10);
    await device.op('fault open 2');
    await host.until(() => host.samples().some((s) => s.counts[2] === 8_388_607));
    await device.op('fault supply 4300');
    await host.until(() => host.samples().some((s) => (s.status & 16) !== 0));
    await device.op('fault drop 5');
    await host.until(() => host.samples().some((s) => (s.status & 1) !== 0));
    await device.op('clear');
    const from = host.frames.length;
    await host.until(() => host.samples(from).some((s) => s.counts[2] !== null && s.counts[2]! < 8_388_607));
    await device.op('fault silence 400');
    await sleep(100);
    const quiet = host.bytes.length;
    await sleep(200);
    expect(host.bytes.length).toBe(quiet);
    expect(await device.op('fault nonsense')).toMatch(/^error/);
    expect(await device.op('nonsense')).toMatch(/^error/);
  });

  it('swaps lines, jumps with its clock, falls to another rate', async () => {
    const { device, host } = await begin();
    await host.ask({ verb: 'start', rateHz: 100 });
    await host.until(() => host.samples().length > 10);
    const from = host.frames.length;
    await device.op('fault swap 3');
    await host.until(() => host.samples(from).length > 40);
    const numbers = host.samples(from).map((s) => s.seq);
    expect(numbers.filter((n, i) => i > 0 && n < numbers[i - 1]!)).toHaveLength(3);
    expect([...numbers].sort((a, b) => a - b)).toEqual(numbers.map((_, i) => Math.min(...numbers) + i));
    const before = host.samples().at(-1)!.tick;
    await device.op('fault clock 5000');
    // A tick is 0.1 ms.
    await host.until(() => host.samples().at(-1)!.tick - before > 50_000);
    expect(host.samples().at(-1)!.tick - before).toBeLessThan(60_000);
    await device.op('fault rate 5');
    const slow = host.frames.length;
    await sleep(1000);
    expect(host.samples(slow).length).toBeLessThan(12);
  });

  it('bytes to a closed port are dropped, and it opens again', async () => {
    const { device, host: first } = await begin();
    await first.ask({ verb: 'start', rateHz: 100 });
    first.close();
    host = null;
    expect(await device.op('wait_closed')).toBe('ok open=0');
    await sleep(100);
    const pts = (await device.state()).pts as string;
    host = new Host(pts);
    const again = host;
    await again.until(() => again.samples().length > 10);
    expect(again.strays.filter((s) => s.reason !== 'partial')).toEqual([]);
  });
});
