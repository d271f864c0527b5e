/**
 * Kinds of field that a line of the protocol may hold, as data, and the values that they stand for. The frames are
 * described with them (frames.ts); encoder and parser follow the description.
 */

/** An integer of min..max. */
export interface Int {
  readonly kind: 'int';
  readonly min: number;
  readonly max: number;
}

/** 0 or 1. */
export interface Flag {
  readonly kind: 'flag';
}

/** One word of a list. */
export interface Word<W extends string = string> {
  readonly kind: 'word';
  readonly words: readonly W[];
}

/** 1-16 of A-Z a-z 0-9 . _ - */
export interface Id {
  readonly kind: 'id';
}

/** The field, or nothing between its commas: null. */
export interface Maybe<F extends Int | Word = Int | Word> {
  readonly kind: 'maybe';
  readonly of: F;
}

/** A word that says which fields follow it: the value is `{ verb, …fields }`. */
export interface Verb<V extends Verbs = Verbs> {
  readonly kind: 'verb';
  readonly verbs: V;
}

/** So many of the field, one after another. The parser knows them in the sample line alone. */
export interface Each<F extends Int | Maybe<Int> = Int | Maybe<Int>> {
  readonly kind: 'each';
  readonly of: F;
  readonly least: number;
  readonly most: number;
}

export type Plain = Int | Flag | Word | Id | Maybe | Verb;
export type Field = Plain | Each;
/** Fields by name, in the order of the line. */
export type Fields<F extends Field = Field> = Readonly<Record<string, F>>;
export interface Verbs {
  readonly [verb: string]: Fields<Int>;
}

export type ValueOf<F> =
  F extends Maybe<infer G>
    ? ValueOf<G> | null
    : F extends Each<infer G>
      ? readonly ValueOf<G>[]
      : F extends Word<infer W>
        ? W
        : F extends Verb<infer V>
          ? VerbOf<V>
          : F extends Flag
            ? 0 | 1
            : F extends Int
              ? number
              : F extends Id
                ? string
                : never;

/** The values of a line's fields, by name. */
export type ValuesOf<F> = { readonly [K in keyof F]: ValueOf<F[K]> };

export type VerbOf<V> = { [K in keyof V]: Flat<{ readonly verb: K } & ValuesOf<V[K]>> }[keyof V];

/** One object type instead of an intersection, so that a message of the compiler names its members. */
export type Flat<T> = { readonly [K in keyof T]: T[K] };

export const int = (min: number, max: number): Int => ({ kind: 'int', min, max });
export const word = <const W extends string>(words: readonly W[]): Word<W> => ({ kind: 'word', words });
export const maybe = <const F extends Int | Word>(of: F): Maybe<F> => ({ kind: 'maybe', of });
export const each = <const F extends Int | Maybe<Int>>(of: F, least: number, most: number): Each<F> => ({
  kind: 'each',
  of,
  least,
  most,
});
export const verb = <const V extends Verbs>(verbs: V): Verb<V> => ({ kind: 'verb', verbs });
export const ID: Id = { kind: 'id' };
export const FLAG: Flag = { kind: 'flag' };
