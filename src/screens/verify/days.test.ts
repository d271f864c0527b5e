import { expect, it } from 'vitest';
import { dayOf, startOf } from './days.ts';

it('a day and the moment at which it begins are each other, in whatever time zone', () => {
  for (const day of ['2026-01-01', '2026-02-28', '2026-03-29', '2026-10-25', '2028-02-29', '2026-12-31']) {
    expect(dayOf(startOf(day, 0), 0)).toBe(day);
    // The end of a day is the beginning of the next.
    expect(dayOf(startOf(day, 1), -1)).toBe(day);
  }
  expect(startOf('2026-01-02', 0)).toBe(startOf('2026-01-01', 1));
  expect([startOf('', 0), startOf('soon', 0), dayOf(null, 0)]).toEqual([null, null, '']);
});
