import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { LANGUAGES, type Languages } from './languages.ts';

const EN = { language: 'en', decimal: 'point' } as const;

beforeEach(() => vi.resetModules());
afterEach(() => vi.resetModules());

it('a module that is loaded before its words says so', async () => {
  await expect(import('./ui.ts')).rejects.toThrow("words of 'ui' were asked for before they were loaded");
});

it('each part is there once it was awaited, with the sections that it needs', async () => {
  const { chooseWords } = await import('./chosen.ts');
  await chooseWords(EN);
  expect((await import('./ui.ts')).UI.save).toBe('Save');
  await expect(import('./live.ts')).rejects.toThrow(/before they were loaded/);
  vi.resetModules();
  const again = await import('./chosen.ts');
  await again.chooseWords(EN);
  await again.loadWords('further');
  expect((await import('./sheet.ts')).SHEET.title).toBe('Job sheet');
  expect((await import('./live.ts')).LIVE.title).toBe('Live');
});

it('a part that could not be had is asked for again', async () => {
  const { chosen, chooseWords, loadWords } = await import('./chosen.ts');
  let had = 0;
  const languages: Languages = {
    en: {
      ...LANGUAGES.en!,
      watch: () => (++had === 1 ? Promise.reject(new Error('no network')) : LANGUAGES.en!.watch()),
    },
  };
  await chooseWords(EN, languages);
  await expect(loadWords('watch')).rejects.toThrow('no network');
  await loadWords('watch');
  await loadWords('further');
  expect(had).toBe(2);
  expect(chosen('live').LIVE.title).toBe('Live');
});

it('a language that is not here is refused, and nothing is loaded before one is chosen', async () => {
  const { chooseWords, loadWords } = await import('./chosen.ts');
  await expect(chooseWords({ language: 'xx', decimal: 'point' })).rejects.toThrow(RangeError);
  await expect(loadWords('watch')).rejects.toThrow('no language was chosen');
});
