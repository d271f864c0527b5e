import { existsSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const GUIDE = readFileSync('DEVELOPERS.md', 'utf8');

/** Rows of the table under a heading, header and rule left out. */
function rowsUnder(heading: string): string[] {
  const part = GUIDE.split(`## ${heading}\n`)[1]?.split('\n## ')[0] ?? '';
  return part
    .split('\n')
    .filter((line) => line.startsWith('|'))
    .slice(2);
}

const paths = (text: string): string[] => [...text.matchAll(/`([^` ]+\/[^` ]*)`/g)].map((m) => m[1]!);

it('names only files that exist where a change begins', () => {
  const rows = rowsUnder('Where do I change …');
  expect(rows.length).toBeGreaterThanOrEqual(20);
  const named = rows.flatMap(paths);
  expect(named.length).toBeGreaterThanOrEqual(rows.length - 1);
  expect(named.filter((p) => !existsSync(p))).toEqual([]);
});

it('says one thing of one word', () => {
  const rows = rowsUnder('One word, one thing');
  const words = rows.flatMap((row) => row.split('|')[1]!.split(',')).map((w) => w.trim());
  expect(words.length).toBeGreaterThan(15);
  expect(new Set(words).size).toBe(words.length);
  const named = rows.flatMap(paths).filter((p) => /\.tsx?$/.test(p));
  expect(named.filter((p) => !existsSync(`src/${p}`))).toEqual([]);
});
