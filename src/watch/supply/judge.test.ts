import { expect, it } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import type { Standing } from './course.ts';
import { isCreepTold, judgeSupply } from './judge.ts';

// Limits of the tests: working 1.8 bar, ceiling 2.48, U 0.02.
const U = 0.02;
const at = (bar: number, creepBarS = 0, d = 1e-6): Standing => ({
  lockUp: { value: bar, low: bar - 0.002, high: bar + 0.002 },
  creep: { value: creepBarS, low: creepBarS - d, high: creepBarS + d },
});
const verdict = (bar: number, creepBarS = 0) => judgeSupply(at(bar, creepBarS), LIMITS, U).verdict;

it('a level is judged by its interval, at each of its edges', () => {
  expect(verdict(2.4781)).toBe('over-ceiling');
  expect(verdict(2.4779)).toBe('over-working');
  expect(verdict(1.8381)).toBe('over-working');
  expect(verdict(1.8379)).toBe('stands');
  expect(verdict(1.7621)).toBe('stands');
  expect(verdict(1.7619)).toBe('under-working');
});

it('a working pressure that lies near the ceiling leaves U to it', () => {
  const near = { ...LIMITS, workingBar: 2.46 };
  expect(judgeSupply(at(2.457), near, U).verdict).toBe('stands');
  expect(judgeSupply(at(2.459), near, U).verdict).toBe('over-working');
});

it('a creep is one where it surely passes the ceiling in four hours, and is over a millibar a minute', () => {
  const least = (LIMITS.ceilingBar - 1.8) / (4 * 3600);
  expect(verdict(1.8, least + 1.1e-6)).toBe('creeps');
  expect(verdict(1.8, least + 0.9e-6)).toBe('stands');
  // So near the ceiling that a slower creep would pass it, too.
  expect(judgeSupply(at(2.45, 0.0009 / 60), { ...LIMITS, workingBar: 2.45 }, 0.01).verdict).toBe('stands');
  const { ceilingInS } = judgeSupply(at(1.8, 0.001), LIMITS, U);
  expect(ceilingInS!.value).toBeCloseTo(680, 6);
  expect(ceilingInS!.low).toBeLessThan(680);
  expect(ceilingInS!.high).toBeGreaterThan(680);
});

it('whether it creeps is not told while the interval holds the rate that matters', () => {
  const least = (LIMITS.ceilingBar - 1.8) / (4 * 3600);
  expect(isCreepTold(at(1.8, least, 1e-5), LIMITS)).toBe(false);
  expect(isCreepTold(at(1.8, 0, 1e-5), LIMITS)).toBe(true);
  expect(isCreepTold(at(1.8, 2 * least, 1e-5), LIMITS)).toBe(true);
});
