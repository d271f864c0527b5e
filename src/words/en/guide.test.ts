import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

// The guide for a first job names what stands on the screens: a label that was renamed must be renamed there too.
it('every label in the guide stands in the catalogue', () => {
  const guide = readFileSync('docs/first-job.md', 'utf8').replaceAll('**', '');
  const labels = [...guide.matchAll(/\*([^*]+)\*/g)].map((m) => m[1]!.replace(/\s+/g, ' '));
  const words = readdirSync('src/words/en')
    .filter((name) => name.endsWith('.ts') && !name.includes('.test.'))
    .map((name) => readFileSync(`src/words/en/${name}`, 'utf8'))
    .join('\n')
    .toLowerCase();
  expect(labels.length).toBeGreaterThan(40);
  // The countdown is put together from its words and the seconds.
  const unknown = labels.filter((l) => !words.includes(l.replace(/^In \d+ s: /, '').toLowerCase()));
  expect(unknown).toEqual([]);
});
