import { expect, it } from 'vitest';
import { pathOf } from './path.ts';

const U = 0.03;
const at = (bar: number, outletBar: number, rate = 0, stoodBar: number | null = 1.5) =>
  pathOf({ bar, outletBar, uBar: U, rate, sd: 0.0005, stoodBar });

it('is told by what drives, what the outlet gives and what the packer does', () => {
  expect(at(0.6, 1.3, 0.05)).toBe('flows');
  expect(at(0.6, 1.49)).toBe('blocked');
  expect(at(0.6, 1.2)).toBe('escapes');
  expect(at(1.49, 1.5)).toBe('level');
});

it('takes a rise of more than 2 mbar/s, three of its standard deviations off, for flow', () => {
  expect(at(0.6, 1.49, 0.0034)).toBe('blocked');
  expect(at(0.6, 1.49, 0.0036)).toBe('flows');
});

it('says nothing where nothing is known of the outlet, and of a supply that was let out', () => {
  expect(at(0.6, 1.49, 0, null)).toBeNull();
  expect(at(1.5, 0.2)).toBeNull();
  // Over their uncertainty and under what drives: neither.
  expect(at(1.46, 1.5)).toBeNull();
});
