/** Frames to bytes, by hand: one canonical line a frame. */

import { crc32c } from './crc32c.ts';
import type { CommandFrame, Frame } from './frames.ts';
import { MAX_LINE } from './frames.ts';
import {
  BITS,
  CHANNELS,
  COMMA,
  EVENT_CODES,
  FLAG01,
  GUARD_STATES,
  ID_LENGTH,
  INDEX,
  INT32,
  isConsistent,
  isIdByte,
  LF,
  MINUS,
  PLACES,
  POSITIVE16,
  POSITIVE32,
  QUANTITIES,
  RATE,
  type Range,
  REPLY_RESULTS,
  SIGNALS,
  UINT16,
  UINT32,
  VERBS,
} from './grammar.ts';

const HEX = '0123456789abcdef';

// One scratch line for all calls: encoding is synchronous and never re-entered.
const line = new Uint8Array(MAX_LINE);
const digits = new Uint8Array(10);
let at = 0;

function put(byte: number): void {
  line[at++] = byte;
}

function text(s: string): void {
  for (let i = 0; i < s.length; i++) put(s.charCodeAt(i));
  put(COMMA);
}

/** An integer and its comma. */
function int(value: number, range: Range, what: string): void {
  if (!Number.isInteger(value) || value < range.min || value > range.max)
    throw new RangeError(`${what} ${value} is no integer of ${range.min}..${range.max}`);
  let rest = value;
  if (rest < 0) {
    put(MINUS);
    rest = -rest;
  }
  let n = 0;
  do {
    const tenth = Math.floor(rest / 10);
    digits[n++] = 0x30 + rest - tenth * 10;
    rest = tenth;
  } while (rest > 0);
  while (n > 0) put(digits[--n]!);
  put(COMMA);
}

/** An integer or nothing, and its comma. */
function maybe(value: number | null, range: Range, what: string): void {
  if (value === null) put(COMMA);
  else int(value, range, what);
}

function word<T extends string>(value: T, list: readonly T[], what: string): void {
  if (!list.includes(value)) throw new RangeError(`${what} ${value} is not in the protocol`);
  text(value);
}

function id(value: string, what: string): void {
  let good = value.length >= 1 && value.length <= ID_LENGTH;
  for (let i = 0; good && i < value.length; i++) good = isIdByte(value.charCodeAt(i));
  if (!good) throw new RangeError(`${what} is not 1-16 of A-Z a-z 0-9 . _ -`);
  text(value);
}

function command(frame: CommandFrame): void {
  const c = frame.command;
  int(frame.number, UINT16, 'number');
  word(c.verb, VERBS, 'verb');
  if (c.verb === 'start') int(c.rateHz, RATE, 'rateHz');
  if (c.verb === 'limit') {
    int(c.channel, INDEX, 'channel');
    int(c.counts, INT32, 'counts');
    int(c.mbar, POSITIVE16, 'mbar');
  }
}

function fields(frame: Frame): void {
  switch (frame.t) {
    case 'S':
      int(frame.seq, UINT32, 'seq');
      int(frame.tick, UINT32, 'tick');
      if (frame.counts.length < CHANNELS.min || frame.counts.length > CHANNELS.max)
        throw new RangeError(`${frame.counts.length} counts: a device has 1 to 7 channels`);
      for (const c of frame.counts) maybe(c, INT32, 'count');
      int(frame.status, UINT16, 'status');
      return;
    case 'H':
      int(frame.version, POSITIVE16, 'version');
      id(frame.deviceId, 'deviceId');
      id(frame.firmware, 'firmware');
      int(frame.bootId, UINT32, 'bootId');
      int(frame.uptime, UINT32, 'uptime');
      int(frame.channels, CHANNELS, 'channels');
      int(frame.maxRateHz, RATE, 'maxRateHz');
      return;
    case 'C':
      int(frame.index, INDEX, 'index');
      word(frame.quantity, QUANTITIES, 'quantity');
      if (frame.place === null) put(COMMA);
      else word(frame.place, PLACES, 'place');
      word(frame.signal, SIGNALS, 'signal');
      maybe(frame.partner, INDEX, 'partner');
      int(frame.bits, BITS, 'bits');
      int(frame.rawLo, INT32, 'rawLo');
      int(frame.rawHi, INT32, 'rawHi');
      int(frame.elLo, INT32, 'elLo');
      int(frame.elHi, INT32, 'elHi');
      int(frame.rangeLo, INT32, 'rangeLo');
      int(frame.rangeHi, INT32, 'rangeHi');
      int(frame.rateMilliHz, POSITIVE32, 'rateMilliHz');
      return;
    case 'E':
      int(frame.number, UINT16, 'number');
      int(frame.tick, UINT32, 'tick');
      word(frame.code, EVENT_CODES, 'code');
      maybe(frame.channel, INDEX, 'channel');
      maybe(frame.value, INT32, 'value');
      return;
    case 'G':
      int(frame.tick, UINT32, 'tick');
      word(frame.state, GUARD_STATES, 'state');
      maybe(frame.channel, INDEX, 'channel');
      maybe(frame.limitCounts, INT32, 'limitCounts');
      maybe(frame.limitMbar, POSITIVE16, 'limitMbar');
      int(frame.sounder, FLAG01, 'sounder');
      return;
    case 'R':
      int(frame.command, UINT16, 'command');
      word(frame.result, REPLY_RESULTS, 'result');
      maybe(frame.value, INT32, 'value');
      return;
    case 'K':
      command(frame);
  }
}

/**
 * The frame's one line, LF included, in an array of its own, at most MAX_LINE bytes.
 * @throws RangeError where a value is outside the protocol: a fault of the caller, never of a device.
 */
export function encodeFrame(frame: Frame): Uint8Array {
  if (!isConsistent(frame)) throw new RangeError(`${frame.t}: fields contradict each other`);
  at = 0;
  put(frame.t.charCodeAt(0));
  put(COMMA);
  fields(frame);
  const crc = crc32c(line, 0, at);
  for (let shift = 28; shift >= 0; shift -= 4) put(HEX.charCodeAt((crc >>> shift) & 15));
  put(LF);
  return line.slice(0, at);
}
