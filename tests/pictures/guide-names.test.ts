import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { GUIDE_FOLDER, GUIDE_PICTURES } from './guide-names.ts';

// The guide and the script that takes its pictures name the same ones, in the same order, and they are there.

const guide = readFileSync('docs/guide.md', 'utf8');
const shown = [...guide.matchAll(/!\[([^\]]*)\]\(pictures\/([^)]+)\.png\)/g)].map(([, what, path]) => ({
  what,
  path,
}));

it('the guide shows every picture that the script takes, in its order, and no other', () => {
  expect(shown.map((s) => s.path)).toEqual(GUIDE_PICTURES.map((name) => `${GUIDE_FOLDER}/${name}`));
});

it('each of them is there and says in words what it shows; none is left over', () => {
  expect(shown.filter((s) => !existsSync(`docs/pictures/${s.path}.png`)).map((s) => s.path)).toEqual([]);
  expect(shown.filter((s) => (s.what ?? '').split(' ').length < 4)).toEqual([]);
  expect(readdirSync(`docs/pictures/${GUIDE_FOLDER}`).sort()).toEqual(
    GUIDE_PICTURES.map((name) => `${name}.png`).sort(),
  );
});
