/** Frames to bytes, by hand: one canonical line a frame. */

import { crc32c } from './crc32c.ts';
import type { Field, Fields, Int, Verbs } from './fields.ts';
import { FRAMES, type Frame, MAX_LINE } from './frames.ts';
import { COMMA, isConsistent, isId, LF, MINUS } from './grammar.ts';

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

const no = (what: string, value: unknown, why: string) => new RangeError(`${what} ${String(value)} ${why}`);

function int(value: unknown, { min, max }: Pick<Int, 'min' | 'max'>, what: string): void {
  if (typeof value !== 'number' || !Number.isInteger(value) || value < min || value > max)
    throw no(what, value, `is no integer of ${min}..${max}`);
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

const FLAG_RANGE = { min: 0, max: 1 };

function word(value: unknown, words: readonly string[], what: string): string {
  if (typeof value !== 'string' || !words.includes(value)) throw no(what, value, 'is not in the protocol');
  text(value);
  return value;
}

function id(value: unknown, what: string): void {
  if (typeof value !== 'string' || !isId(value)) throw no(what, value, 'is not 1-16 of A-Z a-z 0-9 . _ -');
  text(value);
}

/** A field with its comma, or several. */
function field(of: Field, value: unknown, what: string): void {
  switch (of.kind) {
    case 'int':
      int(value, of, what);
      return;
    case 'flag':
      int(value, FLAG_RANGE, what);
      return;
    case 'word':
      word(value, of.words, what);
      return;
    case 'id':
      id(value, what);
      return;
    case 'maybe':
      if (value === null) put(COMMA);
      else field(of.of, value, what);
      return;
    case 'each':
      if (!Array.isArray(value) || value.length < of.least || value.length > of.most)
        throw no(what, value, `are not ${of.least} to ${of.most}`);
      for (const one of value) field(of.of, one, what);
      return;
    case 'verb':
      command(of.verbs, value);
      return;
    default:
      of satisfies never;
  }
}

/** Values by name: a frame, or a command with its arguments. */
type Values = Readonly<Record<string, unknown>>;

function fields(of: Fields, values: Values): void {
  for (const name in of) field(of[name]!, values[name], name);
}

function command(verbs: Verbs, value: unknown): void {
  const values: Values = typeof value === 'object' && value !== null ? { ...value } : {};
  fields(verbs[word(values.verb, Object.keys(verbs), 'verb')]!, values);
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
  fields(FRAMES[frame.t], frame);
  const crc = crc32c(line, 0, at);
  for (let shift = 28; shift >= 0; shift -= 4) put(HEX.charCodeAt((crc >>> shift) & 15));
  put(LF);
  return line.slice(0, at);
}
