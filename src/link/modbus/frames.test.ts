import { describe, expect, it } from 'vitest';
import { withCrc } from './crc16.ts';
import { answerBytes, answerOf, hear, type Read, requestBytes } from './frames.ts';

const bytes = (...list: number[]): Uint8Array => withCrc(list);

/** Registers 108-110 of unit 17: the example of Modbus Application Protocol V1.1b3, 6.3 (PDU from there, from memory). */
const HOLDING: Read = { address: 17, fn: 3, register: 0x6b, count: 3 };
const HOLDING_ANSWER = bytes(17, 3, 6, 0x02, 0x2b, 0x00, 0x00, 0x00, 0x64);
/** Input register 9: the example of 6.4 (from memory). */
const INPUT: Read = { address: 1, fn: 4, register: 8, count: 1 };

describe('requests and answers of the standard', () => {
  it('asks as the examples do', () => {
    // 11 03 00 6B 00 03 closes with 76 87 (common example of the literature).
    expect([...requestBytes(HOLDING)]).toEqual([0x11, 0x03, 0x00, 0x6b, 0x00, 0x03, 0x76, 0x87]);
    expect([...requestBytes(INPUT).subarray(0, 6)]).toEqual([1, 4, 0, 8, 0, 1]);
  });

  it('reads the answers of the examples', () => {
    expect(answerBytes(HOLDING)).toBe(11);
    expect(answerOf(HOLDING_ANSWER, HOLDING)).toEqual({ a: 'registers', words: [0x022b, 0, 0x64] });
    expect(answerOf(bytes(1, 4, 2, 0, 0x0a), INPUT)).toEqual({ a: 'registers', words: [10] });
  });

  it('reads an exception: function + 0x80 and a code', () => {
    expect(answerOf(bytes(17, 0x83, 2), HOLDING)).toEqual({ a: 'exception', code: 2 });
  });
});

describe('what bytes on the bus are', () => {
  const cut = (n: number) => HOLDING_ANSWER.subarray(0, n);

  it('an answer is one when its last byte has come, in whatever pieces', () => {
    for (let n = 0; n < HOLDING_ANSWER.length; n++) expect(hear(cut(n), HOLDING)).toEqual({ h: 'more' });
    expect(hear(HOLDING_ANSWER, HOLDING)).toMatchObject({ h: 'answer', length: 11 });
  });

  it('bytes behind the answer stay', () => {
    const both = Uint8Array.from([...HOLDING_ANSWER, 1, 2, 3]);
    expect(hear(both, HOLDING)).toMatchObject({ h: 'answer', length: 11 });
  });

  it('another unit, an answer to nothing, another master: each by its own name', () => {
    const other = bytes(18, 3, 6, 0, 0, 0, 0, 0, 0);
    expect(hear(other, HOLDING)).toEqual({ h: 'misfit', length: 11, why: 'other-unit' });
    expect(hear(HOLDING_ANSWER, null)).toEqual({ h: 'misfit', length: 11, why: 'not-asked' });
    // Of the right unit, to another function.
    expect(hear(bytes(17, 4, 2, 0, 1), HOLDING)).toEqual({ h: 'misfit', length: 7, why: 'not-asked' });
    expect(hear(requestBytes(INPUT), HOLDING)).toEqual({ h: 'misfit', length: 8, why: 'other-master' });
  });

  it('a collision is garbled, whatever its length', () => {
    const collided = HOLDING_ANSWER.map((b, i) => (i > 3 ? b ^ 0x5a : b));
    expect(hear(collided, HOLDING)).toEqual({ h: 'more' });
    const longer = Uint8Array.from([...collided, ...new Uint8Array(16)]);
    expect(hear(longer, HOLDING)).toEqual({ h: 'misfit', length: 27, why: 'crc' });
  });

  it('bytes before an answer are noise, and the answer is one', () => {
    const noisy = Uint8Array.from([0, 0xff, 17, ...HOLDING_ANSWER]);
    expect(hear(noisy.subarray(0, 13), HOLDING)).toEqual({ h: 'more' });
    expect(hear(noisy, HOLDING)).toEqual({ h: 'misfit', length: 3, why: 'noise' });
    expect(hear(noisy.subarray(3), HOLDING)).toMatchObject({ h: 'answer', length: 11 });
  });
});
