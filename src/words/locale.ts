import type { Wording } from '../job/wording.ts';
import { LANGUAGES, type Languages } from './languages.ts';

/**
 * The first of the tags that is a language tag (RFC 5646) and known here; null: none is. Browsers and environments
 * hand out others, 'C' among them, and whoever gives those to Intl has an error where he wanted a number.
 */
export function safeLocale(tags: readonly string[]): string | null {
  for (const tag of tags) {
    try {
      const [found] = Intl.NumberFormat.supportedLocalesOf([tag]);
      if (found !== undefined) return found;
    } catch {
      // No tag at all: the next one.
    }
  }
  return null;
}

/** @param wanted a language or 'auto'; one that is not here any more counts as 'auto' */
function languageOf(wanted: string, tags: readonly string[], languages: Languages): string {
  if (Object.hasOwn(languages, wanted)) return wanted;
  for (const tag of tags) {
    const locale = safeLocale([tag]);
    if (locale === null) continue;
    if (Object.hasOwn(languages, locale)) return locale;
    const { language } = new Intl.Locale(locale);
    if (Object.hasOwn(languages, language)) return language;
  }
  return 'en';
}

function decimalOf(wanted: 'auto' | Wording['decimal'], tags: readonly string[]): Wording['decimal'] {
  if (wanted !== 'auto') return wanted;
  const locale = safeLocale(tags);
  if (locale === null) return 'point';
  const parts = new Intl.NumberFormat(locale).formatToParts(1.5);
  return parts.some((p) => p.type === 'decimal' && p.value === ',') ? 'comma' : 'point';
}

/**
 * What a choice means to a reader whose browser or environment names these languages, the dearest first.
 * @param tags as they come, of whatever form
 */
export function wordingFor(
  choice: { readonly language: string; readonly decimal: 'auto' | Wording['decimal'] },
  tags: readonly string[],
  languages: Languages = LANGUAGES,
): Wording {
  const language = languageOf(choice.language, tags, languages);
  // Whoever chose a language reads numbers as its readers do: as his own country has it where the browser names one of them.
  const its = tags.filter((tag) => tag === language || String(tag).startsWith(`${language}-`));
  return {
    language,
    decimal: decimalOf(choice.decimal, choice.language === language ? [...its, language, ...tags] : tags),
  };
}
