import { expect, it } from 'vitest';
import { answerClock, boundUp } from './figures.ts';

it('rounds an upper bound up, and never to nothing', () => {
  expect([0, 0.04, 0.1, 0.11, 1.25, 3].map(boundUp)).toEqual([0.1, 0.1, 0.1, 0.2, 1.3, 3]);
});

it('says run time to a tenth, cut and not rounded, and that there is none', () => {
  expect(answerClock(null)).toBe('?');
  expect(answerClock(0)).toBe('00:00:00.0');
  expect(answerClock((25 * 3600 + 61) * 1e6 + 999_999)).toBe('25:01:01.9');
});
