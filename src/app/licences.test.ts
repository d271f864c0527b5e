import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { licencesOf } from './licences.ts';

it('each library that the program is shipped with is named with its licence and the licence’s own text', () => {
  const found = licencesOf('.');
  const wanted = Object.keys(
    (JSON.parse(readFileSync('package.json', 'utf8')) as { dependencies: Record<string, string> })
      .dependencies,
  );
  expect(wanted.filter((name) => !found.some((l) => l.name === name))).toEqual([]);
  expect(found.filter((l) => l.licence === '' || l.version === '')).toEqual([]);
  expect(found.filter((l) => l.text === '').map((l) => l.name)).toEqual([]);
  // What a library brings with it counts too, and so does the service worker.
  expect(found.map((l) => l.name)).toEqual(expect.arrayContaining(['seroval', 'workbox-precaching']));
});

it('the font comes with its licence, whole: the SIL Open Font License 1.1', () => {
  const font = licencesOf('.').find((l) => l.name === '@fontsource/b612');
  expect(font?.licence).toBe('OFL-1.1');
  // First and last of its clauses (SIL OFL 1.1, 26 February 2007).
  expect(font?.text).toContain('SIL OPEN FONT LICENSE Version 1.1 - 26 February 2007');
  expect(font?.text).toContain('Neither the Font Software nor any of its individual components');
  expect(font?.text).toContain('DISCLAIMER');
});
