import { expect, it } from 'vitest';
import { isAtZero, zeroBelow } from './zero.ts';

it('a line is at zero up to 0.02 bar either way, or as far as its reading is unsure', () => {
  expect([0, 0.02, -0.02].every((bar) => isAtZero(bar, 0.01))).toBe(true);
  expect([0.021, -0.021].some((bar) => isAtZero(bar, 0.01))).toBe(false);
  expect(isAtZero(0.04, 0.05)).toBe(true);
  expect([zeroBelow(0.01), zeroBelow(0.05)]).toEqual([0.02, 0.05]);
});
