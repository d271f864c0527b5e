import { describe, expect, it } from 'vitest';
import { encodeFrame } from '../../encode.ts';
import { createManualTimers, type ManualTimers } from '../../testing/timers.ts';
import { type Port, PortError, type PortEvents } from '../port.ts';

/** A transport under test with its far end. What a transport cannot do is left out. */
export interface PortBench {
  readonly port: Port;
  /** Makes the far end send something, after the hello below was written. */
  stir(): void;
  /** The far end got the hello. */
  heard?(): boolean;
  unplug?(): void;
  replug?(): void;
  /** A line error that the stream survives. */
  glitch?(): void;
}

const HELLO = encodeFrame({ t: 'K', number: 1, command: { verb: 'hello' } });

const FIRST = { baudRate: 500_000, turn: 0 };

function record() {
  const chunks: Uint8Array[] = [];
  const log: string[] = [];
  const events: PortEvents = {
    bytes: (chunk) => {
      chunks.push(chunk);
    },
    recovered: (name) => log.push(`recovered ${name}`),
    gone: () => log.push('gone'),
    arrived: () => log.push('arrived'),
  };
  return {
    events,
    log,
    chunks,
    length: () => chunks.reduce((n, c) => n + c.length, 0),
  };
}

/** The one contract of every transport: run on the rig and Web Serial. */
export function portContract(name: string, make: (timers: ManualTimers) => PortBench): void {
  describe(`${name}: the contract of a port`, () => {
    async function opened() {
      const timers = createManualTimers();
      const bench = make(timers);
      const seen = record();
      const open = bench.port.open(seen.events, FIRST);
      await timers.run(1000);
      await open;
      return { timers, bench, seen };
    }
    async function talk({ timers, bench }: Awaited<ReturnType<typeof opened>>) {
      const write = bench.port.write(HELLO);
      await timers.run(50);
      await write;
      bench.stir();
      await timers.run(300);
    }

    it('delivers bytes after open and takes bytes written', async () => {
      const b = await opened();
      await talk(b);
      expect(b.seen.length()).toBeGreaterThan(0);
      expect(b.bench.heard?.() ?? true).toBe(true);
      await b.bench.port.close();
    });

    it('gives each chunk away: the owner may overwrite it', async () => {
      const b = await opened();
      await talk(b);
      const before = b.seen.chunks.length;
      for (const chunk of b.seen.chunks) chunk.fill(0);
      b.bench.stir();
      await b.timers.run(300);
      const later = b.seen.chunks.slice(before);
      expect(later.every((c) => c.some((byte) => byte !== 0))).toBe(true);
      await b.bench.port.close();
    });

    it('refuses to be opened twice and goes on', async () => {
      const b = await opened();
      await expect(b.bench.port.open(record().events, FIRST)).rejects.toBeInstanceOf(PortError);
      await talk(b);
      expect(b.seen.length()).toBeGreaterThan(0);
      await b.bench.port.close();
    });

    it('closes in any state, twice, and says nothing afterwards', async () => {
      const timers = createManualTimers();
      const bench = make(timers);
      const early = bench.port.close();
      await timers.run(3000);
      await early;
      const b = await opened();
      const closed = Promise.all([b.bench.port.close(), b.bench.port.close()]);
      await b.timers.run(3000);
      await closed;
      const before = b.seen.length();
      b.bench.stir();
      await b.timers.run(500);
      expect(b.seen.length()).toBe(before);
      expect(b.seen.log).toEqual([]);
    });

    it('rejects a write while closed with write-failed', async () => {
      const { port } = make(createManualTimers());
      await expect(port.write(HELLO)).rejects.toMatchObject({ name: 'PortError', code: 'write-failed' });
    });

    it('opens again after a close and flows again', async () => {
      const b = await opened();
      const closed = b.bench.port.close();
      await b.timers.run(3000);
      await closed;
      const seen = record();
      const open = b.bench.port.open(seen.events, FIRST);
      await b.timers.run(2000);
      await open;
      await talk(b);
      expect(seen.length()).toBeGreaterThan(0);
      await b.bench.port.close();
    });

    it('says once that the port went, is silent then, and refuses to open what is not there', async () => {
      const b = await opened();
      if (b.bench.unplug === undefined) return;
      await talk(b);
      b.bench.unplug();
      await b.timers.run(100);
      expect(b.seen.log).toEqual(['gone']);
      const before = b.seen.length();
      b.bench.stir();
      await b.timers.run(2000);
      expect(b.seen.length()).toBe(before);
      const refused = expect(b.bench.port.open(b.seen.events, FIRST)).rejects.toMatchObject({
        code: 'port-gone',
      });
      await b.timers.run(2000);
      await refused;
      expect(b.seen.log).toEqual(['gone']);
    });

    it('tells of a device that comes back, and opens it', async () => {
      const b = await opened();
      if (b.bench.unplug === undefined || b.bench.replug === undefined) return;
      b.bench.unplug();
      await b.timers.run(2000);
      b.bench.replug();
      await b.timers.run(10);
      expect(b.seen.log).toEqual(['gone', 'arrived']);
      const open = b.bench.port.open(b.seen.events, FIRST);
      await b.timers.run(2000);
      await open;
      const before = b.seen.length();
      await talk(b);
      expect(b.seen.length()).toBeGreaterThan(before);
      await b.bench.port.close();
    });

    it('goes on after a line error and says that there was one', async () => {
      const b = await opened();
      if (b.bench.glitch === undefined) return;
      for (let n = 1; n <= 3; n++) {
        b.bench.glitch();
        await b.timers.run(50);
        expect(b.seen.log.length).toBe(n);
      }
      expect(b.seen.log[0]).toMatch(/^recovered /);
      const before = b.seen.length();
      await talk(b);
      expect(b.seen.length()).toBeGreaterThan(before);
      await b.bench.port.close();
    });
  });
}
