import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Decimals, MOST_DIGITS, putDecimal, putWhole } from './decimal-text.ts';

const out = new Uint8Array(MOST_DIGITS + 2);
const text = (end: number): string => new TextDecoder().decode(out.subarray(1, end));
const whole = (n: number): string => text(putWhole(out, 1, n));
const decimal = (n: number, digits: Decimals): string => text(putDecimal(out, 1, n, digits));

const numbers = fc.oneof(
  fc.maxSafeInteger(),
  fc.integer({ min: -100_000, max: 100_000 }),
  fc.integer({ min: -12, max: 12 }).chain((e) => fc.constant(Math.sign(e) * 10 ** Math.abs(e))),
  fc.double({ noNaN: true, noDefaultInfinity: true }).map(Math.round),
);

it('a whole number as JavaScript writes it (property)', () => {
  fc.assert(
    fc.property(numbers, (n) => {
      expect(whole(n)).toBe(String(n));
    }),
    { seed: 11, numRuns: 3000 },
  );
  for (const n of [0, 9, 10, 999_999_999, 1e9, 1_000_000_001, 1e15, 2 ** 53, 1e21, -1e22])
    expect(whole(n)).toBe(String(n));
});

it('a rounded number as JavaScript writes it (property)', () => {
  fc.assert(
    fc.property(numbers, fc.constantFrom<Decimals>(1, 2, 3, 4, 5, 6), (n, digits) => {
      const value = n / 10 ** digits;
      expect(decimal(n, digits)).toBe(String(value === 0 ? 0 : value));
    }),
    { seed: 12, numRuns: 5000 },
  );
  for (const n of [1, -1, 10, 1_000_000, 999_999, -1_000_001, 1e15 - 1, 1e15, 1e15 + 1])
    expect(decimal(n, 6)).toBe(String(n / 1e6));
});
