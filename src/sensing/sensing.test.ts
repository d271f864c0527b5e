import { expect, describe as group, it } from 'vitest';
import type { ChannelFrame } from '../link/frames.ts';
import { emfMv } from './its90/reference.ts';
import { FLAG, type Reading } from './reading.ts';
import { applySetup, createSensing, describe, type SensingState, sense } from './sensing.ts';
import { suggestChannels } from './suggest.ts';
import {
  at,
  CALIBRATION,
  channelSetup,
  HELLO,
  JUNCTION,
  PRESS,
  PROBE,
  RATIO,
  SUPPLY,
  sample,
} from './testing/device.ts';
import { warmCheck } from './warm.ts';
import { zero } from './zero.ts';

const CHANNELS = [PRESS, PROBE, JUNCTION];
const started = (): SensingState => {
  const s = createSensing();
  describe(s, HELLO, CHANNELS);
  return s;
};
/** Counts of the test device for mA, and for a probe's emf in mV and a junction in °C. */
const mA = (v: number): number => v * 1000;
const probe = (hotC: number, junctionC: number): number => emf(emfMv('K', hotC)! - emfMv('K', junctionC)!);
const emf = (mv: number): number => Math.round((mv * 1e6) / 149.0116);
const junction = (c: number): number => Math.round(c * 64);
const one = (s: SensingState, n: number, ma: number | null, hot = 20): Reading =>
  sense(s, sample(n, [ma === null ? null : mA(ma), probe(hot, 25), junction(25)]), at(n));

it('a device that started anew is timed by its arrival, though its clock could have gone on', () => {
  const s = started();
  for (let n = 0; n < 5; n++) one(s, n, 12);
  describe(s, { ...HELLO, bootId: 8 }, CHANNELS);
  // Its new clock stands a little after the old one, but ten seconds have gone by.
  expect(sense(s, sample(6, [mA(12), 0, junction(25)]), 10_000_000).tS).toBeCloseTo(10, 6);
});

group('pressure', () => {
  it.each([
    [3.6, -0.1],
    [3.8, -0.05],
    [12, 2],
    [20, 4],
    [20.5, 4.125],
    [21, 4.25],
  ])('%f mA of a 0-4 bar loop is %f bar (linear; NAMUR NE 43 bands)', (ma, bar) => {
    expect(one(started(), 0, ma).bar).toBeCloseTo(bar, 9);
  });

  it('under 3.6 and over 21 mA is no pressure; beyond 3.8-20.5 mA or the span it is doubtful', () => {
    const flags = (ma: number) => one(started(), 0, ma);
    for (const ma of [0, 3.59, 21.01, 24]) {
      expect(flags(ma).bar).toBeNull();
      expect(flags(ma).flags & FLAG.fault).toBeTruthy();
    }
    for (const ma of [3.7, 20.2, 20.8]) expect(flags(ma).flags & FLAG.outOfRange).toBeTruthy();
    for (const ma of [3.9, 4, 12, 20]) expect(flags(ma).flags & (FLAG.outOfRange | FLAG.fault)).toBe(0);
  });

  it('a digital sensor that stops at the end of its span is over it there, and reads up to there', () => {
    const bits = 14;
    const rawHi = 2 ** bits - 1;
    const digital = { ...PRESS, signal: 'digital', bits, rawHi, elHi: 400_000, rangeHi: 400_000 } as const;
    const read = (count: number, more: Partial<ChannelFrame> = {}) => {
      const s = createSensing();
      describe(s, { ...HELLO, channels: 1 }, [{ ...digital, ...more }]);
      return sense(s, sample(0, [count]), 0);
    };
    expect(read(rawHi).bar).toBeCloseTo(4, 6);
    expect(read(rawHi).flags & FLAG.outOfRange).toBeTruthy();
    expect(read(rawHi - 1).flags & FLAG.outOfRange).toBe(0);
    expect(read(0).flags & FLAG.outOfRange).toBe(0);
    // Two points inside the scale tell of no end.
    expect(read(rawHi, { bits: 16 }).flags & FLAG.outOfRange).toBe(0);
  });

  it('without a Setup the device\u2019s own scale is used and said', () => {
    const r = one(started(), 0, 10);
    expect(r.bar).toBeCloseTo(1.5, 9);
    expect(r.flags & FLAG.uncalibrated).toBeTruthy();
    expect(r.flags & FLAG.notZeroed).toBeTruthy();
    expect(r.uBar).toBeGreaterThan(0.03);
  });

  it('a calibration of this device, channel and sensor corrects; another one is none', () => {
    const [ch, ...rest] = suggestChannels(CHANNELS);
    const s = started();
    applySetup(s, channelSetup([{ ...ch!, calibration: CALIBRATION }, ...rest]));
    const r = one(s, 0, 12);
    expect(r.bar).toBeCloseTo(0.01 + 1.002 * 2, 9);
    expect(r.flags & FLAG.uncalibrated).toBe(0);
    for (const foreign of [{ deviceId: 'TEST-2' }, { channel: 3 }]) {
      const t = started();
      applySetup(t, channelSetup([{ ...ch!, calibration: { ...CALIBRATION, ...foreign } }, ...rest]));
      const q = one(t, 0, 12);
      expect(q.bar).toBeCloseTo(2, 9);
      expect(q.flags & FLAG.uncalibrated).toBeTruthy();
    }
  });

  it('absolute and sealed-gauge sensors are not gauge sensors', () => {
    const [ch, ...rest] = suggestChannels(CHANNELS);
    const read = (gaugeKind: 'gauge' | 'absolute' | 'sealed') => {
      const s = started();
      const air = { bar: 0.95, uBar: 0.005, source: 'typed' } as const;
      applySetup(s, channelSetup([{ ...ch!, gaugeKind }, ...rest], { air }));
      return one(s, 0, 12).bar;
    };
    expect(read('gauge')).toBeCloseTo(2, 9);
    expect(read('absolute')).toBeCloseTo(1.05, 9);
    expect(read('sealed')).toBeCloseTo(2 + 1.01325 - 0.95, 9);
  });

  it('a missing conversion holds the value for a second and says so, then there is none', () => {
    const s = started();
    one(s, 0, 12);
    const held = one(s, 5, null);
    expect(held.bar).toBeCloseTo(2, 9);
    expect(held.flags & FLAG.held).toBeTruthy();
    const gone = one(s, 30, null);
    expect(gone.bar).toBeNull();
    expect(gone.flags & FLAG.fault).toBeTruthy();
    expect(gone.flags & FLAG.held).toBe(0);
  });

  it('no description and no Setup: no number', () => {
    const r = sense(createSensing(), sample(0, [12_000]), 0);
    expect(r.bar).toBeNull();
    expect(r.flags & FLAG.fault).toBeTruthy();
    expect(r.temps).toEqual([]);
  });

  it('a jump faster than a line can is flagged once, a burst hose is not', () => {
    const s = started();
    one(s, 0, 8);
    expect(one(s, 1, 13).flags & FLAG.rate).toBeTruthy();
    expect(one(s, 2, 13).flags & FLAG.rate).toBe(0);
    expect(one(s, 3, 4).flags & FLAG.rate).toBe(0);
  });
});

group('a channel that freezes', () => {
  it('is flagged as stuck after noise was seen, kept as a number, and free again with the first change', () => {
    const s = started();
    for (let n = 0; n < 400; n++) one(s, n, 10 + 0.004 * (((n * 7919) % 13) - 6));
    let frozen: Reading | null = null;
    for (let n = 400; n < 540; n++) frozen = one(s, n, 10);
    expect(frozen!.flags & FLAG.stuck).toBeTruthy();
    expect(frozen!.bar).toBeCloseTo(1.5, 9);
    expect(one(s, 540, 10.004).flags & FLAG.stuck).toBe(0);
  });

  it('stays so in a Setup of the same scale; what was seen on another scale says nothing of this one', () => {
    for (const calibration of [null, CALIBRATION]) {
      const s = started();
      const [ch, ...rest] = suggestChannels(CHANNELS);
      applySetup(s, channelSetup([ch!, ...rest]));
      for (let n = 0; n < 400; n++) one(s, n, 10 + 0.004 * (((n * 7919) % 13) - 6));
      for (let n = 400; n < 540; n++) one(s, n, 10);
      applySetup(s, channelSetup([{ ...ch!, calibration }, ...rest]));
      const isStuck = (one(s, 540, 10).flags & FLAG.stuck) !== 0;
      expect(isStuck).toBe(calibration === null);
    }
  });

  it('at the end of its scale is a fault, not stuck', () => {
    const s = started();
    for (let n = 0; n < 400; n++) one(s, n, 10 + 0.004 * (((n * 7919) % 13) - 6));
    let last: Reading | null = null;
    for (let n = 400; n < 600; n++) last = one(s, n, 25);
    expect(last!.flags & FLAG.fault).toBeTruthy();
    expect(last!.flags & FLAG.stuck).toBe(0);
    expect(last!.bar).toBeNull();
  });
});

group('ratiometric', () => {
  const DEVICE = { ...HELLO, channels: 2 };
  // 5 V supply: 0.5, 1.5, 2.5, 4.5 V → ppm of 5 V → counts of 32 768 for the whole supply.
  const counts = (volts: number): number => (volts / 5) * 32_768;
  const read = (volts: number, supply: number | null) => {
    const s = createSensing();
    describe(s, DEVICE, supply === null ? [{ ...RATIO, partner: null }] : [RATIO, SUPPLY]);
    return sense(s, sample(0, [counts(volts), ...(supply === null ? [] : [supply * 10_000])]), 0);
  };

  it.each([
    [0.5, 0],
    [1.5, 1.5],
    [2.5, 3],
    [4.5, 6],
  ])('%f V of 5 V is %f bar of 0-6 bar (linear)', (volts, bar) => {
    expect(read(volts, 5).bar).toBeCloseTo(bar, 6);
    expect(read(volts, null).bar).toBeCloseTo(bar, 6);
  });

  it('a supply that gives no more values is believed for five seconds, then it is unknown and said', () => {
    const s = createSensing();
    describe(s, DEVICE, [RATIO, SUPPLY]);
    const flagsAt = (n: number, supply: number | null) =>
      sense(s, sample(n, [counts(1.5), supply]), at(n)).flags & FLAG.noSupply;
    expect(flagsAt(0, 46_000)).toBe(0);
    for (let n = 1; n <= 100; n++) expect(flagsAt(n, null)).toBe(0);
    expect(flagsAt(103, null)).toBeTruthy();
  });

  it('4.6 V taken for 5 V reads 1.32 bar at a true 1.50; the supply count puts it right', () => {
    const output = 4.6 * 0.3;
    expect(read(output, null).bar).toBeCloseTo(1.32, 3);
    const r = read(output, 4.6);
    expect(r.bar).toBeCloseTo(1.5, 3);
    expect(r.flags & FLAG.supply).toBeTruthy();
    expect(read(1.5, 5).flags & (FLAG.supply | FLAG.noSupply)).toBe(0);
  });

  it('without supply counts U covers such a supply, and it is said', () => {
    const r = read(4.6 * 0.3, null);
    expect(r.flags & FLAG.noSupply).toBeTruthy();
    expect(r.uBar).toBeGreaterThan(0.18);
    expect(read(1.5, 5).uBar).toBeLessThan(0.1);
  });

  it('a collapsed supply gives no number', () => {
    const r = read(1.0, 2);
    expect(r.bar).toBeNull();
    expect(r.flags & FLAG.supply).toBeTruthy();
  });
});

group('temperature', () => {
  it('adds emf to emf: 4.096 mV of type K with the junction at 25 °C is 124.3 °C (NIST table)', () => {
    const s = started();
    const r = sense(s, sample(0, [12_000, emf(4.096), junction(25)]), 0);
    expect(r.temps[0]!.c).toBeCloseTo(124.3, 1);
    expect(r.temps[0]!.place).toBe('sleeve');
  });

  it('open, without junction, or far outside its span there is no number', () => {
    const temp = (counts: (number | null)[]) => sense(started(), sample(0, counts), 0).temps[0]!;
    const open = temp([12_000, 524_287, junction(25)]);
    expect(open.c).toBeNull();
    expect(open.flags & FLAG.open).toBeTruthy();
    const beyond = temp([12_000, emf(60), junction(25)]);
    expect(beyond.c).toBeNull();
    expect(beyond.flags & FLAG.open).toBeTruthy();
    // Without its junction nothing is known of the probe: not that it is open either.
    for (const counts of [emf(1), 524_287]) {
      const alone = temp([12_000, counts, null]);
      expect(alone.c).toBeNull();
      expect(alone.flags & FLAG.fault).toBeTruthy();
      expect(alone.flags & FLAG.open).toBe(0);
    }
    const hot = temp([12_000, probe(400, 25), junction(25)]);
    expect(hot.c).toBeNull();
    expect(hot.flags & FLAG.outOfRange).toBeTruthy();
  });

  it('open at the end of a scale that leaves out the lowest code, as one that is even about zero does', () => {
    const even = { ...PROBE, bits: 20, rawLo: -524_287, rawHi: 524_287, elLo: -10_000_000, elHi: 10_000_000 };
    const s = createSensing();
    describe(s, HELLO, [PRESS, even, JUNCTION]);
    // 10 mV of type K would be a temperature; at the converter's end it is none.
    const [at] = sense(s, sample(0, [12_000, 524_287, junction(25)]), 0).temps;
    expect(at!.c).toBeNull();
    expect(at!.flags & FLAG.open).toBeTruthy();
  });

  it('stays unchecked until it was warmed beside a thermometer', () => {
    const s = started();
    expect(one(s, 0, 12, 33).temps[0]!.flags & FLAG.unchecked).toBeTruthy();
    expect(warmCheck(s, 'pipe', 33).reason).toBe('no-probe');
    expect(warmCheck(s, 'sleeve', 33).passed).toBe(true);
    expect(one(s, 1, 12, 33).temps[0]!.flags & FLAG.unchecked).toBe(0);
  });

  it('a shorted, reversed or wrong probe does not pass the warm-in-hand check', () => {
    // True 33 °C in the hand, junction at 22 °C.
    const counts = (c: number) => [12_000, c, junction(22)];
    const hand = (c: number) => {
      const s = started();
      sense(s, sample(0, counts(c)), 0);
      return warmCheck(s, 'sleeve', 33);
    };
    expect(hand(0)).toMatchObject({ passed: false, reason: 'differs' });
    expect(hand(-probe(33, 22))).toMatchObject({ passed: false, reason: 'differs' });
    expect(hand(emf(emfMv('J', 33)! - emfMv('J', 22)!)).differenceK).toBeGreaterThan(2);
    expect(hand(probe(33, 22)).passed).toBe(true);
  });

  it('a hand no warmer than the junction proves nothing', () => {
    const s = started();
    sense(s, sample(0, [12_000, 0, junction(30)]), 0);
    expect(warmCheck(s, 'sleeve', 31)).toMatchObject({ passed: false, reason: 'too-close' });
  });

  it('U holds class, junction and input: over 2 K for a class 2 probe of type K', () => {
    expect(one(started(), 0, 12, 40).temps[0]!.uC).toBeGreaterThan(2);
    expect(one(started(), 0, 12, 40).temps[0]!.uC).toBeLessThan(6);
  });
});

group('state', () => {
  it('goes on from a snapshot through JSON exactly as without one', () => {
    const drive = (snapshots: boolean): Reading[] => {
      let s = started();
      const out: Reading[] = [];
      for (let n = 0; n < 400; n++) {
        const ma = 4 + 0.0004 * ((n * 7919) % 13) + (n > 60 ? Math.min(6, (n - 60) * 0.05) : 0);
        if (n === 50) expect(zero(s).taken).toBe(true);
        out.push(one(s, n, ma, 15 + n * 0.01));
        if (snapshots && n % 37 === 0) s = JSON.parse(JSON.stringify(s)) as SensingState;
      }
      return out;
    };
    expect(drive(true)).toEqual(drive(false));
  });

  it('keeps zero and checks through a later Setup of the same job, forgets them for another', () => {
    const s = started();
    for (let n = 0; n < 40; n++) one(s, n, 4.02, 33);
    zero(s);
    warmCheck(s, 'sleeve', 33);
    const channels = suggestChannels(CHANNELS);
    applySetup(s, channelSetup(channels));
    applySetup(s, channelSetup(channels, { number: 2, ground: { c: 10, uC: 2 } }));
    const r = one(s, 41, 4.02, 33);
    expect(r.bar).toBeCloseTo(0, 9);
    expect(r.flags & FLAG.notZeroed).toBe(0);
    expect(r.temps[0]!.flags & FLAG.unchecked).toBe(0);
    applySetup(s, channelSetup(channels, { jobId: 'job-2' }));
    const q = one(s, 42, 4.02, 33);
    expect(q.flags & FLAG.notZeroed).toBeTruthy();
    expect(q.temps[0]!.flags & FLAG.unchecked).toBeTruthy();
  });

  it('another device under the same run is not the one that was zeroed', () => {
    const s = started();
    for (let n = 0; n < 40; n++) one(s, n, 4.02);
    expect(zero(s).taken).toBe(true);
    describe(s, { ...HELLO, bootId: 8 }, CHANNELS);
    expect(s.zero).not.toBeNull();
    describe(s, { ...HELLO, deviceId: 'TEST-2', bootId: 8 }, CHANNELS);
    expect(s.zero).toBeNull();
  });
});

group('a second pressure', () => {
  const outlet: ChannelFrame = { ...PRESS, index: 3, place: 'supply', rangeHi: 1_000_000 };
  const pair = (): SensingState => {
    const s = createSensing();
    describe(s, { ...HELLO, channels: 4 }, [...CHANNELS, outlet]);
    return s;
  };
  const both = (s: SensingState, n: number, ma: number, second: number | null): Reading =>
    sense(s, sample(n, [mA(ma), probe(20, 25), junction(25), second === null ? null : mA(second)]), at(n));

  it('is read by its own scale beside the pressure, and not at all where there is none', () => {
    const r = both(pair(), 1, 12, 8);
    expect(r.bar).toBeCloseTo(2, 6);
    expect(r.second).toMatchObject({ channel: 3, role: 'outlet-pressure' });
    expect(r.second!.bar).toBeCloseTo(2.5, 6);
    expect(r.second!.uBar).toBeGreaterThan(r.uBar);
    expect('second' in one(started(), 1, 12)).toBe(false);
  });

  it('keeps the zero of the other to itself, and a broken wire of it spoils no other reading', () => {
    const s = pair();
    for (let n = 0; n < 30; n++) both(s, n, 4.04, 4.02);
    expect(zero(s).taken).toBe(true);
    const r = both(s, 30, 4.04, 4.02);
    expect(r.bar).toBeCloseTo(0, 6);
    expect(r.second!.bar).toBeCloseTo(0.0125, 6);
    expect(r.second!.flags & FLAG.notZeroed).toBeTruthy();
    const broken = both(s, 31, 4.04, 0);
    expect(broken.bar).toBeCloseTo(0, 6);
    expect(broken.second!.bar).toBeNull();
    expect(broken.second!.flags & (FLAG.fault | FLAG.outOfRange)).toBe(FLAG.fault);
    // Beyond the upper end of its signal it may be far over its span.
    const far = both(s, 32, 4.04, 22.5).second!;
    expect([far.bar, far.flags & (FLAG.fault | FLAG.outOfRange)]).toEqual([
      null,
      FLAG.fault | FLAG.outOfRange,
    ]);
    expect(both(s, 33, 4.04, null).second!.flags & FLAG.fault).toBeTruthy();
  });
});
