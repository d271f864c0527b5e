import type { Wording } from '../job/wording.ts';
import { languageNamed } from './catalogue.ts';
import { createFormat } from './create-format.ts';
import { LANGUAGES, type Languages, type PageWords } from './languages.ts';

/**
 * The page's words: chosen once, before any module that shows them is loaded. Those take their section when they are
 * evaluated, which is why components read as if the words were their own.
 */

let words: Partial<PageWords> = {};
let parts: Readonly<Record<'watch' | 'further', () => Promise<unknown>>> | null = null;

/** Once for all askers; one that failed is tried again by the next asker. */
function once<T>(load: () => Promise<T>): () => Promise<T> {
  let loading: Promise<T> | null = null;
  return () => {
    loading ??= load().catch((cause: unknown) => {
      loading = null;
      throw cause;
    });
    return loading;
  };
}

/**
 * Chooses and loads what the start says. To be awaited before a module with words is imported.
 * @throws RangeError when there is no such language
 */
export async function chooseWords(wording: Wording, languages: Languages = LANGUAGES): Promise<void> {
  const language = languageNamed(wording.language, languages);
  const format = createFormat(wording.decimal, language.byte);
  words = (await language.start()).start(format);
  const watch = once(async () => {
    const made = (await language.watch()).watch(format);
    words = { ...words, ...made };
    return made;
  });
  const further = once(async () => {
    const [part, seen] = await Promise.all([language.further(), watch()]);
    words = { ...words, ...part.further(format, seen) };
  });
  parts = { watch, further };
}

/** Loads what the live page says, or any page. To be awaited before the page's code is imported. */
export async function loadWords(part: 'watch' | 'further'): Promise<void> {
  if (parts === null) throw new Error('no language was chosen');
  await parts[part]();
}

/** A section of the words in force. @throws Error in a module that was loaded before its words */
export function chosen<K extends keyof PageWords>(section: K): PageWords[K] {
  const found = words[section];
  if (found === undefined)
    throw new Error(`the words of '${section}' were asked for before they were loaded`);
  return found;
}
