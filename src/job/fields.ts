import * as z from 'zod/mini';
import type { Kind } from '../units/display.ts';
import { ID } from './id.ts';

// Compiled validators need eval, which a strict content security policy forbids.
z.config({ jitless: true });

// C0 and C1 controls, and the marks that turn the direction of what follows: a name must read as it is stored.
const UNSAFE_LINE = /[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/u;
// A block has line feeds.
const UNSAFE_BLOCK = /(?!\n)[\p{Cc}\u202a-\u202e\u2066-\u2069\ufeff]/u;

/**
 * What a number is and how far it goes. The schema's check, the form's field and what both say of a wrong entry follow
 * this one description.
 */
export interface NumberBounds {
  /** Both ends included, in the unit that the program keeps. */
  readonly lo: number;
  readonly hi: number;
  readonly whole?: true;
  /** A quantity that is shown and read in the user's unit; else a unit that is the same for everybody, or none. */
  readonly kind?: Kind;
  readonly unit?: string;
}

/** What a schema was made of: numbers, texts of at most so many UTF-16 units, lists of at most so many rows. */
export type Made =
  | ({ readonly is: 'number' } & NumberBounds)
  | { readonly is: 'text'; readonly most: number }
  | { readonly is: 'rows'; readonly most: number };
/** A further check of a schema takes over what it was made of. */
export const MADE = z.registry<Made>();

/** Marks a failed refinement so that issues.ts can tell which rule it was. */
export const rule = (code: string) => ({ params: { code } });

/** One line of at most `max` UTF-16 units without control characters. */
export const line = (max: number) =>
  z
    .string()
    .check(
      z.maxLength(max),
      z.refine((s) => !UNSAFE_LINE.test(s), rule('characters')),
    )
    .register(MADE, { is: 'text', most: max });

/** One line that may not be blank. */
export const name = (max: number) => line(max).check(z.refine((s) => s.trim().length > 0, rule('blank')));

/** Several lines; only the line feed is allowed as control character. */
export const block = (max: number) =>
  z
    .string()
    .check(
      z.maxLength(max),
      z.refine((s) => !UNSAFE_BLOCK.test(s), rule('characters')),
    )
    .register(MADE, { is: 'text', most: max });

/** A finite number, both ends included, that is read in no unit or in one that is the same for everybody. */
export const num = (lo: number, hi: number, unit?: string) =>
  z
    .number()
    .check(z.gte(lo), z.lte(hi))
    .register(MADE, { is: 'number', lo, hi, ...(unit === undefined ? {} : { unit }) });

/** A quantity, both ends included, in the unit that the program keeps of its kind. */
export const quantity = (kind: Kind, lo: number, hi: number) =>
  z.number().check(z.gte(lo), z.lte(hi)).register(MADE, { is: 'number', lo, hi, kind });

/** A whole number, both ends included. */
export const int = (lo: number, hi: number) =>
  z.int().check(z.gte(lo), z.lte(hi)).register(MADE, { is: 'number', lo, hi, whole: true });

/** Identity of a document or a device. */
export const id = () => z.string().check(z.regex(ID)).register(MADE, { is: 'text', most: 64 });

/** Device id as the protocol allows it. */
export const deviceId = () =>
  z
    .string()
    .check(z.regex(/^[A-Za-z0-9._-]{1,16}$/))
    .register(MADE, { is: 'text', most: 16 });

const DAYS = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const isDate = (s: string): boolean => {
  const m = /^(\d{4})-(\d{2})-(\d{2})$/.exec(s);
  if (m === null) return false;
  const [year, month, day] = [Number(m[1]), Number(m[2]), Number(m[3])];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const last = month === 2 && !leap ? 28 : (DAYS[month - 1] ?? 0);
  return year >= 1970 && day >= 1 && day <= last;
};

/** Calendar date, ISO 8601 (YYYY-MM-DD), from 1970. */
export const date = () =>
  z
    .string()
    .check(z.refine(isDate, rule('date')))
    .register(MADE, { is: 'text', most: 10 });

type Row = Record<string, unknown>;

/** List of at most so many rows. */
export const rows = <T extends z.ZodMiniType>(row: T, max: number) =>
  z.array(row).check(z.maxLength(max)).register(MADE, { is: 'rows', most: max });

/** Table whose column `key` ascends without repeats: interpolation needs it. */
export const ascending = <T extends z.ZodMiniType>(row: T, key: string, max: number) =>
  rows(row, max).check(
    z.refine((all) => {
      for (let i = 1; i < all.length; i++) {
        const a = (all[i - 1] as Row)[key];
        const b = (all[i] as Row)[key];
        if (typeof a === 'number' && typeof b === 'number' && !(b > a)) return false;
      }
      return true;
    }, rule('order')),
  );

/** List whose column `key` holds no value twice. */
export const distinct = <T extends z.ZodMiniType>(row: T, key: string, max: number) =>
  rows(row, max).check(
    z.refine((all) => new Set(all.map((r) => (r as Row)[key])).size === all.length, rule('duplicate')),
  );
