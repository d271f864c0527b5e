import { describe, expect, it } from 'vitest';
import { createHostBench, practiceSetup } from './testing/bench.ts';

const LIMIT = { verb: 'limit', channel: 0, counts: 15_000, mbar: 300 } as const;

describe('trying a device on the bench', () => {
  it('its lines are looked at without a run, and from where the last look ended', async () => {
    const b = createHostBench();
    expect((await b.ask({ q: 'bench-lines', from: 0 })).lines).toEqual([]);
    await b.connectRig();
    await b.run(1000);
    const first = await b.ask({ q: 'bench-lines', from: 0 });
    const letters = new Set(first.lines.map((l) => ('frame' in l ? l.frame.t : l.stray)));
    expect([...letters].sort()).toEqual(['C', 'G', 'H', 'R', 'S']);
    expect(first.missed).toBe(0);
    await b.run(1000);
    const { lines } = await b.ask({ q: 'bench-lines', from: first.next });
    expect(lines[0]!.n).toBe(first.next);
    const samples = lines.filter((l) => 'frame' in l && l.frame.t === 'S').length;
    expect(samples).toBeGreaterThan(45);
    expect(samples).toBeLessThan(60);
  });

  it('what comes before a device has said who it is, or from none at all, is there too', async () => {
    const silent = {
      identity: { kind: 'serial' } as const,
      async open(to: { bytes(chunk: Uint8Array): void }) {
        to.bytes(new TextEncoder().encode('\nhello, I count: 17\n'));
      },
      async write() {},
      async close() {},
    };
    const b = createHostBench({ openPort: async () => ({ port: silent, rig: null, speed: 1 }) });
    const port = { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null } as const;
    await expect(b.ask({ q: 'connect', port }, 60_000)).rejects.toThrow();
    const { lines, connection } = await b.ask({ q: 'bench-lines', from: 0 });
    const texts = lines.map((l) => ('bytes' in l ? new TextDecoder().decode(l.bytes) : ''));
    expect(texts).toContain('hello, I count: 17\n');
    // At each speed that was tried.
    expect(new Set(lines.map((l) => ('bytes' in l ? l.baudRate : null))).size).toBeGreaterThan(3);
    await expect(b.ask({ q: 'connect', port }, 60_000)).rejects.toThrow();
    expect((await b.ask({ q: 'bench-lines', from: 0 })).connection).toBe(connection + 1);
  });

  it('its guard is armed, read and taken away, and the device’s word is passed on', async () => {
    const b = createHostBench();
    await b.connectRig();
    await b.run(1500);
    expect(await b.ask({ q: 'bench-guard', verb: LIMIT })).toEqual({ result: 'ok' });
    await b.run(1500);
    expect(b.moment().link.deviceGuard).toMatchObject({ state: 'armed', limitMbar: 300 });
    expect(await b.ask({ q: 'bench-guard', verb: { verb: 'disarm' } })).toEqual({ result: 'ok' });
    expect(await b.ask({ q: 'bench-guard', verb: { ...LIMIT, channel: 1 } })).toEqual({ result: 'range' });
  });

  it('without a device, in a run, and beside a limit that is in force it is refused', async () => {
    const b = createHostBench();
    await expect(b.ask({ q: 'bench-guard', verb: LIMIT })).rejects.toMatchObject({ code: 'not-connected' });
    await b.connectRig();
    await b.run(1000);
    await b.ask({ q: 'setup', setup: practiceSetup() });
    await expect(b.ask({ q: 'bench-guard', verb: LIMIT })).rejects.toMatchObject({ code: 'refused' });
    await b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: true, setup: practiceSetup() });
    await expect(b.ask({ q: 'bench-guard', verb: LIMIT })).rejects.toMatchObject({ code: 'run-open' });
  });
});
