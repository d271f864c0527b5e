import { readdirSync, readFileSync } from 'node:fs';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { INDEX_WORDS } from '../words/index-page.ts';
import { LANGUAGES } from '../words/languages.ts';
import { BRAND_MARK } from './brand.ts';
import { fillIndex, guardScript, STYLES } from './index-page.ts';

it('the index page is filled: name, mark, guard; what it asks for and is not there stops the build', async () => {
  const html = await fillIndex(readFileSync('src/index.html', 'utf8'));
  expect(html).not.toMatch(/%[A-Z_]+%/);
  expect(html).toContain(`<title>${INDEX_WORDS.en.name}</title>`);
  expect(html).toContain(BRAND_MARK);
  expect(html).toContain(INDEX_WORDS.en.guard.title);
  // A browser looks for the encoding in the first 1024 bytes (HTML standard, determining the character encoding).
  expect(html.indexOf('<meta charset="utf-8"')).toBeLessThan(1024);
  // The guard hears of every other script: it stands before them.
  expect(html.indexOf(INDEX_WORDS.en.guard.title)).toBeLessThan(html.indexOf('type="module"'));
  await expect(fillIndex('<p>%NOT_THERE%</p>')).rejects.toThrow('NOT_THERE');
});

it('every file of styles stands in the page', async () => {
  const files = readdirSync('src/app/styles').filter((f) => f.endsWith('.css'));
  expect([...STYLES].sort()).toEqual(files.map((f) => f.replace(/\.css$/, '')));
  expect(await fillIndex('<!--%STYLES%-->')).toContain(readFileSync('src/app/styles/tokens.css', 'utf8'));
});

it('the page itself speaks every language that there is', () => {
  expect(Object.keys(INDEX_WORDS)).toEqual(Object.keys(LANGUAGES));
});

it('the guard runs as it stands in the page, without a module, and ends no script element early', async () => {
  const script = await guardScript();
  expect(script).not.toMatch(/\bimport\b|\bexport\b|<\//);
  // Written for browsers from before optional chaining and its like (ECMAScript 2015).
  expect(script).not.toMatch(/\?\.|\?\?|catch\s*\{/);
  const listeners: string[] = [];
  runInNewContext(script, {
    addEventListener: (type: string) => listeners.push(type),
    removeEventListener: () => {},
    setTimeout: () => 0,
  });
  expect(listeners).toEqual(['error', 'unhandledrejection', 'steadybar-started']);
});
