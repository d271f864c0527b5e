/** The fields of one line whose CRC holds, to a frame: by hand, from bytes, canonical form only. */

import type { Frame, HostVerb, SampleFrame } from './frames.ts';
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

/** Reads field after field; the first fault makes `bad` true and stays. */
class Fields {
  bad = false;
  constructor(
    private readonly bytes: Uint8Array,
    private at: number,
    private readonly end: number,
  ) {}

  get done(): boolean {
    return this.at === this.end;
  }

  maybe({ min, max }: Range): number | null {
    const { bytes, end } = this;
    let i = this.at;
    if (bytes[i] === COMMA && i < end) {
      this.at = i + 1;
      return null;
    }
    const negative = bytes[i] === MINUS;
    if (negative) i++;
    const first = i;
    let value = 0;
    while (i < end) {
      const d = bytes[i]! - 0x30;
      if (d < 0 || d > 9) break;
      value = value * 10 + d;
      i++;
    }
    const digits = i - first;
    const zero = bytes[first] === 0x30;
    if (digits < 1 || digits > 10 || i >= end || bytes[i] !== COMMA || (zero && (digits > 1 || negative)))
      this.bad = true;
    if (negative) value = -value;
    if (value < min || value > max) this.bad = true;
    this.at = i + 1;
    return value;
  }

  int(range: Range): number {
    const value = this.maybe(range);
    if (value === null) this.bad = true;
    return value ?? 0;
  }

  private text(): string {
    let s = '';
    while (this.at < this.end && this.bytes[this.at] !== COMMA)
      s += String.fromCharCode(this.bytes[this.at++]!);
    if (this.at >= this.end) this.bad = true;
    this.at++;
    return s;
  }

  maybeWord<T extends string>(list: readonly T[]): T | null {
    const s = this.text();
    if (s === '') return null;
    const found = list.find((w) => w === s);
    if (found === undefined) this.bad = true;
    return found ?? null;
  }

  word<T extends string>(list: readonly T[]): T {
    const found = this.maybeWord(list);
    if (found === null) this.bad = true;
    return found ?? list[0]!;
  }

  id(): string {
    const s = this.text();
    if (s.length < 1 || s.length > ID_LENGTH) this.bad = true;
    for (let i = 0; i < s.length; i++) if (!isIdByte(s.charCodeAt(i))) this.bad = true;
    return s;
  }
}

function verb(f: Fields): HostVerb {
  const v = f.word(VERBS);
  switch (v) {
    case 'start':
      return { verb: v, rateHz: f.int(RATE) };
    case 'limit':
      return { verb: v, channel: f.int(INDEX), counts: f.int(INT32), mbar: f.int(POSITIVE16) };
    default:
      return { verb: v };
  }
}

function build(letter: string, f: Fields): Frame | null {
  switch (letter) {
    case 'H':
      return {
        t: 'H',
        version: f.int(POSITIVE16),
        deviceId: f.id(),
        firmware: f.id(),
        bootId: f.int(UINT32),
        uptime: f.int(UINT32),
        channels: f.int(CHANNELS),
        maxRateHz: f.int(RATE),
      };
    case 'C':
      return {
        t: 'C',
        index: f.int(INDEX),
        quantity: f.word(QUANTITIES),
        place: f.maybeWord(PLACES),
        signal: f.word(SIGNALS),
        partner: f.maybe(INDEX),
        bits: f.int(BITS),
        rawLo: f.int(INT32),
        rawHi: f.int(INT32),
        elLo: f.int(INT32),
        elHi: f.int(INT32),
        rangeLo: f.int(INT32),
        rangeHi: f.int(INT32),
        rateMilliHz: f.int(POSITIVE32),
      };
    case 'E':
      return {
        t: 'E',
        number: f.int(UINT16),
        tick: f.int(UINT32),
        code: f.word(EVENT_CODES),
        channel: f.maybe(INDEX),
        value: f.maybe(INT32),
      };
    case 'G':
      return {
        t: 'G',
        tick: f.int(UINT32),
        state: f.word(GUARD_STATES),
        channel: f.maybe(INDEX),
        limitCounts: f.maybe(INT32),
        limitMbar: f.maybe(POSITIVE16),
        sounder: f.int(FLAG01) === 1 ? 1 : 0,
      };
    case 'R':
      return { t: 'R', command: f.int(UINT16), result: f.word(REPLY_RESULTS), value: f.maybe(INT32) };
    case 'K':
      return { t: 'K', number: f.int(UINT16), command: verb(f) };
    default:
      return null;
  }
}

/**
 * The sample path: a thousand lines a second, so one loop without calls. `from` is after `S,`; `end` is after
 * the comma before the CRC.
 */
function parseSample(bytes: Uint8Array, from: number, end: number): SampleFrame | null {
  let seq = 0;
  let tick = 0;
  const counts: (number | null)[] = [];
  let field = 0;
  let i = from;
  while (i < end) {
    const first = i;
    const negative = bytes[i] === MINUS;
    if (negative) i++;
    let value = 0;
    let d = bytes[i]! - 0x30;
    const leading = d;
    const start = i;
    while (d >= 0 && d <= 9) {
      value = value * 10 + d;
      d = bytes[++i]! - 0x30;
    }
    const digits = i - start;
    if (bytes[i] !== COMMA || i >= end) return null;
    const empty = i === first;
    if (!empty && (digits < 1 || digits > 10 || (leading === 0 && (digits > 1 || negative)))) return null;
    if (negative) value = -value;
    i++;
    if (i === end) {
      if (empty || value < 0 || value > 0xffff || counts.length < 1) return null;
      return { t: 'S', seq, tick, counts, status: value };
    }
    if (field < 2) {
      if (empty || value < 0 || value > 0xffffffff) return null;
      if (field === 0) seq = value;
      else tick = value;
    } else {
      if (value < INT32.min || value > INT32.max || counts.length >= CHANNELS.max) return null;
      counts.push(empty ? null : value);
    }
    field++;
  }
  return null;
}

/**
 * The frame in bytes[from..end), where `end` is after the comma before the CRC; null when the bytes are not the
 * canonical form of a frame of version 1.
 */
export function parseFrame(bytes: Uint8Array, from: number, end: number): Frame | null {
  if (bytes[from + 1] !== COMMA || end - from < 3) return null;
  if (bytes[from] === 0x53) return parseSample(bytes, from + 2, end);
  const fields = new Fields(bytes, from + 2, end);
  const frame = build(String.fromCharCode(bytes[from]!), fields);
  return frame === null || fields.bad || !fields.done || !isConsistent(frame) ? null : frame;
}
