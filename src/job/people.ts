/** The people of a crew by their initials, and who of them was here on which day. */
import * as z from 'zod/mini';
import { date, distinct, name, rows } from './fields.ts';

const initials = () => name(8);
export const personSchema = z.strictObject({ initials: initials(), name: name(60) });
export type Person = z.infer<typeof personSchema>;

export const MOST_PEOPLE = 40;
/** Days that are remembered: a run is mostly sealed within the week. */
const MOST_DAYS = 31;

export const peopleSchema = distinct(personSchema, 'initials', MOST_PEOPLE);
export const hereSchema = distinct(
  z.strictObject({ day: date(), initials: rows(initials(), MOST_PEOPLE) }),
  'day',
  MOST_DAYS,
);
export type Here = z.infer<typeof hereSchema>;

/** The day of a moment by this computer's own clock and place, ISO 8601. */
export function dayOf(utcMs: number): string {
  const d = new Date(utcMs);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${String(d.getFullYear()).padStart(4, '0')}-${two(d.getMonth() + 1)}-${two(d.getDate())}`;
}

/** Who was here on a day; empty where nobody was chosen. */
export function hereOn(people: readonly Person[], here: Here, day: string): readonly Person[] {
  const chosen = here.find((h) => h.day === day)?.initials ?? [];
  return people.filter((p) => chosen.includes(p.initials));
}

/** The days with this one as chosen, the newest kept. */
export function withHere(here: Here, day: string, initials: readonly string[]): Here {
  const others = here.filter((h) => h.day !== day);
  const next = initials.length === 0 ? others : [...others, { day, initials: [...initials] }];
  return next.sort((a, b) => (a.day < b.day ? -1 : 1)).slice(-MOST_DAYS);
}
