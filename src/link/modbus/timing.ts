/**
 * Times of the bus. Which of them come from where:
 * - characters inside our own request follow each other as the adapter's UART sends them: one write is one piece;
 * - the silence before a request is kept by the master's timer. A browser's timers and the adapter's own buffering only make
 *   it longer than asked, never shorter;
 * - the end of an answer is known by its length, not by a silence: bytes come to the page in bunches of a millisecond and
 *   more (some adapters hold them for 16 ms), so that a silence of 3.5 characters cannot be seen there.
 */
import type { Parity } from '../../job/codes.ts';

export interface BusSpeed {
  /** Bits a second. */
  readonly baud: number;
  readonly parity: Parity;
}

/** Start bit, eight data bits, parity or a second stop bit, stop bit (Modbus over Serial Line V1.02, 2.5.1). */
const CHARACTER_BITS = 11;

/** Time of so many characters, us. */
export const charactersUs = ({ baud }: Pick<BusSpeed, 'baud'>, characters: number): number =>
  (characters * CHARACTER_BITS * 1e6) / baud;

/** Over this speed the silence is a fixed time (Modbus over Serial Line V1.02, 2.5.1.1). */
const FAST_BAUD = 19_200;
const FAST_SILENCE_US = 1750;

/** The least silence between two frames, us: 3.5 characters, or 1.75 ms over 19 200 baud. */
export const silenceUs = (speed: Pick<BusSpeed, 'baud'>): number =>
  speed.baud > FAST_BAUD ? FAST_SILENCE_US : charactersUs(speed, 3.5);

/** A unit needs a little to answer: what is planned with, us (common practice, no source). */
const UNIT_US = 3000;

/** What one reading of so many registers takes at best, us: request, the unit's time, answer, silence. */
export const turnUs = (speed: BusSpeed, requestBytes: number, answerBytes: number): number =>
  charactersUs(speed, requestBytes + answerBytes) + UNIT_US + silenceUs(speed);
