/** A small fixed slice of the campaign of air tests; the full one is in docs/validation.md. */
import { expect, it } from 'vitest';
import { workAirTest } from './airtests.ts';
import { scoreDrops } from './airtests-drops.ts';

const at = (share: 0 | 0.5 | 2, probe: boolean, seed: number, method: 'LC' | 'LD' | 'F1417' = 'LC') =>
  workAirTest({ method, share, probe, seed }).verdict;

it('half of the allowed leak has passed, twice of it has failed', () => {
  expect([at(0.5, false, 830_001), at(0.5, true, 830_002), at(0.5, false, 830_003, 'LD')]).toEqual(
    Array(3).fill('passed'),
  );
  expect([at(2, false, 830_004), at(2, true, 830_005), at(2, false, 830_006, 'LD')]).toEqual(
    Array(3).fill('failed'),
  );
});

it('of 600 drops about the allowed one at most one in 200 is called wrong, and the stated uncertainty holds them', () => {
  const s = scoreDrops(860_001, 600);
  expect(s.n).toBe(600);
  expect(s.falsePassed / s.over).toBeLessThanOrEqual(0.005);
  expect(s.falseFailed / s.under).toBeLessThanOrEqual(0.005);
  expect(s.covered / s.n).toBeGreaterThan(0.93);
});
