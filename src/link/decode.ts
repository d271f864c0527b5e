/** Bytes to frames, in whatever chunks they come. Never throws; loses no byte. */

import { crc32c } from './crc32c.ts';
import type { Frame, StrayReason } from './frames.ts';
import { MAX_LINE } from './frames.ts';
import { COMMA, DEVICE_LETTERS, HOST_LETTERS, LF, TAIL } from './grammar.ts';
import { parseFrame } from './parse.ts';

/**
 * Takes what the decoder finds, in the order of the bytes. Frames encoded again and stray bytes, strung together,
 * are the input. Stray bytes come in an array of their own. An over-long line comes in pieces of MAX_LINE.
 */
export interface DecoderSink {
  frame(frame: Frame): void;
  stray(reason: StrayReason, bytes: Uint8Array): void;
}

export interface Decoder {
  /** What comes out does not depend on how the bytes were cut into chunks. */
  push(chunk: Uint8Array, sink: DecoderSink): void;
  /** The port was closed: gives up the unfinished line as 'partial' and starts as after opening. */
  end(sink: DecoderSink): void;
  /** Bytes of the unfinished line. */
  readonly held: number;
}

/** The eight lower-case hex digits at `at` as a number, or -1. */
function hex8(bytes: Uint8Array, at: number): number {
  let value = 0;
  for (let i = at; i < at + 8; i++) {
    const c = bytes[i]!;
    const d = c >= 0x30 && c <= 0x39 ? c - 0x30 : c >= 0x61 && c <= 0x66 ? c - 0x57 : -1;
    if (d < 0) return -1;
    value = (value << 4) | d;
  }
  return value >>> 0;
}

class LineDecoder implements Decoder {
  private readonly buffer = new Uint8Array(MAX_LINE);
  private fill = 0;
  /** Inside a line already known to be too long. */
  private discarding = false;
  /** Before the first LF after opening, where half a line is no fault. */
  private opening = true;

  private readonly known = new Uint8Array(256);

  constructor(letters: string) {
    for (let i = 0; i < letters.length; i++) this.known[letters.charCodeAt(i)] = 1;
  }

  get held(): number {
    return this.fill;
  }

  push(chunk: Uint8Array, sink: DecoderSink): void {
    let at = 0;
    while (at < chunk.length) {
      const stop = Math.min(chunk.length, at + MAX_LINE - this.fill);
      let i = at;
      while (i < stop && chunk[i] !== LF) i++;
      const whole = i < stop;
      if (whole) i++;
      if (whole && this.fill === 0) {
        this.line(chunk, at, i, sink);
      } else {
        this.buffer.set(chunk.subarray(at, i), this.fill);
        const length = this.fill + i - at;
        this.fill = whole || length === MAX_LINE ? 0 : length;
        if (whole) this.line(this.buffer, 0, length, sink);
        else if (length === MAX_LINE) this.tooLong(sink);
      }
      at = i;
    }
  }

  end(sink: DecoderSink): void {
    const rest = this.buffer.slice(0, this.fill);
    const reason = this.discarding ? 'long' : 'partial';
    this.fill = 0;
    this.discarding = false;
    this.opening = true;
    if (rest.length > 0) sink.stray(reason, rest);
  }

  private tooLong(sink: DecoderSink): void {
    this.discarding = true;
    this.opening = false;
    sink.stray('long', this.buffer.slice());
  }

  /** One line with its LF, bytes[from..to). */
  private line(bytes: Uint8Array, from: number, to: number, sink: DecoderSink): void {
    const opening = this.opening;
    this.opening = false;
    if (this.discarding) {
      this.discarding = false;
      sink.stray('long', bytes.slice(from, to));
      return;
    }
    const body = to - TAIL;
    const closed = body > from && bytes[body - 1] === COMMA;
    if (closed && hex8(bytes, body) === crc32c(bytes, from, body)) {
      const known = this.known[bytes[from]!] === 1;
      const frame = known ? parseFrame(bytes, from, body) : null;
      if (frame !== null) sink.frame(frame);
      else sink.stray(this.reasonOfWhole(bytes, from, to, known), bytes.slice(from, to));
      return;
    }
    const reason = opening ? 'partial' : this.reasonOfBroken(bytes, from, to);
    sink.stray(reason, bytes.slice(from, to));
  }

  /** The CRC holds, so a device or a later version meant these bytes. */
  private reasonOfWhole(bytes: Uint8Array, from: number, to: number, known: boolean): StrayReason {
    if (!isPrintable(bytes, from, to)) return 'garbage';
    const c = bytes[from]!;
    if (bytes[from + 1] !== COMMA || c < 0x41 || c > 0x5a) return 'garbage';
    return known ? 'form' : 'unknown';
  }

  private reasonOfBroken(bytes: Uint8Array, from: number, to: number): StrayReason {
    const known = this.known[bytes[from]!] === 1 && bytes[from + 1] === COMMA;
    return known && isPrintable(bytes, from, to) ? 'crc' : 'garbage';
  }
}

function isPrintable(bytes: Uint8Array, from: number, to: number): boolean {
  for (let i = from; i < to - 1; i++) if (bytes[i]! < 0x20 || bytes[i]! > 0x7e) return false;
  return true;
}

/** A decoder of what a device sends ('device') or of what a host sends ('host'). */
export function createDecoder(direction: 'device' | 'host'): Decoder {
  return new LineDecoder(direction === 'device' ? DEVICE_LETTERS : HOST_LETTERS);
}
