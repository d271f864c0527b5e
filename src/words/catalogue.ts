import type { Wording } from '../job/wording.ts';
import { createFormat } from './create-format.ts';
import { LANGUAGES, type Language, type Languages, type OutsideWords, type PageWords } from './languages.ts';

/** Everything that a user reads, in one language and with one decimal mark. */
export interface Catalogue extends PageWords, OutsideWords {
  readonly wording: Wording;
}

export type CatalogueOf = (wording: Wording) => Promise<Catalogue>;

/** @throws RangeError when there is no such language: a record of a later version may name one */
export function languageNamed(language: string, languages: Languages = LANGUAGES): Language {
  const found = Object.hasOwn(languages, language) ? languages[language] : undefined;
  if (found === undefined) throw new RangeError(`no words in language ${language.slice(0, 40)}`);
  return found;
}

/**
 * A whole catalogue, for what is made away from the page or in another language than the page's.
 * @throws RangeError as above
 */
export async function loadCatalogue(wording: Wording, languages: Languages = LANGUAGES): Promise<Catalogue> {
  const language = languageNamed(wording.language, languages);
  const [{ start }, { watch }, { further }, { outside }] = await Promise.all([
    language.start(),
    language.watch(),
    language.further(),
    language.outside(),
  ]);
  const format = createFormat(wording.decimal, language.byte);
  const seen = watch(format);
  return { ...start(format), ...seen, ...further(format, seen), ...outside(format), wording };
}
