import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { GUIDE_FOLDER, GUIDE_PICTURES } from './guide-names.ts';
import { PAGES } from './pages.ts';
import { pageLooks, pageName } from './plan.ts';

// The guide and the script that takes its pictures name the same ones, in the same order, and they are there. Pages behind the
// run may be shown by the pictures of pages.

const guide = readFileSync('docs/guide.md', 'utf8');
const shown = [...guide.matchAll(/!\[([^\]]*)\]\(pictures\/([^)]+)\.png\)/g)].map(([, what, path]) => ({
  what,
  path,
}));

it('the guide shows every picture that the script takes, in its order, and of other pictures those of pages alone', () => {
  const own = shown.filter((s) => s.path?.startsWith(`${GUIDE_FOLDER}/`));
  expect(own.map((s) => s.path)).toEqual(GUIDE_PICTURES.map((name) => `${GUIDE_FOLDER}/${name}`));
  const pages = pageLooks(false).flatMap((look) => PAGES.map((page) => pageName(page, look)));
  expect(shown.filter((s) => !own.includes(s) && !pages.includes(s.path ?? ''))).toEqual([]);
});

it('each of them is there and says in words what it shows; none is left over', () => {
  expect(shown.filter((s) => !existsSync(`docs/pictures/${s.path}.png`)).map((s) => s.path)).toEqual([]);
  expect(shown.filter((s) => (s.what ?? '').split(' ').length < 4)).toEqual([]);
  expect(readdirSync(`docs/pictures/${GUIDE_FOLDER}`).sort()).toEqual(
    GUIDE_PICTURES.map((name) => `${name}.png`).sort(),
  );
});
