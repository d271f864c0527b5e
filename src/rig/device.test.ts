import { describe, expect, expectTypeOf, it } from 'vitest';
import type * as engine from '../engine/messages.ts';
import { createDecoder } from '../link/decode.ts';
import { encodeFrame } from '../link/encode.ts';
import type { DeviceFrame, Frame, HostVerb, SampleFrame, StrayReason } from '../link/frames.ts';
import { STATUS } from '../link/frames.ts';
import { createRigDevice, type RigDevice, type RigDeviceOptions } from './device.ts';
import type { RigFault, RigHand } from './faults.ts';

function host(options: Partial<RigDeviceOptions> = {}) {
  const device = createRigDevice({ seed: 1, ...options });
  const decoder = createDecoder('device');
  const frames: DeviceFrame[] = [];
  const strays: StrayReason[] = [];
  let number = 100;
  const listen = () =>
    decoder.push(device.take(), {
      frame: (f: Frame) => frames.push(f as DeviceFrame),
      stray: (reason) => strays.push(reason),
    });
  const go = (seconds: number, beats = true) => {
    const end = device.nowS + seconds;
    while (device.nowS < end - 1e-9) {
      device.advance(Math.min(end, device.nowS + 0.5));
      if (beats && device.plugged)
        device.receive(encodeFrame({ t: 'K', number: 65_000, command: { verb: 'beat' } }));
      listen();
    }
  };
  const say = (command: HostVerb, as?: number) => {
    device.receive(encodeFrame({ t: 'K', number: as ?? number++, command }));
    listen();
    return frames.filter((f) => f.t === 'R').at(-1);
  };
  const all = <T extends DeviceFrame['t']>(t: T) =>
    frames.filter((f): f is Extract<DeviceFrame, { t: T }> => f.t === t);
  return { device, frames, strays, go, say, all };
}

const samples = (h: ReturnType<typeof host>): SampleFrame[] => h.all('S');
const pressBar = (device: RigDevice, f: SampleFrame) => {
  const c = device.channels.frames[0]!;
  const ppm = (f.counts[0]! / c.rawHi) * 1e6;
  return ((ppm - 1e5) / 8e5) * 6;
};

describe('rig device: conversation', () => {
  it('is silent until spoken to, then says hello with a line a channel', () => {
    const h = host();
    h.go(2, false);
    expect(h.frames).toEqual([]);
    h.say({ verb: 'hello' });
    expect(h.all('H')).toHaveLength(1);
    expect(h.all('C').map((c) => c.quantity)).toEqual(['press', 'supply', 'temp', 'temp', 'junct']);
    expect(h.all('C').map((c) => c.index)).toEqual([0, 1, 2, 3, 4]);
    expect(h.all('C')[0]?.partner).toBe(1);
    expect(h.all('C')[2]?.partner).toBe(4);
    expect(h.strays).toEqual([]);
  });

  it('announces its start when first spoken to with anything but hello', () => {
    const h = host();
    h.go(1, false);
    h.say({ verb: 'read' });
    h.go(0.1);
    expect(h.all('E').map((e) => e.code)).toEqual(['boot']);
  });

  it('streams at the rate that it keeps, clamped to what the line carries', () => {
    const h = host({ baud: 115_200, maxRateHz: 1000 });
    h.go(1, false);
    h.say({ verb: 'hello' });
    const r = h.say({ verb: 'start', rateHz: 1000 });
    expect(r).toMatchObject({ t: 'R', result: 'clamped' });
    const kept = h.all('H')[0]!.maxRateHz;
    expect(kept).toBeGreaterThan(60);
    expect(kept).toBeLessThan(250);
    h.go(2);
    expect(Math.abs(samples(h).length - 2 * kept)).toBeLessThanOrEqual(1);
    const all = samples(h);
    all.forEach((s, i) => {
      expect(s.seq).toBe(i);
      if (i > 0) expect(Math.abs(s.tick - all[i - 1]!.tick - 1e4 / kept)).toBeLessThanOrEqual(1);
    });
  });

  it('leaves a count empty where nothing new was converted', () => {
    const h = host();
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 50 });
    h.go(4);
    const all = samples(h);
    expect(all.every((s) => s.counts[0] !== null)).toBe(true);
    const temps = all.filter((s) => s.counts[2] !== null).length;
    expect(temps).toBeGreaterThan(13);
    expect(temps).toBeLessThan(20);
  });

  it('answers a repeated number again without carrying it out twice', () => {
    const h = host();
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 20 }, 7);
    h.say({ verb: 'stop' }, 8);
    h.say({ verb: 'stop' }, 8);
    expect(h.all('R').map((r) => r.command)).toEqual([7, 8, 8]);
    h.go(1);
    expect(samples(h)).toHaveLength(0);
  });

  it('notices a silent host after 3 s and says when it is back', () => {
    const h = host();
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 10 });
    h.go(5, false);
    expect(h.all('E').map((e) => e.code)).toContain('hostlost');
    expect(samples(h).at(-1)!.status & STATUS.hostSilent).toBeTruthy();
    h.say({ verb: 'beat' });
    h.go(0.5);
    expect(h.all('E').map((e) => e.code)).toContain('hostback');
    expect(samples(h).at(-1)!.status & STATUS.hostSilent).toBe(0);
  });

  it('says its guard state once a second, and numbers wrap where the counters do', () => {
    const h = host({ startTick: 4294967295 - 15_000, startSeq: 4294967295 - 5 });
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 10 });
    h.go(5);
    expect(h.all('G').length).toBeGreaterThanOrEqual(5);
    expect(h.all('G').length).toBeLessThanOrEqual(7);
    expect(samples(h).some((s) => s.seq < 100)).toBe(true);
    expect(samples(h)[0]!.seq).toBe(4294967290);
    expect(samples(h).at(-1)!.tick).toBeLessThan(100_000);
  });
});

describe('rig device: the site behind it', () => {
  it('shows the fill through its sensor', () => {
    const h = host();
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 20 });
    h.device.hand({ hand: 'valve', open: 1 });
    h.go(40);
    const bar = pressBar(h.device, samples(h).at(-1)!);
    expect(Math.abs(bar - h.device.site.truth.hoseBar)).toBeLessThan(0.01);
    expect(bar).toBeGreaterThan(1.4);
  });

  it('reads low with a sagging supply, and the supply channel shows it', () => {
    const h = host();
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 20 });
    h.device.hand({ hand: 'valve', open: 1 });
    h.go(60);
    h.device.fault({ fault: 'supply-sag' });
    h.go(2);
    const last = samples(h).at(-1)!;
    expect(pressBar(h.device, last)).toBeLessThan(h.device.site.truth.hoseBar - 0.12);
    const supply = samples(h).findLast((s) => s.counts[1] !== null)!.counts[1]!;
    expect((supply / 4095) * 6).toBeCloseTo(4.6, 2);
  });

  it('arms, trips with its sounder, refuses to be disarmed under pressure, and keeps the limit over a reset', () => {
    const h = host({ site: { regulator: { setBar: 2 } } });
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 20 });
    const counts = h.device.channels.transducer.countsAt(1.5);
    expect(h.say({ verb: 'limit', channel: 0, counts, mbar: 1500 })).toMatchObject({
      result: 'ok',
      value: counts,
    });
    h.device.hand({ hand: 'valve', open: 1 });
    h.go(60);
    expect(h.all('E').map((e) => e.code)).toContain('trip');
    expect(h.all('G').at(-1)).toMatchObject({ state: 'tripped', limitCounts: counts, sounder: 1 });
    expect(h.say({ verb: 'disarm' })).toMatchObject({ result: 'refused' });
    expect(h.say({ verb: 'limit', channel: 0, counts: counts + 1, mbar: 1501 })).toMatchObject({
      result: 'refused',
    });
    h.say({ verb: 'silence' });
    h.go(1.5);
    expect(h.all('G').at(-1)).toMatchObject({ state: 'silenced', sounder: 0 });
    const boot = h.device.bootId;
    h.device.fault({ fault: 'reset' });
    h.go(1, false);
    h.say({ verb: 'hello' });
    h.go(0.5);
    expect(h.all('H').at(-1)!.bootId).not.toBe(boot);
    expect(h.all('G').at(-1)).toMatchObject({ state: 'tripped', limitCounts: counts });
  });
});

describe('rig device: faults of the line', () => {
  it('takes just the faults and hands that the page may send', () => {
    expectTypeOf<RigFault>().toEqualTypeOf<engine.RigFault>();
    expectTypeOf<RigHand>().toEqualTypeOf<engine.RigHand>();
    const d = createRigDevice({ seed: 1 });
    const all: engine.RigFault[] = [
      { fault: 'regulator', bar: 1 },
      { fault: 'creep', barPerMin: 0.1 },
      { fault: 'stuck-open' },
      { fault: 'leak', mbarPerMin: 5 },
      { fault: 'open-probe' },
      { fault: 'garbage', bytes: 3 },
      { fault: 'silence', seconds: 1 },
      { fault: 'supply-sag' },
      { fault: 'reset' },
      { fault: 'unplug' },
      { fault: 'replug' },
    ];
    for (const f of all) {
      d.fault(f);
      d.advance(d.nowS + 1);
    }
    expect(d.plugged).toBe(true);
    expect(d.channels.couples[0]?.wiring).toBe('open');
  });

  it('falls silent and shows the loss in seq and status', () => {
    const h = host();
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 20 });
    h.go(2);
    const before = samples(h).length;
    h.device.fault({ fault: 'silence', seconds: 3 });
    h.go(2.9);
    expect(samples(h).length).toBe(before);
    h.go(1);
    const after = samples(h)[before]!;
    expect(after.seq - samples(h)[before - 1]!.seq).toBeGreaterThan(50);
    expect(after.status & STATUS.dropped).toBeTruthy();
    expect(samples(h)[before + 1]!.status & STATUS.dropped).toBe(0);
  });

  it('sends garbage and goes on with whole lines', () => {
    const h = host();
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 20 });
    h.go(1);
    h.device.fault({ fault: 'garbage', bytes: 300 });
    h.go(1);
    expect(h.strays.length).toBeGreaterThan(0);
    expect(samples(h).length).toBeGreaterThan(35);
  });

  it('unplugged it says nothing and hears nothing; replugged it starts anew, silent until greeted', () => {
    const h = host();
    h.go(1, false);
    h.say({ verb: 'start', rateHz: 20 });
    h.go(1);
    const boot = h.device.bootId;
    h.device.fault({ fault: 'unplug' });
    h.go(2);
    expect(h.device.plugged).toBe(false);
    const before = h.frames.length;
    h.device.fault({ fault: 'replug' });
    h.go(2, false);
    expect(h.frames.length).toBe(before);
    h.say({ verb: 'hello' });
    expect(h.all('H').at(-1)!.bootId).not.toBe(boot);
  });

  it('gives the same bytes for the same seed, hands and cuts of time, and for other cuts', () => {
    const run = (seed: number, cut: number) => {
      const d = createRigDevice({
        seed,
        script: [
          { atS: 2, hand: 'valve', open: 1 },
          { atS: 20, fault: 'leak', mbarPerMin: 50 },
        ],
      });
      d.advance(1);
      d.receive(encodeFrame({ t: 'K', number: 1, command: { verb: 'start', rateHz: 50 } }));
      let text = '';
      for (let s = 1 + cut; s <= 31 + 1e-9; s += cut) {
        d.advance(s);
        text += String.fromCharCode(...d.take());
      }
      return text;
    };
    expect(run(3, 0.1)).toBe(run(3, 0.1));
    expect(run(3, 0.1)).not.toBe(run(4, 0.1));
    const a = run(3, 0.1).split('\n');
    const b = run(3, 1).split('\n');
    // Cutting time at a sample's own time changes nothing in seq and tick.
    expect(b.filter((l) => l.startsWith('S')).map((l) => l.split(',').slice(0, 3).join())).toEqual(
      a.filter((l) => l.startsWith('S')).map((l) => l.split(',').slice(0, 3).join()),
    );
  });
});
