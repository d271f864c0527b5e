import { expect, it } from 'vitest';
import { isFirstOfDay } from './first-of-day.ts';

const at = (day: number, hour: number) => ({ openedUtcMs: new Date(2026, 3, day, hour).getTime() });

it('is the day’s first while no run was opened since midnight, and never without any run before', () => {
  const morning = new Date(2026, 3, 15, 7);
  expect(isFirstOfDay([at(14, 9), at(14, 23)], morning)).toBe(true);
  expect(isFirstOfDay([at(14, 9), at(15, 0)], morning)).toBe(false);
  expect(isFirstOfDay([], morning)).toBe(false);
});
