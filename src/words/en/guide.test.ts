import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ALARMS, STAGES } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { english } from '../testing/english.ts';
import { phrasesOf, spoken } from '../testing/phrases.ts';
import { STAGE } from './terms.ts';

// The crew's guide says in bold what stands on the screen, in the screen's own words: a label that was put otherwise must be
// put otherwise there too.

const guide = readFileSync('docs/guide.md', 'utf8');
const isSaid = spoken(phrasesOf('src/words/en'));

it('what the guide says in bold stands on a screen, word for word', () => {
  const said = [...guide.matchAll(/\*\*([^*]+)\*\*/g)].map((m) => m[1]!.replace(/\s+/g, ' '));
  expect(said.length).toBeGreaterThan(150);
  expect(said.filter((text) => !isSaid(text))).toEqual([]);
});

it('a text that is no phrase is none, however much of it is filled in', () => {
  for (const text of [
    'Zero now',
    'In 8 s: shut the valve.',
    'Agree',
    'Hoses whip: never open a coupling under pressure.',
  ])
    expect(isSaid(text), text).toBe(true);
  for (const text of ['Press zero now', 'In 8 s: open the valve.', 'Agree with me', '8 s', 'the', ''])
    expect(isSaid(text), text).toBe(false);
});

it('its stages stand in the order of the engine, each under its own name', () => {
  const headings = [...guide.matchAll(/^## ([^:\n]+)/gm)].map((m) => m[1]!.trim());
  const names = STAGES.map((stage) => STAGE[stage]);
  expect(headings.filter((heading) => names.includes(heading))).toEqual(names);
});

it('each order that an alarm gives stands in its table', () => {
  const { VERBS } = english.orders;
  const orders = ALARMS.flatMap((alarm) =>
    STAGES.flatMap((stage) =>
      (['let-down-or-loss', null] as const).flatMap((question) =>
        [{}, { cause: 'over' }, { cause: 'cooler-than-sleeve' }].map((values) =>
          VERBS[alarm](
            { state: 'unacknowledged', values: values as AlarmValues },
            { stage, question, limits: null },
          ),
        ),
      ),
    ),
  );
  const lines = [...new Set(orders.map(({ verb }) => verb.map((line) => `**${line}**`).join(' ')))];
  expect(lines.length).toBeGreaterThan(15);
  expect(lines.filter((line) => !guide.includes(line))).toEqual([]);
});

it('its steps are numbered without a gap, and lead to headings and files that are there', () => {
  const steps = [...guide.matchAll(/^### (\d+)\. /gm)].map((m) => Number(m[1]));
  expect(steps).toEqual(steps.map((_, i) => i + 1));
  const anchors = [...guide.matchAll(/^#+ (.+)$/gm)].map((m) =>
    m[1]!
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s-]/gu, '')
      .replaceAll(' ', '-'),
  );
  const wanted = [...guide.matchAll(/\]\(#([^)]+)\)/g)].map((m) => m[1]!);
  expect(wanted.filter((a) => !anchors.includes(a))).toEqual([]);
  for (const [, file] of guide.matchAll(/\]\(([a-z-]+\.md)\)/g))
    expect(readFileSync(`docs/${file}`).length).toBeGreaterThan(0);
});
