/** Frames by fast-check, extremes by hand, bytes as text: for tests only. */

import fc from 'fast-check';
import type { Field, Fields } from '../fields.ts';
import {
  type CommandFrame,
  DEVICE_FRAMES,
  type DeviceFrame,
  EVENT_CODES,
  FRAMES,
  type Frame,
  type FrameOf,
  GUARD_STATES,
  type Letter,
  PLACES,
  QUANTITIES,
  REPLY_RESULTS,
  SIGNALS,
} from '../frames.ts';
import { DEVICE_LETTERS, isConsistent } from '../grammar.ts';

const edgy = (min: number, max: number) =>
  fc.oneof(
    fc.integer({ min, max }),
    fc.constantFrom(...[min, max, 0, 1, -1, 9, 10, 99, 100].filter((n) => n >= min && n <= max)),
  );
const id = fc.string({
  minLength: 1,
  maxLength: 16,
  unit: fc.constantFrom(...'ABCXYZabcxyz0189._-'),
});

/** Values that the description allows in the field. */
function drawn(field: Field): fc.Arbitrary<unknown> {
  switch (field.kind) {
    case 'int':
      return edgy(field.min, field.max);
    case 'flag':
      return fc.constantFrom(0, 1);
    case 'word':
      return fc.constantFrom(...field.words);
    case 'id':
      return id;
    case 'maybe':
      return fc.option(drawn(field.of), { nil: null, freq: 4 });
    case 'each':
      return fc.array(drawn(field.of), { minLength: field.least, maxLength: field.most });
    case 'verb':
      return fc.oneof(
        ...Object.entries(field.verbs).map(([verb, args]) =>
          fc.record({ verb: fc.constant(verb), ...allDrawn(args) }),
        ),
      );
  }
}

const allDrawn = (fields: Fields) =>
  Object.fromEntries(Object.entries(fields).map(([name, field]) => [name, drawn(field)]));

/** Frames of the letter, whether or not their fields agree with each other. */
const frameOf = <L extends Letter>(t: L): fc.Arbitrary<FrameOf<L>> =>
  fc.record({ t: fc.constant(t), ...allDrawn(FRAMES[t]) }) as fc.Arbitrary<unknown> as fc.Arbitrary<
    FrameOf<L>
  >;

/** Rules between fields that hardly any drawn frame keeps: drawn so that they do. */
const unarmed = frameOf('G').map((frame) => ({
  ...frame,
  state: 'unarmed' as const,
  channel: null,
  limitCounts: null,
  limitMbar: null,
  sounder: 0 as const,
}));

const deviceLetters = Object.keys(DEVICE_FRAMES) as (keyof typeof DEVICE_FRAMES)[];

export const anyDeviceFrame: fc.Arbitrary<DeviceFrame> = fc.oneof(
  { arbitrary: frameOf('S'), weight: 5 },
  unarmed,
  ...deviceLetters.filter((t) => t !== 'S').map((t) => frameOf(t).filter(isConsistent)),
);
export const anyHostFrame: fc.Arbitrary<CommandFrame> = frameOf('K');

/** Every frame at the values that give its longest line. */
const LONGEST_BY_LETTER: { readonly [L in Letter]: readonly FrameOf<L>[] } = {
  S: [
    {
      t: 'S',
      seq: 0xffffffff,
      tick: 0xffffffff,
      counts: Array<number>(7).fill(-0x80000000),
      status: 0xffff,
    },
  ],
  H: [
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
  ],
  C: QUANTITIES.flatMap((quantity) =>
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
  E: EVENT_CODES.map((code) => ({
    t: 'E',
    number: 0xffff,
    tick: 0xffffffff,
    code,
    channel: 6,
    value: -0x80000000,
  })),
  G: GUARD_STATES.filter((s) => s !== 'unarmed').map((state) => ({
    t: 'G',
    tick: 0xffffffff,
    state,
    channel: 6,
    limitCounts: -0x80000000,
    limitMbar: 0xffff,
    sounder: 1,
  })),
  R: REPLY_RESULTS.map((result) => ({ t: 'R', command: 0xffff, result, value: -0x80000000 })),
  K: [
    { t: 'K', number: 0xffff, command: { verb: 'start', rateHz: 1000 } },
    { t: 'K', number: 0xffff, command: { verb: 'silence' } },
    {
      t: 'K',
      number: 0xffff,
      command: { verb: 'limit', channel: 6, counts: -0x80000000, mbar: 0xffff },
    },
  ],
};
export const LONGEST: readonly Frame[] = Object.values(LONGEST_BY_LETTER).flat();

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
