import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bar3, boundedTo, round, s1 } from './round.ts';

describe('rounding', () => {
  it('to the digits stated', () => {
    expect([bar3(1.23449), s1(9.96), round(-0.0004, 3)]).toEqual([1.234, 10, 0]);
    expect(Object.is(round(-0.0004, 3), 0)).toBe(true);
  });

  it('never makes an interval narrower, nor wider by more than a digit on each side', () => {
    const value = fc.double({ min: -1000, max: 1000, noNaN: true });
    fc.assert(
      fc.property(value, value, fc.integer({ min: 0, max: 4 }), (a, b, digits) => {
        const low = Math.min(a, b);
        const high = Math.max(a, b);
        const r = boundedTo({ value: (a + b) / 2, low, high }, digits);
        const digit = 10 ** -digits;
        expect(r.low).toBeLessThanOrEqual(low + 2e-6 * digit);
        expect(r.high).toBeGreaterThanOrEqual(high - 2e-6 * digit);
        expect(low - r.low).toBeLessThan(digit * 1.001);
        expect(r.high - high).toBeLessThan(digit * 1.001);
      }),
      { seed: 3 },
    );
  });
});
