/**
 * The frames of the Steadybar device protocol, version 1: described as data, and the types that follow. A new frame or
 * word is added here; encoder, parser and their tests follow the description. firmware-protocol/SPEC.md is the
 * specification; its vectors are run against this codec and against the C reference.
 *
 * One line of ASCII a frame, fields parted by commas, closed by CRC-32C (Castagnoli) in eight lower-case hex
 * digits over every byte up to and including the comma before it, then LF. A frame has exactly one byte form:
 * integers have no sign but a leading '-', no leading zeros and no '-0'; an absent value is an empty field.
 */

import type { ThermocoupleType } from '../job/setup.ts';
import { each, FLAG, type Flat, ID, int, maybe, type ValueOf, type ValuesOf, verb, word } from './fields.ts';

export const PROTOCOL_VERSION = 1;

/** Longest line in bytes, LF included. Longer input is discarded up to the next LF. */
export const MAX_LINE = 128;

/** One device tick is 100 µs; the counter is 32 bits wide and wraps after 119.3 h. */
export const TICK_S = 1e-4;

/** What a channel measures: line pressure, a temperature, a supply or reference voltage, a cold junction. */
export const QUANTITIES = ['press', 'temp', 'supply', 'junct'] as const;
export type Quantity = (typeof QUANTITIES)[number];

/** The word of each thermocouple type that a job may name: nV. */
export const THERMOCOUPLE_SIGNALS = {
  K: 'tc-k',
  J: 'tc-j',
  T: 'tc-t',
  N: 'tc-n',
  E: 'tc-e',
} as const satisfies { readonly [T in ThermocoupleType]: `tc-${Lowercase<T>}` };
export type ThermocoupleSignal = (typeof THERMOCOUPLE_SIGNALS)[ThermocoupleType];

/**
 * How the quantity reaches the converter, and with it the electrical unit of elLo/elHi:
 * current µA · ratio parts per million of the supply · voltage µV · digital Pa or m°C · tc-x nV.
 */
export const SIGNALS = [
  'current',
  'ratio',
  'voltage',
  'digital',
  ...Object.values(THERMOCOUPLE_SIGNALS),
] as const;
export type Signal = (typeof SIGNALS)[number];

/** Where the device believes the channel sits: a suggestion only, the job decides. */
export const PLACES = ['packer', 'hose', 'supply', 'sleeve', 'air', 'pipe', 'ground'] as const;
export type SuggestedPlace = (typeof PLACES)[number] | null;

export const EVENT_CODES = ['boot', 'button', 'trip', 'return', 'fault', 'hostlost', 'hostback'] as const;
export type DeviceEventCode = (typeof EVENT_CODES)[number];

/** What the value of a fault event means, from 1 on. */
export const DEVICE_FAULTS = [
  'store',
  'watchdog',
  'no-conversions',
  'supply',
  'sensor-low',
  'no-limit',
] as const;
export type DeviceFault = (typeof DEVICE_FAULTS)[number];

export const GUARD_STATES = ['unarmed', 'armed', 'tripped', 'silenced'] as const;
export type DeviceGuardState = (typeof GUARD_STATES)[number];

export const REPLY_RESULTS = ['ok', 'clamped', 'refused', 'range', 'unknown', 'busy'] as const;
export type ReplyResult = (typeof REPLY_RESULTS)[number];

const INT32 = int(-0x80000000, 0x7fffffff);
const UINT32 = int(0, 0xffffffff);
const UINT16 = int(0, 0xffff);
const POSITIVE16 = int(1, 0xffff);
const POSITIVE32 = int(1, 0xffffffff);
/** Most channels of a device. */
const CHANNELS = 7;
const INDEX = int(0, CHANNELS - 1);
/** Rates a host may ask for and a device may offer, Hz. */
const RATE = int(1, 1000);

/** What a device sends: the letter, and the fields in the order of the line. */
export const DEVICE_FRAMES = {
  /** Hello, one line for the device. */
  H: {
    version: POSITIVE16,
    deviceId: ID,
    firmware: ID,
    /** Differs after each start of the device. */
    bootId: UINT32,
    /** Ticks since start, wraps. */
    uptime: UINT32,
    channels: int(1, CHANNELS),
    maxRateHz: RATE,
  },
  /** Hello, one line a channel, in order of index after `H`. */
  C: {
    index: INDEX,
    quantity: word(QUANTITIES),
    place: maybe(word(PLACES)),
    signal: word(SIGNALS),
    /** Index of the supply channel of a ratiometric signal, or of the cold junction of a thermocouple. */
    partner: maybe(INDEX),
    /** Effective resolution of the converter. */
    bits: int(8, 32),
    /** Two points of the converter: counts rawLo..rawHi stand for elLo..elHi in the signal's electrical unit. */
    rawLo: INT32,
    rawHi: INT32,
    elLo: INT32,
    elHi: INT32,
    /** The sensor's span: Pa for press, m°C for temp and junct, µV for supply. */
    rangeLo: INT32,
    rangeHi: INT32,
    /** New conversions per 1000 s. */
    rateMilliHz: POSITIVE32,
  },
  /** A sample. */
  S: {
    /** Taken at sampling, wraps; a dropped line shows as a gap. */
    seq: UINT32,
    /** Device clock at sampling in ticks, wraps. */
    tick: UINT32,
    /** Raw counts, null for no new conversion since the last line; as many as the device has channels. */
    counts: each(maybe(INT32), 1, CHANNELS),
    /** Bits of STATUS. */
    status: UINT16,
  },
  /** Something happened on the device. */
  E: {
    /** Counts events since boot, wraps; a gap is a lost event. */
    number: UINT16,
    tick: UINT32,
    code: word(EVENT_CODES),
    channel: maybe(INDEX),
    value: maybe(INT32),
  },
  /** The device's own limit; once a second and on change. */
  G: {
    tick: UINT32,
    state: word(GUARD_STATES),
    channel: maybe(INDEX),
    limitCounts: maybe(INT32),
    limitMbar: maybe(POSITIVE16),
    /** 1 while the sounder sounds. */
    sounder: FLAG,
  },
  /** Answer to the host's command of that number. */
  R: {
    command: UINT16,
    result: word(REPLY_RESULTS),
    /** What was kept: the rate for start, counts for limit; else null. */
    value: maybe(INT32),
  },
} as const;

/** Commands with their arguments, in the order of the line. */
export const VERBS = {
  hello: {},
  start: { rateHz: RATE },
  stop: {},
  beat: {},
  limit: { channel: INDEX, counts: INT32, mbar: POSITIVE16 },
  read: {},
  disarm: {},
  silence: {},
} as const;

/** What a host sends. */
export const HOST_FRAMES = {
  /** A command. A repeated number is answered again and not carried out twice. */
  K: {
    /** Wraps, never repeated for a new command within 65 535. */
    number: UINT16,
    command: verb(VERBS),
  },
} as const;

export const FRAMES = { ...DEVICE_FRAMES, ...HOST_FRAMES } as const;
export type Letter = keyof typeof FRAMES;

export type FrameOf<L extends Letter> = L extends Letter
  ? Flat<{ readonly t: L } & ValuesOf<(typeof FRAMES)[L]>>
  : never;

export type HelloFrame = FrameOf<'H'>;
export type ChannelFrame = FrameOf<'C'>;
export type SampleFrame = FrameOf<'S'>;
export type EventFrame = FrameOf<'E'>;
export type GuardFrame = FrameOf<'G'>;
export type ReplyFrame = FrameOf<'R'>;
export type CommandFrame = FrameOf<'K'>;
export type HostVerb = ValueOf<typeof HOST_FRAMES.K.command>;

export type DeviceFrame = FrameOf<keyof typeof DEVICE_FRAMES>;
export type Frame = FrameOf<Letter>;

/** Bits of a sample's status field, 16 bits; unknown bits are kept and ignored. */
export const STATUS = {
  /** Lines were dropped since the last one that left (the line was full). */
  dropped: 1,
  /** A conversion came late or was lost. */
  overrun: 2,
  /** The device's own limit is armed. */
  armed: 4,
  /** The device's own limit is tripped now. */
  tripped: 8,
  /** The device's own supply is low. */
  supplyLow: 16,
  /** No heartbeat from the host for 3 s. */
  hostSilent: 32,
  /** The button is held. */
  button: 64,
} as const;

/** Why bytes between frames were not a frame. */
export const STRAY_REASONS = [
  'garbage', // no known frame letter, or bytes outside printable ASCII
  'crc', // well-formed, CRC differs
  'form', // CRC right, but not the one canonical form, or a value out of its range
  'long', // more than MAX_LINE bytes without LF
  'partial', // the first bytes after opening, up to the first LF
  'unknown', // CRC right, frame letter of a later version
] as const;
export type StrayReason = (typeof STRAY_REASONS)[number];
