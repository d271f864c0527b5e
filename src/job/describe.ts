import * as z from 'zod/mini';
import { MADE, type Made } from './fields.ts';

/** A member of a document as its schema has it. Codes are the texts or numbers that it may be. */
export type Field = (
  | Made
  | { readonly is: 'code'; readonly codes: readonly (string | number)[] }
  | { readonly is: 'flag' }
) & {
  /** May be null or left out. */
  readonly open: boolean;
};

/** By dotted path from the root, '*' for any row: 'ratings.*.ratedBar'. */
export type Fields = ReadonlyMap<string, Field>;

/** All numbers, texts, codes, flags and lists of a schema; codes of several shapes in the order of the shapes. */
export function describe(schema: z.core.$ZodType): Fields {
  const fields = new Map<string, Field>();
  const found = (path: string, codes: readonly unknown[], open: boolean) => {
    const before = fields.get(path);
    const all = [...(before?.is === 'code' ? before.codes : []), ...codes.map(code)];
    fields.set(path, { is: 'code', codes: all, open });
  };
  const walk = (s: z.core.$ZodType, path: string, open: boolean): void => {
    const made = MADE.get(s as z.ZodMiniType);
    if (made !== undefined) fields.set(path, { ...made, open });
    const inside = (key: string) => (path === '' ? key : `${path}.${key}`);
    if (
      s instanceof z.ZodMiniNullable ||
      s instanceof z.ZodMiniOptional ||
      s instanceof z.ZodMiniExactOptional
    )
      walk(s.def.innerType, path, true);
    else if (s instanceof z.ZodMiniObject)
      for (const [key, member] of Object.entries(s.shape)) walk(member, inside(key), false);
    else if (s instanceof z.ZodMiniArray) walk(s.def.element, inside('*'), false);
    else if (s instanceof z.ZodMiniDiscriminatedUnion)
      for (const shape of s.def.options) walk(shape, path, open);
    else if (s instanceof z.ZodMiniBoolean) fields.set(path, { is: 'flag', open });
    else if (s instanceof z.ZodMiniEnum) found(path, Object.values(s.def.entries), open);
    else if (s instanceof z.ZodMiniLiteral) found(path, s.def.values, open);
  };
  walk(schema, '', false);
  return fields;
}

const code = (v: unknown): string | number => (typeof v === 'number' ? v : String(v));

/** The field at a path as documents and issues name it. */
export const fieldAt = (fields: Fields, path: string): Field | undefined =>
  fields.get(path.replace(/(^|\.)\d+(?=\.|$)/g, '$1*'));
