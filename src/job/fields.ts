import * as z from 'zod/mini';

// Compiled validators need eval, which a strict content security policy forbids.
z.config({ jitless: true });

// C0 and C1 controls, and the marks that turn the direction of what follows: a name must read as it is stored.
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const UNSAFE_LINE = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const UNSAFE_BLOCK = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufeff]/;

/** Marks a failed refinement so that issues.ts can tell which rule it was. */
export const rule = (code: string) => ({ params: { code } });

/** One line of at most `max` UTF-16 units without control characters. */
export const line = (max: number) =>
  z.string().check(
    z.maxLength(max),
    z.refine((s) => !UNSAFE_LINE.test(s), rule('characters')),
  );

/** One line that may not be blank. */
export const name = (max: number) => line(max).check(z.refine((s) => s.trim().length > 0, rule('blank')));

/** Several lines; only the line feed is allowed as control character. */
export const block = (max: number) =>
  z.string().check(
    z.maxLength(max),
    z.refine((s) => !UNSAFE_BLOCK.test(s), rule('characters')),
  );

/** A finite number, both ends included. */
export const num = (lo: number, hi: number) => z.number().check(z.gte(lo), z.lte(hi));

/** A whole number, both ends included. */
export const int = (lo: number, hi: number) => z.int().check(z.gte(lo), z.lte(hi));

/** Identity of a document or a device. */
export const id = () => z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/));

/** Device id as the protocol allows it. */
export const deviceId = () => z.string().check(z.regex(/^[A-Za-z0-9._-]{1,16}$/));

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
export const date = () => z.string().check(z.refine(isDate, rule('date')));

type Row = Record<string, unknown>;

/** Table whose column `key` ascends without repeats: interpolation needs it. */
export const ascending = <T extends z.ZodMiniType>(row: T, key: string, max: number, min = 0) =>
  z.array(row).check(
    z.minLength(min),
    z.maxLength(max),
    z.refine((rows) => {
      for (let i = 1; i < rows.length; i++) {
        const a = (rows[i - 1] as Row)[key];
        const b = (rows[i] as Row)[key];
        if (typeof a === 'number' && typeof b === 'number' && !(b > a)) return false;
      }
      return true;
    }, rule('order')),
  );

/** List whose column `key` holds no value twice. */
export const distinct = <T extends z.ZodMiniType>(row: T, key: string, max: number) =>
  z.array(row).check(
    z.maxLength(max),
    z.refine((rows) => {
      const seen = new Set(rows.map((r) => (r as Row)[key]));
      return seen.size === rows.length;
    }, rule('duplicate')),
  );
