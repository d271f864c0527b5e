import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { encodeFrame } from './encode.ts';
import type { Frame } from './frames.ts';
import { MAX_LINE } from './frames.ts';
import { anyDeviceFrame, anyHostFrame, asText, LONGEST } from './testing/arbitraries.ts';
import { slowVerdict } from './testing/slow.ts';

const body = (frame: Frame) => asText(encodeFrame(frame)).slice(0, -9);

describe('encodeFrame', () => {
  it('writes the fields in their order', () => {
    expect(body({ t: 'S', seq: 0, tick: 4294967295, counts: [-12, null, 0], status: 5 })).toBe(
      'S,0,4294967295,-12,,0,5,',
    );
    expect(
      body({
        t: 'H',
        version: 1,
        deviceId: 'sb-01',
        firmware: '1.0',
        bootId: 7,
        uptime: 10000,
        channels: 3,
        maxRateHz: 500,
      }),
    ).toBe('H,1,sb-01,1.0,7,10000,3,500,');
    expect(
      body({
        t: 'C',
        index: 0,
        quantity: 'press',
        place: null,
        signal: 'ratio',
        partner: 1,
        bits: 16,
        rawLo: 0,
        rawHi: 32768,
        elLo: 0,
        elHi: 1000000,
        rangeLo: 0,
        rangeHi: 600000,
        rateMilliHz: 500000,
      }),
    ).toBe('C,0,press,,ratio,1,16,0,32768,0,1000000,0,600000,500000,');
    expect(body({ t: 'E', number: 1, tick: 2, code: 'fault', channel: null, value: -3 })).toBe(
      'E,1,2,fault,,-3,',
    );
    expect(
      body({
        t: 'G',
        tick: 9,
        state: 'armed',
        channel: 0,
        limitCounts: 20000,
        limitMbar: 1485,
        sounder: 0,
      }),
    ).toBe('G,9,armed,0,20000,1485,0,');
    expect(body({ t: 'R', command: 3, result: 'clamped', value: 100 })).toBe('R,3,clamped,100,');
    expect(
      body({ t: 'K', number: 65535, command: { verb: 'limit', channel: 0, counts: -1, mbar: 1500 } }),
    ).toBe('K,65535,limit,0,-1,1500,');
  });

  it('keeps to the longest line at the extremes of every frame', () => {
    const lengths = new Map<string, number>();
    for (const frame of LONGEST) {
      const { length } = encodeFrame(frame);
      expect(length).toBeLessThanOrEqual(MAX_LINE);
      lengths.set(frame.t, Math.max(lengths.get(frame.t) ?? 0, length));
    }
    // The figures of SPEC.md.
    expect(Object.fromEntries(lengths)).toEqual({ S: 123, H: 80, C: 123, E: 51, G: 53, R: 37, K: 43 });
  });

  it('never exceeds those extremes', () => {
    const most: Record<string, number> = { S: 123, H: 80, C: 123, E: 51, G: 53, R: 37, K: 43 };
    fc.assert(
      fc.property(fc.oneof(anyDeviceFrame, anyHostFrame), (frame) => {
        expect(encodeFrame(frame).length).toBeLessThanOrEqual(most[frame.t]!);
      }),
      { numRuns: 2000 },
    );
  });

  it('agrees with the regular expressions of the second opinion', () => {
    fc.assert(
      fc.property(anyDeviceFrame, (frame) => {
        expect(slowVerdict(encodeFrame(frame), 'device')).toBe('frame');
      }),
    );
    fc.assert(
      fc.property(anyHostFrame, (frame) => {
        expect(slowVerdict(encodeFrame(frame), 'host')).toBe('frame');
      }),
    );
  });

  const unarmed: Frame = {
    t: 'G',
    tick: 0,
    state: 'unarmed',
    channel: null,
    limitCounts: null,
    limitMbar: null,
    sounder: 0,
  };
  it.each<[string, Frame]>([
    ['fraction', { t: 'S', seq: 0.5, tick: 0, counts: [0], status: 0 }],
    ['NaN', { t: 'S', seq: 0, tick: 0, counts: [Number.NaN], status: 0 }],
    ['no counts', { t: 'S', seq: 0, tick: 0, counts: [], status: 0 }],
    ['eight counts', { t: 'S', seq: 0, tick: 0, counts: [0, 0, 0, 0, 0, 0, 0, 0], status: 0 }],
    ['negative seq', { t: 'S', seq: -1, tick: 0, counts: [0], status: 0 }],
    ['seq past 32 bits', { t: 'S', seq: 4294967296, tick: 0, counts: [0], status: 0 }],
    ['count past int32', { t: 'S', seq: 0, tick: 0, counts: [2147483648], status: 0 }],
    [
      'comma in an id',
      {
        t: 'H',
        version: 1,
        deviceId: 'a,b',
        firmware: '1',
        bootId: 0,
        uptime: 0,
        channels: 1,
        maxRateHz: 1,
      },
    ],
    [
      'id of 17',
      {
        t: 'H',
        version: 1,
        deviceId: 'a',
        firmware: '12345678901234567',
        bootId: 0,
        uptime: 0,
        channels: 1,
        maxRateHz: 1,
      },
    ],
    ['unarmed with a limit', { ...unarmed, limitCounts: 3 }],
    ['armed without one', { ...unarmed, state: 'armed' }],
    ['unarmed and sounding', { ...unarmed, sounder: 1 }],
    ['rate 0', { t: 'K', number: 0, command: { verb: 'start', rateHz: 0 } }],
  ])('refuses %s', (_, frame) => {
    expect(() => encodeFrame(frame)).toThrow(RangeError);
  });

  it('writes -0 as 0', () => {
    expect(body({ t: 'S', seq: 0, tick: 0, counts: [-0], status: 0 })).toBe('S,0,0,0,0,');
  });
});
