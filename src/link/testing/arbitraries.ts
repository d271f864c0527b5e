/** Frames by fast-check, extremes by hand, bytes as text: for tests only. */

import fc from 'fast-check';
import type { Frame } from '../frames.ts';
import {
  DEVICE_LETTERS,
  EVENT_CODES,
  GUARD_STATES,
  isConsistent,
  PLACES,
  QUANTITIES,
  REPLY_RESULTS,
  SIGNALS,
} from '../grammar.ts';

const edgy = (min: number, max: number) =>
  fc.oneof(
    fc.integer({ min, max }),
    fc.constantFrom(...[min, max, 0, 1, -1, 9, 10, 99, 100].filter((n) => n >= min && n <= max)),
  );
const int32 = edgy(-0x80000000, 0x7fffffff);
const uint32 = edgy(0, 0xffffffff);
const uint16 = edgy(0, 0xffff);
const index = edgy(0, 6);
const maybe = <T>(a: fc.Arbitrary<T>) => fc.option(a, { nil: null, freq: 4 });
const id = fc.string({
  minLength: 1,
  maxLength: 16,
  unit: fc.constantFrom(...'ABCXYZabcxyz0189._-'),
});

const sample = fc.record({
  t: fc.constant('S' as const),
  seq: uint32,
  tick: uint32,
  counts: fc.array(maybe(int32), { minLength: 1, maxLength: 7 }),
  status: uint16,
});
const hello = fc.record({
  t: fc.constant('H' as const),
  version: edgy(1, 0xffff),
  deviceId: id,
  firmware: id,
  bootId: uint32,
  uptime: uint32,
  channels: edgy(1, 7),
  maxRateHz: edgy(1, 1000),
});
const channel = fc.record({
  t: fc.constant('C' as const),
  index,
  quantity: fc.constantFrom(...QUANTITIES),
  place: maybe(fc.constantFrom(...PLACES)),
  signal: fc.constantFrom(...SIGNALS),
  partner: maybe(index),
  bits: edgy(8, 32),
  rawLo: int32,
  rawHi: int32,
  elLo: int32,
  elHi: int32,
  rangeLo: int32,
  rangeHi: int32,
  rateMilliHz: edgy(1, 0xffffffff),
});
const event = fc.record({
  t: fc.constant('E' as const),
  number: uint16,
  tick: uint32,
  code: fc.constantFrom(...EVENT_CODES),
  channel: maybe(index),
  value: maybe(int32),
});
const limit = { channel: index, limitCounts: int32, limitMbar: edgy(1, 0xffff) };
const guard = fc.oneof(
  fc.record({
    t: fc.constant('G' as const),
    tick: uint32,
    state: fc.constantFrom(...GUARD_STATES.filter((s) => s !== 'unarmed')),
    ...limit,
    sounder: fc.constantFrom(0 as const, 1 as const),
  }),
  uint32.map((tick) => ({
    t: 'G' as const,
    tick,
    state: 'unarmed' as const,
    channel: null,
    limitCounts: null,
    limitMbar: null,
    sounder: 0 as const,
  })),
);
const reply = fc.record({
  t: fc.constant('R' as const),
  command: uint16,
  result: fc.constantFrom(...REPLY_RESULTS),
  value: maybe(int32),
});
const command = fc.record({
  t: fc.constant('K' as const),
  number: uint16,
  command: fc.oneof(
    fc.record({ verb: fc.constantFrom('hello', 'stop', 'beat', 'read', 'disarm', 'silence') }),
    fc.record({ verb: fc.constant('start' as const), rateHz: edgy(1, 1000) }),
    fc.record({
      verb: fc.constant('limit' as const),
      channel: index,
      counts: int32,
      mbar: edgy(1, 0xffff),
    }),
  ),
});

export const anyDeviceFrame: fc.Arbitrary<Frame> = fc.oneof(
  { arbitrary: sample, weight: 5 },
  hello,
  channel.filter(isConsistent),
  event,
  guard,
  reply,
);
export const anyHostFrame: fc.Arbitrary<Frame> = command;

/** Every frame at the values that give its longest line. */
export const LONGEST: readonly Frame[] = [
  {
    t: 'S',
    seq: 0xffffffff,
    tick: 0xffffffff,
    counts: Array<number>(7).fill(-0x80000000),
    status: 0xffff,
  },
  {
    t: 'H',
    version: 0xffff,
    deviceId: 'ABCDEFGHIJKLMNOP',
    firmware: 'abcdefghijklmnop',
    bootId: 0xffffffff,
    uptime: 0xffffffff,
    channels: 7,
    maxRateHz: 1000,
  },
  ...QUANTITIES.flatMap((quantity) =>
    PLACES.flatMap((place) =>
      SIGNALS.map((signal) => ({
        t: 'C' as const,
        index: 6,
        quantity,
        place,
        signal,
        partner: 5,
        bits: 32,
        rawLo: -0x80000000,
        rawHi: -0x7fffffff,
        elLo: -0x7fffffff,
        elHi: -0x80000000,
        rangeLo: -0x80000000,
        rangeHi: -0x7fffffff,
        rateMilliHz: 0xffffffff,
      })),
    ),
  ),
  ...EVENT_CODES.map((code) => ({
    t: 'E' as const,
    number: 0xffff,
    tick: 0xffffffff,
    code,
    channel: 6,
    value: -0x80000000,
  })),
  ...GUARD_STATES.filter((s) => s !== 'unarmed').map((state) => ({
    t: 'G' as const,
    tick: 0xffffffff,
    state,
    channel: 6,
    limitCounts: -0x80000000,
    limitMbar: 0xffff,
    sounder: 1 as const,
  })),
  ...REPLY_RESULTS.map((result) => ({ t: 'R' as const, command: 0xffff, result, value: -0x80000000 })),
  { t: 'K', number: 0xffff, command: { verb: 'start', rateHz: 1000 } },
  { t: 'K', number: 0xffff, command: { verb: 'silence' } },
  {
    t: 'K',
    number: 0xffff,
    command: { verb: 'limit', channel: 6, counts: -0x80000000, mbar: 0xffff },
  },
];

export const isDeviceFrame = (frame: Frame): boolean => DEVICE_LETTERS.includes(frame.t);

export const ascii = (s: string): Uint8Array => Uint8Array.from(s, (c) => c.charCodeAt(0));
export const asText = (b: Uint8Array): string => {
  let s = '';
  for (const c of b) s += String.fromCharCode(c);
  return s;
};

export function join(parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((n, p) => n + p.length, 0));
  let at = 0;
  for (const p of parts) {
    out.set(p, at);
    at += p.length;
  }
  return out;
}
