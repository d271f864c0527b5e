/**
 * Ranges and word lists of protocol version 1, shared by encoder and decoder. firmware-protocol/protocol.json
 * says the same for other languages; a test holds the two together.
 */

import type {
  DeviceEventCode,
  DeviceGuardState,
  Frame,
  HostVerb,
  Quantity,
  ReplyResult,
  Signal,
  SuggestedPlace,
} from './frames.ts';

export const LF = 0x0a;
export const COMMA = 0x2c;
export const MINUS = 0x2d;

/** Bytes after the last comma: eight hex digits and LF. */
export const TAIL = 9;

/** Letters of frames a device sends, and of frames a host sends. */
export const DEVICE_LETTERS = 'HCSEGR';
export const HOST_LETTERS = 'K';

export const QUANTITIES: readonly Quantity[] = ['press', 'temp', 'supply', 'junct'];
export const SIGNALS: readonly Signal[] = [
  'current',
  'ratio',
  'voltage',
  'digital',
  'tc-k',
  'tc-j',
  'tc-t',
  'tc-n',
  'tc-e',
];
export const PLACES: readonly Exclude<SuggestedPlace, null>[] = [
  'packer',
  'hose',
  'supply',
  'sleeve',
  'air',
  'pipe',
  'ground',
];
export const EVENT_CODES: readonly DeviceEventCode[] = [
  'boot',
  'button',
  'trip',
  'return',
  'fault',
  'hostlost',
  'hostback',
];
export const GUARD_STATES: readonly DeviceGuardState[] = ['unarmed', 'armed', 'tripped', 'silenced'];
export const REPLY_RESULTS: readonly ReplyResult[] = ['ok', 'clamped', 'refused', 'range', 'unknown', 'busy'];
export const VERBS: readonly HostVerb['verb'][] = [
  'hello',
  'start',
  'stop',
  'beat',
  'limit',
  'read',
  'disarm',
  'silence',
];

export interface Range {
  readonly min: number;
  readonly max: number;
}

export const INT32: Range = { min: -0x80000000, max: 0x7fffffff };
export const UINT32: Range = { min: 0, max: 0xffffffff };
export const UINT16: Range = { min: 0, max: 0xffff };
export const POSITIVE16: Range = { min: 1, max: 0xffff };
export const POSITIVE32: Range = { min: 1, max: 0xffffffff };
export const BITS: Range = { min: 8, max: 32 };
export const INDEX: Range = { min: 0, max: 6 };
export const CHANNELS: Range = { min: 1, max: 7 };
export const FLAG01: Range = { min: 0, max: 1 };
/** Rates a host may ask for and a device may offer, Hz. */
export const RATE: Range = { min: 1, max: 1000 };

export const ID_LENGTH = 16;

/** A-Z a-z 0-9 . _ - */
export function isIdByte(c: number): boolean {
  return (
    (c >= 0x61 && c <= 0x7a) ||
    (c >= 0x41 && c <= 0x5a) ||
    (c >= 0x30 && c <= 0x39) ||
    c === 0x2d ||
    c === 0x2e ||
    c === 0x5f
  );
}

/**
 * What no single field can say. A channel's two points differ in both coordinates, its span ascends, and it is
 * not its own partner; a guard without a limit is unarmed and silent, and only that one.
 */
export function isConsistent(frame: Frame): boolean {
  if (frame.t === 'C') {
    return (
      frame.rawLo < frame.rawHi &&
      frame.elLo !== frame.elHi &&
      frame.rangeLo < frame.rangeHi &&
      frame.partner !== frame.index
    );
  }
  if (frame.t === 'G') {
    const unarmed = frame.state === 'unarmed';
    return (
      (frame.channel === null) === unarmed &&
      (frame.limitCounts === null) === unarmed &&
      (frame.limitMbar === null) === unarmed &&
      !(unarmed && frame.sounder === 1)
    );
  }
  return true;
}
