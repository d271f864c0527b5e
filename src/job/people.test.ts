import { expect, it } from 'vitest';
import { dayOf, hereOn, hereSchema, peopleSchema, withHere } from './people.ts';

const people = [
  { initials: 'AB', name: 'A. Brandt' },
  { initials: 'CD', name: 'C. Dahl' },
];

it('who was here is kept by day, and a day with nobody is not', () => {
  let here = withHere([], '2026-04-14', ['AB', 'CD']);
  here = withHere(here, '2026-04-13', ['CD']);
  expect(here.map((h) => h.day)).toEqual(['2026-04-13', '2026-04-14']);
  expect(hereOn(people, here, '2026-04-14')).toEqual(people);
  expect(hereOn(people, here, '2026-04-15')).toEqual([]);
  // Somebody who was removed from the list is nobody any more.
  expect(hereOn(people.slice(1), here, '2026-04-14')).toEqual(people.slice(1));
  expect(withHere(here, '2026-04-13', []).map((h) => h.day)).toEqual(['2026-04-14']);
  for (let i = 1; i <= 40; i++)
    here = withHere(here, `2027-01-${String((i % 28) + 1).padStart(2, '0')}`, ['AB']);
  expect(hereSchema.safeParse(here).success).toBe(true);
});

it('initials are one person’s, and a day is a date', () => {
  expect(peopleSchema.safeParse(people).success).toBe(true);
  expect(peopleSchema.safeParse([...people, people[0]]).success).toBe(false);
  expect(peopleSchema.safeParse([{ initials: ' ', name: 'x' }]).success).toBe(false);
  expect(hereSchema.safeParse([{ day: '2026-02-30', initials: [] }]).success).toBe(false);
  expect(dayOf(new Date(2026, 3, 5, 23, 59).getTime())).toBe('2026-04-05');
});
