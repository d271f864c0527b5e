/**
 * Bytes of a line, and what no single field can say. firmware-protocol/protocol.json says frames and rules for other
 * languages; a test holds the two together.
 */

import { DEVICE_FRAMES, type Frame, HOST_FRAMES } from './frames.ts';

export const LF = 0x0a;
export const COMMA = 0x2c;
export const MINUS = 0x2d;

/** Bytes after the last comma: eight hex digits and LF. */
export const TAIL = 9;

/** Letters of frames a device sends, and of frames a host sends. */
export const DEVICE_LETTERS = Object.keys(DEVICE_FRAMES).join('');
export const HOST_LETTERS = Object.keys(HOST_FRAMES).join('');

/** 1-16 of A-Z a-z 0-9 . _ - */
export const isId = (text: string): boolean => /^[A-Za-z0-9._-]{1,16}$/.test(text);

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
