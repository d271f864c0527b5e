import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

// One word, one thing: what a user reads for a thing is said in the guide's table (DEVELOPERS.md); these are the words that
// were read for it before, or could be.

const INSTEAD: readonly (readonly [never: RegExp, say: string])[] = [
  // What shows this page may stand on a bench or lie in a hand; the device is the board with the sensors.
  [/\b(tablet|laptop|notebook|desktop|smartphone)s?\b/i, 'computer'],
  [/\bthis device[’']s (clock|screen|sound|browser)\b/i, 'computer'],
  [/\bclose[sd]? the (supply )?(valve|vent)\b/i, 'shut'],
  [/\b(credible|plausible)\b/i, 'likely'],
  [/\bsimulated (rig|site|line)\b/i, 'practice rig'],
  [/\bjob files?\b/i, 'sheet file, record file'],
  [/\bcheck a file\b/i, 'verify a file'],
  [/\bfill the packer\b/i, 'inflate'],
  [/\blower edge\b/i, 'hold floor'],
];

const TEXTS = ['src/words', 'src/words/en'].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
    .map((name) => ({
      name: `${folder}/${name}`,
      text: readFileSync(`${folder}/${name}`, 'utf8').replace(/\/\*[\s\S]*?\*\/|(?<!:)\/\/.*$/gm, ''),
    })),
);

it.each(INSTEAD)('no text of the catalogue says %s', (never) => {
  const found = TEXTS.flatMap(({ name, text }) =>
    text.split('\n').flatMap((line) => (never.test(line) ? [`${name}: ${line.trim()}`] : [])),
  );
  expect(found).toEqual([]);
});

it('the catalogue was read: the word that is kept stands in it', () => {
  expect(TEXTS.length).toBeGreaterThan(50);
  expect(TEXTS.filter(({ text }) => /\bcomputer\b/.test(text)).length).toBeGreaterThan(10);
});
