/**
 * A second opinion on a line, written another way on purpose: split at LF, regular expressions, CRC bit by bit.
 * Slow and plain; for tests only.
 */

import type { StrayReason } from '../frames.ts';

export function slowCrc(bytes: Uint8Array): number {
  let c = 0xffffffff;
  for (const byte of bytes) {
    c ^= byte;
    for (let bit = 0; bit < 8; bit++) c = c & 1 ? (c >>> 1) ^ 0x82f63b78 : c >>> 1;
  }
  return (c ^ 0xffffffff) >>> 0;
}

const U = '(0|[1-9]\\d{0,9})';
const I = '(0|-?[1-9]\\d{0,9})';
const N = '(0|-?[1-9]\\d{0,9})?';
const ID = '[A-Za-z0-9._-]{1,16}';
const FORMS = {
  device: [
    `S,${U},${U}(,${N}){1,7},${U},`,
    `H,${U},${ID},${ID},${U},${U},[1-7],${U},`,
    `C,[0-6],(press|temp|supply|junct),(packer|hose|supply|sleeve|air|pipe|ground)?,(current|ratio|voltage|digital|tc-[kjtne]),[0-6]?,${U}(,${I}){6},${U},`,
    `E,${U},${U},(boot|button|trip|return|fault|hostlost|hostback),[0-6]?,${N},`,
    `G,${U},(unarmed,,,,0|(armed|tripped|silenced),[0-6],${I},${U},[01]),`,
    `R,${U},(ok|clamped|refused|range|unknown|busy),${N},`,
  ],
  host: [`K,${U},(hello|stop|beat|read|disarm|silence|start,${U}|limit,[0-6],${I},${U}),`],
};

/** 'frame', or why not, of a line of at most 128 bytes that is not the first; ranges of single values are not looked at. */
export function slowVerdict(line: Uint8Array, direction: 'device' | 'host'): 'frame' | StrayReason {
  const text = String.fromCharCode(...line).slice(0, -1);
  const printable = /^[ -~]*$/.test(text);
  const m = /^(.*,)([0-9a-f]{8})$/s.exec(text);
  const right = m !== null && slowCrc(line.subarray(0, m[1]!.length)) === Number.parseInt(m[2]!, 16);
  const mine = direction === 'device' ? /^[HCSEGR],/ : /^K,/;
  if (!right) return printable && mine.test(text) ? 'crc' : 'garbage';
  if (!printable || !/^[A-Z],/.test(text)) return 'garbage';
  if (!mine.test(text)) return 'unknown';
  return FORMS[direction].some((f) => new RegExp(`^${f}$`).test(m[1]!)) ? 'frame' : 'form';
}
