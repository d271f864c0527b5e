import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { english } from './testing/english.ts';

// A text that nothing shows is a text that somebody translates for nothing. Keys are looked for by name; tables over
// codes are used as a whole where they are looked up by code.

interface Source {
  readonly file: string;
  readonly text: string;
  /** A file of the English words themselves: its own tables may look each other up. */
  readonly own: boolean;
}

/** A file of another language: it has the keys of the English one, and shows nothing by itself. */
const OTHER_LANGUAGE = /^words[/\\](?!en[/\\])[a-z]{2,3}[/\\]/;

/** The code that may show words: no tests, and not the modules that only hand the words on. */
function sources(): readonly Source[] {
  const files = readdirSync('src', { recursive: true, encoding: 'utf8' });
  return files
    .filter((f) => /\.tsx?$/.test(f) && !/\.test\.tsx?$|[/\\]testing[/\\]/.test(f))
    .filter((f) => path.dirname(f) !== 'words' && !OTHER_LANGUAGE.test(f))
    .map((f) => {
      const text = readFileSync(path.join('src', f), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
      return { file: f, text, own: path.dirname(f) === path.join('words', 'en') };
    });
}

/** What an export is called in a file: its own name, or the one given to it where it is taken. */
function namesIn({ file, text }: Source, name: string): readonly string[] {
  const given = [...text.matchAll(new RegExp(`\\b${name}(?: as|:) (\\w+)`, 'g'))].map((m) => m[1]!);
  // Faults of the commands are functions of their words: fault((f) => f.emptyFile).
  return [name, ...given, ...(name === 'FAULT' && file.startsWith('cli') ? ['f'] : [])];
}

const stripped = (text: string): string =>
  text.replace(/^import[^;]*;$/gm, '').replace(/\b(?:const|let) \{[^=;]*?\} =/g, '');

const CODE = sources();
const BARE = CODE.map((s) => ({ ...s, text: stripped(s.text) }));

/** Where a name stands, and under which: each file is gone through once for a name, not once for each of its texts. */
const places = new Map<
  string,
  readonly { readonly alias: string; readonly text: string; readonly own: boolean }[]
>();

function placesOf(name: string) {
  const known = places.get(name);
  if (known !== undefined) return known;
  const found = CODE.flatMap((source, i) => {
    const { text } = BARE[i]!;
    if (!source.text.includes(name) && name !== 'FAULT') return [];
    return namesIn(source, name)
      .filter((alias) => text.includes(alias))
      .map((alias) => ({ alias, text, own: source.own }));
  });
  places.set(name, found);
  return found;
}

const some = (name: string, found: (alias: string, own: boolean) => RegExp): boolean =>
  placesOf(name).some(({ alias, text, own }) => found(alias, own).test(text));

/** Looked up by a code or handed on as a whole; in the words' own files only the first counts. */
const whole = (name: string, rest: string): boolean =>
  some(name, (alias, own) =>
    own
      ? new RegExp(`(?<!\\w)${alias}${rest}\\[|\\(${alias}${rest}, `)
      : new RegExp(`(?<![\\w'-])${alias}${rest}(?![\\w:.'-])`),
  );

/** Paths of texts under an export that no code reaches. */
function unused(name: string, value: unknown, rest = ''): readonly string[] {
  if (typeof value === 'function' && rest === '')
    return some(name, (alias) => new RegExp(`(?<!\\w)${alias}(?!\\w|:|,? \\})`)) ? [] : [name];
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return some(name, (alias) => new RegExp(`(?<!\\w)${alias}${rest}(?!\\w)`)) ? [] : [`${name}${rest}`];
  if (whole(name, rest)) return [];
  return Object.entries(value).flatMap(([key, v]) => unused(name, v, `${rest}\\.${key}`));
}

it('every text of the catalogue is shown somewhere', () => {
  const { wording, format, ...sections } = english;
  const found = Object.values(sections).flatMap((section) =>
    Object.entries(section).flatMap(([name, value]) => unused(name, value)),
  );
  const texts = JSON.stringify(sections, (_, v) => (typeof v === 'function' ? 'text' : v)).length;
  expect(texts).toBeGreaterThan(30_000);
  expect(found.map((f) => f.replaceAll('\\.', '.'))).toEqual([]);
});

it('a key that nothing shows is found, and one within a table that is looked up is not', () => {
  expect(unused('UI', { nobodyShowsThis: 'x', save: 'Save' })).toEqual(['UI\\.nobodyShowsThis']);
  expect(unused('CAUTION', { made: 'x' })).toEqual([]);
  expect(unused('ARCHIVE', { statuses: { made: 'x' } })).toEqual([]);
});

it('no text is made out of another: case and letters of a phrase are its language’s own', () => {
  const cut = /\.(toLowerCase|toUpperCase|toLocale\w+|charAt|replace|replaceAll|slice|substring)\(/;
  for (const { file, text, own } of CODE) if (own) expect(cut.exec(text)?.[0], file).toBeUndefined();
  const others = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter(
    (f) => OTHER_LANGUAGE.test(f) && !/\.test\.ts$/.test(f),
  );
  for (const file of others)
    expect(cut.exec(readFileSync(path.join('src', file), 'utf8'))?.[0], file).toBeUndefined();
});
