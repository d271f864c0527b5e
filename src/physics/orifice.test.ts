import { expect, it } from 'vitest';
import { subsonicShare } from './orifice.ts';

it('is the quarter of an ellipse of ISO 6358-1', () => {
  expect(subsonicShare(0.1, 0.3)).toBe(1);
  expect(subsonicShare(0.3, 0.3)).toBe(1);
  expect(subsonicShare(1, 0.3)).toBe(0);
  expect(subsonicShare(1.2, 0.3)).toBe(0);
  // Half of the way from b to 1: √(1 − 1/4).
  expect(subsonicShare(0.65, 0.3)).toBeCloseTo(0.8660254, 7);
  expect(subsonicShare(0.9, 0.5)).toBeCloseTo(0.6, 12);
});
