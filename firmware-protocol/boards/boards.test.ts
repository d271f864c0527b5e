import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { crc32c } from '../../src/link/crc32c.ts';
import { createDecoder } from '../../src/link/decode.ts';
import type { Frame } from '../../src/link/frames.ts';
import { ascii } from '../../src/link/testing/arbitraries.ts';
import { notRun } from '../../tests/unit/not-run.ts';
import { buildSimavr, compiler, hasSimavr, NO_COMPILER, NO_SIMAVR } from '../build.mjs';
import { type BoardName, buildBoard, canBuild, NO_CROSS_COMPILER } from './build.mjs';
import { createAvr } from './sim/avr.ts';
import { createCm0 } from './sim/cm0.ts';
import { createHost } from './sim/host.ts';
import { pressureVolts, temperatureVolts } from './sim/machine.ts';

// The C reference on bare controllers, in simulators of npm: counts come from a converter, bytes leave by a serial line, and
// the sounder is a pin. Counts by hand: the divider, the reference and the bits of each board.

const BOARDS = {
  avr: { create: createAvr, counts: (volts: number) => ((volts * 0.75) / 4.096) * 1024, id: 'sb-avr-1' },
  cm0: { create: createCm0, counts: (volts: number) => ((volts * 0.6) / 3.3) * 4096, id: 'sb-cm0-1' },
} as const;

function begin(name: BoardName) {
  const board = BOARDS[name];
  const machine = board.create(buildBoard(name));
  const host = createHost(machine);
  machine.volts(0, pressureVolts(0));
  const counts = (bar: number) => Math.floor(board.counts(pressureVolts(bar)));
  const limit = (bar: number) =>
    host.ask({ verb: 'limit', channel: 0, counts: counts(bar), mbar: Math.round(bar * 1000) });
  return { machine, host, counts, limit };
}

describe.each(['avr', 'cm0'] as const)('%s', (name) => {
  beforeEach((context) => {
    if (!canBuild(name)) notRun(context, NO_CROSS_COMPILER);
  });

  it('is silent until spoken to, then a fill past rated: every count as converted, the sounder at the limit, and its return', () => {
    const { machine, host, counts, limit } = begin(name);
    machine.volts(2, temperatureVolts(21));
    host.run(30_000);
    expect(host.frames.length + host.strays.length).toBe(0);
    expect(host.ask({ verb: 'hello' }).result).toBe('ok');
    host.run(10_000);
    expect(host.strays).toEqual([{ reason: 'partial', bytes: new Uint8Array([0x0a]) }]);
    expect(host.hello).toMatchObject({ deviceId: BOARDS[name].id, channels: 3, version: 1 });
    expect(host.frames.filter((f) => f.t === 'C')).toHaveLength(3);
    expect(host.events.map((e) => [e.code, e.value])).toEqual([['fault', 6]]);
    expect(host.guard).toMatchObject({ state: 'unarmed' });

    expect(limit(1.5)).toMatchObject({ result: 'ok', value: counts(1.5) });
    expect(host.ask({ verb: 'start', rateHz: 500 })).toMatchObject({ result: 'ok', value: 500 });
    const truth: number[] = [];
    let crossedUs = 0;
    for (let ms = 0; ms <= 400; ms++) {
      const bar = ms / 200;
      machine.volts(0, pressureVolts(bar));
      truth.push(Math.floor(BOARDS[name].counts(pressureVolts(bar))));
      if (crossedUs === 0 && truth.at(-1)! >= counts(1.5)) crossedUs = machine.us;
      host.run(1000);
    }
    host.run(3000);
    // Specification, appendix: from the conversion to the output in about a millisecond; a conversion each millisecond.
    expect(machine.sounder).toBe(true);
    expect(machine.sounderUs - crossedUs).toBeGreaterThanOrEqual(0);
    expect(machine.sounderUs - crossedUs).toBeLessThan(1300);
    expect(machine.beacon).toBe(true);
    const { samples } = host;
    expect(samples.length).toBeGreaterThan(195);
    samples.forEach((s, i) => {
      if (i > 0) expect([s.seq, s.tick]).toEqual([samples[i - 1]!.seq + 1, samples[i - 1]!.tick + 20]);
      expect(truth).toContain(s.counts[0]);
      expect(s.status & 3).toBe(0);
    });
    const slow = samples.filter((s) => s.counts[1] !== null);
    expect(slow.length).toBeGreaterThanOrEqual(4);
    expect(slow.length).toBeLessThanOrEqual(6);
    expect(slow[0]!.counts[1]).toBe(Math.floor(BOARDS[name].counts(5)));
    expect(slow[0]!.counts[2]).toBe(Math.floor(BOARDS[name].counts(temperatureVolts(21))));
    expect(samples.at(-1)!.counts[0]).toBe(counts(2));
    expect(samples.at(-1)!.status).toBe(4 | 8);
    const trip = host.events.find((e) => e.code === 'trip');
    expect(trip?.value).toBeGreaterThanOrEqual(counts(1.5));
    expect(host.guard).toMatchObject({ state: 'tripped', sounder: 1, limitMbar: 1500 });
    // Nothing may be raised or taken away under pressure.
    expect(limit(1.6).result).toBe('refused');
    expect(host.ask({ verb: 'disarm' }).result).toBe('refused');
    // The button acknowledges; the fall is a return after a second, and not before.
    machine.button(true);
    host.run(5000);
    expect([machine.sounder, machine.beacon]).toEqual([false, true]);
    expect(host.guard?.state).toBe('silenced');
    machine.button(false);
    host.ask({ verb: 'stop' });
    machine.volts(0, pressureVolts(0.02));
    host.run(900_000);
    expect(host.guard?.state).toBe('silenced');
    host.run(120_000);
    expect(host.events.at(-1)?.code).toBe('return');
    expect(host.ask({ verb: 'disarm' }).result).toBe('ok');
    host.run(2000);
    expect(host.guard?.state).toBe('unarmed');
    expect(host.strays).toHaveLength(1);
  });

  it('reset in mid-hold: the guard stands before any host speaks, and trips by itself; a new boot id, counters from 0', () => {
    const { machine, host, counts, limit } = begin(name);
    host.ask({ verb: 'hello' });
    limit(1.5);
    machine.volts(0, pressureVolts(1.2));
    host.ask({ verb: 'start', rateHz: 100 });
    host.run(100_000);
    const before = host.hello!.bootId;
    expect(host.samples.length).toBeGreaterThan(8);
    machine.reset('pin');
    host.forget();
    host.run(40_000);
    expect(host.frames).toEqual([]);
    expect(machine.sounder).toBe(false);
    const fromUs = machine.us;
    machine.volts(0, pressureVolts(1.6));
    host.run(3000);
    expect(machine.sounder).toBe(true);
    expect(machine.sounderUs - fromUs).toBeLessThan(1300);
    expect(host.frames).toEqual([]);
    host.ask({ verb: 'hello' });
    host.run(5000);
    expect(host.hello!.bootId).not.toBe(before);
    expect(host.hello!.uptime).toBeLessThan(1500);
    expect(host.guard).toMatchObject({ state: 'tripped', limitCounts: counts(1.5), limitMbar: 1500 });
    host.ask({ verb: 'start', rateHz: 100 });
    host.run(15_000);
    expect(host.samples[0]!.seq).toBe(0);
  });

  it('a main loop that goes no further: the guard trips all the same, the watchdog starts anew and says so', () => {
    const { machine, host, limit } = begin(name);
    host.ask({ verb: 'hello' });
    limit(1.5);
    machine.hang();
    host.run(50_000);
    const fromUs = machine.us;
    machine.volts(0, pressureVolts(1.7));
    host.run(3000);
    expect(machine.sounder).toBe(true);
    expect(machine.sounderUs - fromUs).toBeLessThan(1300);
    expect(machine.starts).toBe(1);
    host.run(300_000);
    expect(machine.starts).toBe(2);
    expect(machine.sounder).toBe(true);
    host.forget();
    host.ask({ verb: 'hello' });
    host.run(3000);
    expect(host.events[0]).toMatchObject({ code: 'boot', value: 2 });
    expect(host.guard?.state).toBe('tripped');
  });

  it('a sagging supply: told, the limit goes down with it, and nothing may be raised', () => {
    const { machine, host, counts, limit } = begin(name);
    host.ask({ verb: 'hello' });
    limit(1.5);
    machine.volts(1, 4.7);
    machine.volts(0, pressureVolts(1.45, 4.7));
    host.ask({ verb: 'start', rateHz: 100 });
    host.run(250_000);
    expect(machine.sounder).toBe(false);
    // 1.52 bar true at 4.7 V give the counts of 1.33 bar at 5 V: under the limit as it was set, over it as it stands.
    machine.volts(0, pressureVolts(1.54, 4.7));
    host.run(5000);
    expect(host.samples.at(-1)!.counts[0]!).toBeLessThan(counts(1.5));
    expect(machine.sounder).toBe(true);
    machine.volts(1, 4.3);
    machine.volts(0, pressureVolts(0, 4.3));
    host.run(250_000);
    expect(host.events.some((e) => e.code === 'fault' && e.value === 4 && e.channel === 1)).toBe(true);
    expect(host.samples.at(-1)!.status & 16).toBe(16);
    expect(host.ask({ verb: 'disarm' }).result).toBe('refused');
    machine.volts(1, 5);
    machine.volts(0, pressureVolts(0));
    host.run(1_300_000);
    expect(host.ask({ verb: 'disarm' }).result).toBe('ok');
  });

  it.each([
    ['a day', 864_000_000],
    ['the end of the counter', 0x1_0000_0000],
  ])('%s: ticks go on in step, and a second is a second', (_, at) => {
    const { machine, host, limit } = begin(name);
    host.ask({ verb: 'hello' });
    limit(1.5);
    machine.volts(0, pressureVolts(1.6));
    host.run(5000);
    machine.poke('now', 0, at - 8000);
    host.ask({ verb: 'beat' });
    host.ask({ verb: 'start', rateHz: 100 });
    host.run(100_000);
    // Falls before, and is a return after it.
    machine.volts(0, pressureVolts(0.5));
    const fellUs = machine.us;
    host.run(500_000);
    host.ask({ verb: 'beat' });
    while (machine.sounder && machine.us - fellUs < 1_500_000) host.run(1000);
    expect(machine.sounderUs - fellUs).toBeGreaterThan(999_000);
    expect(machine.sounderUs - fellUs).toBeLessThan(1_003_000);
    const ticks = host.samples.map((s) => s.tick);
    expect(ticks[0]).toBeLessThan(at);
    expect(ticks.at(-1)! >= at || ticks.at(-1)! < ticks[0]!).toBe(true);
    ticks.forEach((tick, i) => {
      if (i > 0) expect((tick - ticks[i - 1]!) >>> 0).toBe(100);
    });
    expect(host.events.filter((e) => e.code === 'hostlost').length).toBeLessThanOrEqual(1);
  });

  it('three seconds without a command are three seconds where the counter ends', () => {
    const { machine, host } = begin(name);
    host.ask({ verb: 'hello' });
    machine.poke('now', 0, 0x1_0000_0000 - 15_000);
    host.ask({ verb: 'beat' });
    host.run(5000);
    host.forget();
    host.run(2_900_000);
    expect(host.events).toEqual([]);
    host.run(200_000);
    expect(host.events.map((e) => e.code)).toEqual(['hostlost']);
  });
});

it('avr: a supply that falls away in any write of a new limit leaves the old one or the new one in force', (context) => {
  if (!canBuild('avr')) notRun(context, NO_CROSS_COMPILER);
  const { machine, host, counts, limit } = begin('avr');
  host.ask({ verb: 'hello' });
  expect(limit(1.5).result).toBe('ok');
  let inForce = 1500;
  const asked = new Map([[1500, counts(1.5)]]);
  const seen = new Set<string>();
  for (let write = 1; write <= 12; write++) {
    const bar = 1.45 - write / 100;
    const wanted = Math.round(bar * 1000);
    asked.set(wanted, counts(bar));
    host.run(2000);
    machine.cutAt?.(write);
    const { starts } = machine;
    host.forget();
    let confirmed = true;
    try {
      limit(bar);
    } catch {
      confirmed = false;
    }
    if (machine.starts === starts) {
      // Fewer bytes changed than that: the write was through.
      expect(confirmed).toBe(true);
      machine.reset('power');
    }
    host.run(20_000);
    host.forget();
    host.ask({ verb: 'hello' });
    host.run(3000);
    expect(host.guard?.state).toBe('armed');
    const kept = host.guard!.limitMbar!;
    expect([inForce, wanted]).toContain(kept);
    // What was confirmed is kept.
    if (confirmed) expect(kept).toBe(wanted);
    expect(host.guard!.limitCounts).toBe(asked.get(kept));
    seen.add(`${confirmed} ${kept === wanted}`);
    inForce = kept;
  }
  expect([...seen].sort()).toContain('false false');
  expect([...seen].sort()).toContain('true true');
});

/** What is said and felt in the comparison of two simulators: µs, and what. */
const SCRIPT: readonly (readonly [number, string])[] = [
  [60_000, 'say K,1,hello,'],
  [90_000, 'say K,2,limit,0,281,1500,'],
  [200_000, 'say K,3,start,200,'],
  [250_000, `volts 0 ${pressureVolts(1.2) * 1000}`],
  [300_500, `volts 0 ${pressureVolts(1.6) * 1000}`],
  [340_000, 'say K,4,silence,'],
  [350_000, 'say K,5,disarm,'],
  [400_500, 'volts 1 4300'],
  [600_000, 'end'],
];
const closed = (body: string): string => `${body}${crc32c(ascii(body)).toString(16).padStart(8, '0')}\n`;

/** The same frames whatever the simulator, but for a millisecond: which interrupt comes first is not the same. */
function plain(frame: Frame): string {
  const { tick: _, uptime: __, ...rest } = { tick: 0, uptime: 0, ...frame };
  return JSON.stringify(rest);
}

it('avr: two simulators that share no code say the same of the same program', (context) => {
  if (!canBuild('avr')) notRun(context, NO_CROSS_COMPILER);
  if (compiler() === null) notRun(context, NO_COMPILER);
  if (!hasSimavr()) notRun(context, NO_SIMAVR);
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-boards-'));
  try {
    const script = path.join(folder, 'script');
    writeFileSync(
      script,
      SCRIPT.map(
        ([us, op]) => `${us} ${op.startsWith('say ') ? `say ${closed(op.slice(4))}` : `${op}\n`}`,
      ).join(''),
    );
    const run = spawnSync(buildSimavr(), [buildBoard('avr').elf, '--script', script]);
    const sounder = [...run.stderr.toString().matchAll(/^(\d+) sounder ([01])$/gm)];
    const first: Frame[] = [];
    createDecoder('device').push(run.stdout, { frame: (f) => void first.push(f), stray() {} });

    const machine = createAvr(buildBoard('avr'));
    const host = createHost(machine);
    const heard: number[] = [];
    for (const [us, op] of SCRIPT) {
      const on = machine.sounder;
      host.run(us - machine.us);
      if (machine.sounder !== on) heard.push(machine.sounderUs);
      if (op.startsWith('say ')) machine.say(ascii(closed(op.slice(4))));
      const volts = /^volts (\d) (.*)$/.exec(op);
      if (volts) machine.volts(Number(volts[1]), Number(volts[2]) / 1000);
    }
    host.run(0);
    const kinds = (frames: readonly Frame[]) => frames.map((f) => f.t).join('');
    expect(host.frames.length).toBeGreaterThan(80);
    const order = (frames: readonly Frame[]) => frames.filter((f) => f.t !== 'S').map(plain);
    expect(order(host.frames)).toEqual(order(first));
    const samples = (frames: readonly Frame[]) => frames.filter((f) => f.t === 'S');
    expect(Math.abs(samples(host.frames).length - samples(first).length)).toBeLessThanOrEqual(1);
    expect(kinds(first)).toContain('SE');
    // The counts, and the sounder's millisecond.
    const counts = (frames: readonly Frame[]) => [
      ...new Set(frames.flatMap((f) => (f.t === 'S' ? [f.counts[0]] : []))),
    ];
    expect(counts(host.frames)).toEqual(counts(first));
    expect(sounder.map((m) => m[2])).toEqual(['1', '0']);
    expect(Math.abs(Number(sounder[0]![1]) - heard[0]!)).toBeLessThan(1100);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
