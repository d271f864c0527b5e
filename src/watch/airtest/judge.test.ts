import { expect, it } from 'vitest';
import { GUARD, isFineEnough, judgeDrop } from './judge.ts';

const drop = (mbar: number, u = 1) => ({ dropBar: mbar / 1000, uBar: u / 1000, warmedK: null });

it('says passed and failed only off the allowed drop by more than the guard band', () => {
  expect(judgeDrop(drop(15 - GUARD - 0.01), 0.015)).toEqual({ verdict: 'passed', reason: null });
  expect(judgeDrop(drop(15 - GUARD + 0.01), 0.015)).toEqual({ verdict: 'cannot-say', reason: 'near' });
  expect(judgeDrop(drop(15 + GUARD - 0.01), 0.015)).toEqual({ verdict: 'cannot-say', reason: 'near' });
  expect(judgeDrop(drop(15 + GUARD + 0.01), 0.015)).toEqual({ verdict: 'failed', reason: null });
});

it('a rise says nothing', () => {
  expect(judgeDrop(drop(-2.9), 0.015).verdict).toBe('passed');
  expect(judgeDrop(drop(-3.1), 0.015)).toEqual({ verdict: 'cannot-say', reason: 'rose' });
  // One that its own uncertainty makes is none.
  expect(judgeDrop(drop(-3.1, 4), 0.015).verdict).toBe('passed');
});

it('a one-sided error of the guard band is one in 200', () => {
  // JCGM 106, example of a guard band: 2.58 standard uncertainties leave 0.5 % (tables of the normal distribution).
  expect(2 * GUARD).toBeGreaterThan(2.57);
});

it('a sensor is fine enough up to a tenth of the drop', () => {
  expect(isFineEnough(0.0015, 0.015)).toBe(true);
  expect(isFineEnough(0.00151, 0.015)).toBe(false);
});
