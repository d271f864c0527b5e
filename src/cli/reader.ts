import process from 'node:process';
import type { Wording } from '../job/wording.ts';
import { type Catalogue, loadCatalogue } from '../words/catalogue.ts';
import { wordingFor } from '../words/locale.ts';

/** What POSIX names for messages, the strongest first. */
const VARIABLES = ['LC_ALL', 'LC_MESSAGES', 'LANG'] as const;

/** 'de_DE.UTF-8@euro' is written 'de-DE' elsewhere. */
const tagOf = (locale: string): string => locale.replace(/[.@].*$/, '').replaceAll('_', '-');

/** A command's output goes to people and programs alike: its numbers have a point, whatever the language. */
export function wordingOf(environment: Readonly<Record<string, string | undefined>>): Wording {
  const tags = VARIABLES.flatMap((name) => {
    const value = environment[name];
    return value === undefined || value === '' ? [] : [tagOf(value)];
  });
  // Only the strongest that is set counts (POSIX 8.2).
  return wordingFor({ language: 'auto', decimal: 'point' }, tags.slice(0, 1));
}

/** The words of whoever sits before the terminal. */
export const readersWords = (): Promise<Catalogue> => loadCatalogue(wordingOf(process.env));
