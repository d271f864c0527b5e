/**
 * Dotted paths into a document, as issues name them: 'pressures.seatBar'; rows are counted from 0:
 * 'ratings.0.ratedBar'.
 */

type Wide = 'number' | 'text' | 'code' | 'flag' | 'rows';
type Is<M, W extends Wide> = W extends 'number'
  ? number extends M
    ? true
    : false
  : W extends 'text'
    ? string extends M
      ? true
      : false
    : W extends 'flag'
      ? boolean extends M
        ? true
        : false
      : W extends 'rows'
        ? M extends readonly (infer R)[]
          ? Omit<R, 'runId'> extends Readonly<Record<string, number>>
            ? true
            : false
          : false
        : [M] extends [string | number]
          ? string extends M
            ? false
            : number extends M
              ? false
              : true
          : false;

/** Paths to numbers, texts, codes (a few texts or numbers), flags and tables of numbers (with the run that a row came of), what may be null or left out among them. */
export type PathTo<T, W extends Wide> = T extends readonly (infer R)[]
  ? `${number}.${PathTo<R, W>}`
  : T extends object
    ? { [K in keyof T & string]: Step<K, NonNullable<T[K]>, W> }[keyof T & string]
    : never;
type Step<K extends string, M, W extends Wide> =
  Is<M, W> extends true ? K : M extends object ? `${K}.${PathTo<M, W>}` : never;

/** What lies at a path; null and undefined left aside. */
export type At<T, P extends string> = T extends unknown
  ? P extends `${infer K}.${infer Rest}`
    ? At<Member<T, K>, Rest>
    : Member<T, P>
  : never;
type Member<T, K extends string> = T extends readonly (infer R)[]
  ? R
  : K extends keyof T
    ? NonNullable<T[K]>
    : never;

/** What lies at a path of the document; undefined where the way there is not. */
export function valueAt(holder: unknown, path: string): unknown {
  let at = holder;
  for (const key of path.split('.')) {
    if (typeof at !== 'object' || at === null) return undefined;
    at = (at as Readonly<Record<string, unknown>>)[key];
  }
  return at;
}

/** The document with another value at a path whose way is there; the document given is left as it is. */
export function withValueAt<T>(holder: T, path: string, value: unknown): T {
  const [key = '', ...rest] = path.split('.');
  const members = holder as Readonly<Record<string, unknown>>;
  const member = rest.length === 0 ? value : withValueAt(members[key], rest.join('.'), value);
  const changed: unknown = Array.isArray(holder)
    ? holder.map((row: unknown, i) => (String(i) === key ? member : row))
    : { ...members, [key]: member };
  return changed as T;
}
