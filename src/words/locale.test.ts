import { describe, expect, it } from 'vitest';
import { safeLocale, wordingFor } from './locale.ts';
import { WITH_PSEUDO } from './testing/pseudo.ts';

const AUTO = { language: 'auto', decimal: 'auto' } as const;

describe('a language tag from outside', () => {
  it('is believed only where it is one (RFC 5646)', () => {
    expect(() => new Intl.NumberFormat('C')).toThrow(RangeError);
    expect(safeLocale(['C'])).toBeNull();
    expect(safeLocale(['', 'de_DE', 'x', 'en-', '☃'])).toBeNull();
    expect(safeLocale([])).toBeNull();
    expect(safeLocale(['C', 'de-de'])).toBe('de-DE');
  });

  it('of no sound form makes English with a point', () => {
    for (const tags of [[], ['C'], ['POSIX'], ['de_DE.UTF-8'], [null as unknown as string]])
      expect(wordingFor(AUTO, tags)).toEqual({ language: 'en', decimal: 'point' });
  });
});

describe('what a choice means', () => {
  // Decimal marks of the Unicode CLDR.
  it.each([
    [['en-US'], 'point'],
    [['de-DE'], 'comma'],
    [['de-CH'], 'point'],
    [['fr'], 'comma'],
    [['nl-BE', 'en'], 'comma'],
    [['ja'], 'point'],
  ] as const)('%j writes a decimal %s', (tags, decimal) => {
    expect(wordingFor(AUTO, [...tags]).decimal).toBe(decimal);
  });

  it('a choice goes before the browser', () => {
    expect(wordingFor({ language: 'en', decimal: 'point' }, ['de-DE'])).toEqual({
      language: 'en',
      decimal: 'point',
    });
    expect(wordingFor({ language: 'auto', decimal: 'comma' }, ['en-US']).decimal).toBe('comma');
  });

  it('a language that was chosen brings its own mark, of the reader’s country where the browser names one', () => {
    const mark = (language: string, tags: string[]) =>
      wordingFor({ language, decimal: 'auto' }, tags).decimal;
    expect(mark('de', ['en-US'])).toBe('comma');
    expect(mark('de', ['en-US', 'de-CH'])).toBe('point');
    expect(mark('es', ['es-MX'])).toBe('point');
    expect(mark('es', ['es-ES'])).toBe('comma');
    expect(mark('en', ['fr-FR'])).toBe('point');
    expect(mark('fr', [])).toBe('comma');
  });

  it('the first language that is here is taken, by its whole tag or its first part', () => {
    const language = (tags: string[]) =>
      wordingFor(AUTO, tags, { ...WITH_PSEUDO, 'pt-BR': WITH_PSEUDO.en! }).language;
    expect(language(['ja-JP', 'en-GB'])).toBe('en');
    expect(language(['pt-BR', 'en'])).toBe('pt-BR');
    expect(language(['pt-PT', 'en'])).toBe('en');
    expect(wordingFor({ language: 'gone', decimal: 'auto' }, ['en-US']).language).toBe('en');
  });
});
