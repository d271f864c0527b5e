import { describe, expect, it } from 'vitest';
import { WORD_ORDERS } from '../../job/codes.ts';
import { isNoNumber, numberOf } from './values.ts';

describe('numbers in registers', () => {
  it('whole ones, with and without a sign', () => {
    expect(numberOf([0xffff], 'int16', 'abcd')).toBe(-1);
    expect(numberOf([0xffff], 'uint16', 'abcd')).toBe(65_535);
    expect(numberOf([0x3412], 'uint16', 'badc')).toBe(0x1234);
    expect(numberOf([0xffff, 0xfffe], 'int32', 'abcd')).toBe(-2);
    expect(numberOf([0xffff, 0xfffe], 'uint32', 'abcd')).toBe(4_294_967_294);
    expect(numberOf([0x0001, 0x0002], 'uint32', 'cdab')).toBe(0x0002_0001);
  });

  it('a float in all four orders', () => {
    // 1.5 is 0x3FC00000 (IEEE 754 binary32).
    expect(numberOf([0x3fc0, 0x0000], 'float32', 'abcd')).toBe(1.5);
    expect(numberOf([0x0000, 0x3fc0], 'float32', 'cdab')).toBe(1.5);
    expect(numberOf([0xc03f, 0x0000], 'float32', 'badc')).toBe(1.5);
    expect(numberOf([0x0000, 0xc03f], 'float32', 'dcba')).toBe(1.5);
  });

  it('a float in another order than it stands in is mostly no number that an instrument sends', () => {
    // The low word first: 0x00003FC0 is 2.3e-41, which would show as 0.00 bar.
    expect(isNoNumber(numberOf([0x3fc0, 0x0000], 'float32', 'cdab'))).toBe(true);
    const right = [0x3fc0, 0x51ec];
    const others = WORD_ORDERS.filter((o) => o !== 'abcd').map((o) => numberOf(right, 'float32', o));
    // None of them lies in a span of 0 to 4 bar.
    for (const value of others) expect(isNoNumber(value) || value < 0 || value > 4).toBe(true);
    expect(isNoNumber(0)).toBe(false);
    expect(isNoNumber(1.5)).toBe(false);
    expect(isNoNumber(Number.NaN)).toBe(true);
    expect(isNoNumber(Number.POSITIVE_INFINITY)).toBe(true);
  });
});
