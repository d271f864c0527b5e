/**
 * Frames of Modbus RTU as far as a master that reads registers needs them: Modbus Application Protocol V1.1b3, 6.3 (03
 * Read Holding Registers), 6.4 (04 Read Input Registers), 7 (exception responses); Modbus over Serial Line V1.02, 2.5.1.
 */
import type { ReadFunction } from '../../job/codes.ts';
import { holds, withCrc } from './crc16.ts';

/** One request: so many registers in a row of one unit. */
export interface Read {
  /** Address of the unit, 1-247. */
  readonly address: number;
  readonly fn: ReadFunction;
  readonly register: number;
  /** 1-125. */
  readonly count: number;
}

/** Longest frame, bytes (Modbus over Serial Line V1.02, 2.5.1). */
export const MOST_BYTES = 256;
/** Most registers of one request (Modbus Application Protocol V1.1b3, 6.3). */
export const MOST_REGISTERS = 125;
/** Set in the function of an exception response. */
const EXCEPTION = 0x80;
const EXCEPTION_BYTES = 5;
export const REQUEST_BYTES = 8;

export const requestBytes = ({ address, fn, register, count }: Read): Uint8Array =>
  withCrc([address, fn, register >>> 8, register & 0xff, count >>> 8, count & 0xff]);

/** Bytes of the answer to it. */
export const answerBytes = ({ count }: Read): number => EXCEPTION_BYTES + 2 * count;

export type Answer =
  | { readonly a: 'registers'; readonly words: readonly number[] }
  /** The unit refuses; codes: Modbus Application Protocol V1.1b3, 7. */
  | { readonly a: 'exception'; readonly code: number };

/** The answer that these bytes are to that request; null: none. They are a whole frame, check and all. */
export function answerOf(bytes: Uint8Array, { address, fn, count }: Read): Answer | null {
  if (bytes[0] !== address || !holds(bytes)) return null;
  if (bytes[1] === (fn | EXCEPTION) && bytes.length === EXCEPTION_BYTES)
    return { a: 'exception', code: bytes[2]! };
  if (bytes[1] !== fn || bytes[2] !== 2 * count || bytes.length !== EXCEPTION_BYTES + 2 * count) return null;
  return {
    a: 'registers',
    words: Array.from({ length: count }, (_, i) => (bytes[3 + 2 * i]! << 8) | bytes[4 + 2 * i]!),
  };
}

/** Why bytes are not the answer that was waited for. */
export type Misfit =
  | 'crc' // the check differs: disturbed, or two sent at once
  | 'noise' // bytes before an answer: a line that was let go, or a driver that was switched
  | 'partial' // it broke off
  | 'other-unit' // a sound answer of another unit
  | 'not-asked' // a sound answer of this unit to something else, or a late one
  | 'other-master'; // a sound request that is not ours

export type Heard =
  /** Nothing can be said yet. */
  | { readonly h: 'more' }
  /** The first `length` bytes are the answer. */
  | { readonly h: 'answer'; readonly length: number; readonly answer: Answer }
  | { readonly h: 'misfit'; readonly length: number; readonly why: Exclude<Misfit, 'partial'> };

const MORE: Heard = { h: 'more' };

/** More bytes than this before an answer are no noise of the line (common practice, no source). */
const MOST_NOISE = 16;

/** Bytes before a whole answer to the request; null: there is none in them. */
function noiseBefore(bytes: Uint8Array, read: Read): number | null {
  for (let at = 1; at <= Math.min(MOST_NOISE, bytes.length - EXCEPTION_BYTES); at++)
    for (const length of [answerBytes(read), EXCEPTION_BYTES])
      if (at + length <= bytes.length && answerOf(bytes.subarray(at, at + length), read) !== null) return at;
  return null;
}

/** A whole frame at the start of the bytes that is not the one asked for; null: none is. */
function soundFrame(
  bytes: Uint8Array,
): { readonly length: number; readonly kind: 'request' | 'answer' } | null {
  const fn = bytes[1]!;
  const lengths: readonly (readonly [number, 'request' | 'answer'])[] = [
    [(fn & EXCEPTION) !== 0 ? EXCEPTION_BYTES : EXCEPTION_BYTES + (bytes[2] ?? 0), 'answer'],
    [REQUEST_BYTES, 'request'],
  ];
  for (const [length, kind] of lengths)
    if (length <= bytes.length && holds(bytes, 0, length)) return { length, kind };
  return null;
}

/**
 * What the bytes that came since the last frame are. An answer's length follows from what was asked, so that no silence is
 * needed to see its end: the browser does not tell when a byte came, and a silence of 3.5 characters is not to be seen in it.
 * @param read what was asked and is not answered; null: nothing
 */
export function hear(bytes: Uint8Array, read: Read | null): Heard {
  if (bytes.length < EXCEPTION_BYTES) return MORE;
  if (read !== null) {
    const exception = bytes[0] === read.address && bytes[1] === (read.fn | EXCEPTION);
    const length = exception ? EXCEPTION_BYTES : answerBytes(read);
    if (bytes.length >= length) {
      const answer = answerOf(bytes.subarray(0, length), read);
      if (answer !== null) return { h: 'answer', length, answer };
    }
    const noise = noiseBefore(bytes, read);
    if (noise !== null) return { h: 'misfit', length: noise, why: 'noise' };
  }
  const sound = soundFrame(bytes);
  if (sound !== null) {
    const { length, kind } = sound;
    const same = read === null || bytes[0] === read.address;
    const why = kind === 'request' ? 'other-master' : same ? 'not-asked' : 'other-unit';
    return { h: 'misfit', length, why };
  }
  const expected = read === null ? MOST_BYTES : answerBytes(read);
  // So much longer than what was asked for and still no frame: it never becomes one.
  return bytes.length >= Math.max(expected, REQUEST_BYTES) + MOST_NOISE || bytes.length >= MOST_BYTES
    ? { h: 'misfit', length: bytes.length, why: 'crc' }
    : MORE;
}
