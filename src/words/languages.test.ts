import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ALARMS, STAGES } from '../watch/codes.ts';
import type { AlarmValues, WatchEvent } from '../watch/events.ts';
import { type Catalogue, loadCatalogue } from './catalogue.ts';
import { LANGUAGES } from './languages.ts';
import { FIGURES_OTHERWISE, SAME_IN } from './testing/alike.ts';
import { charactersOf } from './testing/font.ts';

// Languages are held to the English one, text by text. The compiler sees to the keys of whatever has a name; here is what
// it cannot see: texts that nobody translated, figures that went missing in a translation, letters that the font lacks.

const OTHERS = Object.keys(LANGUAGES).filter((tag) => tag !== 'en');
const of = (language: string): Promise<Catalogue> => loadCatalogue({ language, decimal: 'point' });
const english = await of('en');

interface Leaf {
  readonly at: string;
  readonly value: unknown;
}

/** No texts: numbers are the same in all languages, and these are lists of codes. */
const CODES = new Set(['format', 'wording', 'CAUTIONS_AT']);

/** Texts and functions of a catalogue, each with its way. */
function leaves(value: unknown, at = ''): readonly Leaf[] {
  if (typeof value !== 'object' || value === null) return [{ at, value }];
  return Object.entries(value)
    .filter(([key]) => !CODES.has(key))
    .flatMap(([key, v]) => leaves(v, at === '' ? key : `${at}.${key}`));
}

/** Figures of a text, and what was given to it: the same in every language, in whatever order. */
const figures = (text: string): readonly string[] =>
  [...new Set((text.match(/\d+(?:[.,]\d+)*|⟦\d⟧/g) ?? []).map((n) => n.replace(',', '.')))].sort();
const units = (text: string): readonly string[] =>
  [
    ...new Set(
      // A byte is an octet in French: ko, Mo.
      text
        .replace(/(?<=\d\s?[kM])o(?!\p{L})/gu, 'B')
        .match(/(?<=\d\s?)(?:bar|mbar|kPa|psi|°C|K|min|s|h|mm|m|kB|MB|%)(?!\p{L})/gu) ?? [],
    ),
  ].sort();

/** What a function of one, two or three simple things may be given; a text out of it is a fair trial where it shows them. */
const TRIALS: readonly (readonly unknown[])[] = [
  ['⟦1⟧', '⟦2⟧', '⟦3⟧', '⟦4⟧', '⟦5⟧'],
  [1, 1, 1, 1],
  [2, 3, 4, 5],
  [7, 31, 7, 31],
  ['⟦1⟧', 1, '⟦2⟧', 1],
  ['⟦1⟧', 4, '⟦2⟧', 9],
  [4, '⟦1⟧', '⟦2⟧', '⟦3⟧'],
  [1, '⟦1⟧', '⟦2⟧', '⟦3⟧'],
  [4, 9, '⟦1⟧', '⟦2⟧'],
  [4, 9, '⟦1⟧', 31],
  [0, 0, 0],
];

/** What stands where something was not there; 'null' is not asked for: in German it is a number. */
const UNFILLED = /undefined|NaN|\[object/;

/** The text of a function; null: these were not for it. */
function tried(f: unknown, given: readonly unknown[]): string | null {
  try {
    const made = (f as (...g: readonly unknown[]) => unknown)(...given);
    const text = Array.isArray(made) ? made.join(' ') : made;
    return typeof text !== 'string' || UNFILLED.test(text) ? null : text;
  } catch {
    return null;
  }
}

/** Every text that an alarm, an event, an instruction may make: from values that hold all there is, and none. */
const FULL: AlarmValues = {
  bar: 1.76,
  ratedBar: 1.8,
  overBar: 1.2,
  spanBar: 4,
  ceilingBar: 1.74,
  floorBar: 0.9,
  gaugeBar: 1.6,
  settleBar: 1.93,
  settleLowBar: 1.88,
  settleHighBar: 1.99,
  inS: 6.8,
  inLowS: 5,
  inHighS: 9,
  mbarPerMin: 4.2,
  adviceLowBar: 0.9,
  adviceHighBar: 1.35,
  seconds: 26,
  perSecond: 5,
  perSecondBefore: 50,
  c: 4.6,
  place: 'sleeve',
  secondBar: 1.64,
  lockUpBar: 1.65,
  jumpBar: 0.31,
  times: 2.3,
};
const CAUSES = [
  'fast-fall',
  'over',
  'hose',
  'swapped',
  'against-flow',
  'check-pressure',
  'unseen',
  'silence',
];
const VALUES: readonly AlarmValues[] = [
  {},
  FULL,
  ...CAUSES.map((cause) => ({ ...FULL, cause }) as AlarmValues),
  ...(['settle', 'left-band', 'hand-time', 'opened'] as const).map((kind) => ({ ...FULL, kind })),
];
const UNITS = [
  { pressure: 'bar', temperature: 'C', length: 'mm' },
  { pressure: 'psi', temperature: 'F', length: 'in' },
] as const;

/** Events of whole runs, and of runs in which much goes wrong. */
const GOLDEN = readdirSync('fixtures/golden').flatMap(
  (name) =>
    (JSON.parse(readFileSync(`fixtures/golden/${name}`, 'utf8')) as { events: readonly WatchEvent[] }).events,
);

function spoken(words: Catalogue): readonly (readonly [what: string, text: string])[] {
  const said: (readonly [string, string])[] = [];
  for (const units of UNITS)
    for (const code of ALARMS)
      for (const values of VALUES) {
        const what = `${code} ${JSON.stringify(values)} ${units.pressure}`;
        said.push([what, words.alarms.alarmText(code, values, units)]);
        said.push([`was ${what}`, words.alarms.alarmWas(code, values, units)]);
        for (const stage of STAGES) {
          const order = words.orders.VERBS[code]({ state: 'unacknowledged', values }, { stage }, units);
          said.push([
            `order ${stage} ${what}`,
            [...order.verb, order.figures.map((f) => f[1]).join(' '), order.shutsAir].join(' '),
          ]);
        }
      }
  for (const [stage, states] of Object.entries(words.orders.INSTRUCTIONS))
    for (const [state, say] of Object.entries(states))
      for (const told of [undefined, {}, { s: 25, bar: 1.5 }]) {
        const { say: text, besides } = say(told);
        said.push([`instruction ${stage} ${state}`, `${text} ${besides}`]);
      }
  for (const event of GOLDEN) said.push([JSON.stringify(event), words.events.eventText(event)]);
  return said;
}

/** Taken from the stand-in font where B612 has them not: signs, no letters. */
const STAND_IN = new Set([...'π'].map((sign) => sign.codePointAt(0)!));

const inEnglish = spoken(english);
const LETTERS = ['400', '700'].map((weight) =>
  charactersOf(`node_modules/@fontsource/b612/files/b612-latin-${weight}-normal.woff2`),
);
/** Words that stand in no other language than English: a sentence that was left has one. */
const ENGLISH =
  /(?<![\p{L}’'-])(?:the|and|with|which|this|that|shut|valve|sleeve|pressure|hold|your|its)(?![\p{L}_’'=-])/iu;
/** Lines of capitals, one or two of them as the language needs. */
const LINES = /(?<=\.(?:airVerdict\.[a-z-]+|checkSample|everyoneClear|engineSilentVerb))\.\d$/;
/** What openssl prints and other programs are called by. */
const QUOTED = /"?Signature Verified Successfully"?|THEIRS\.pem|npm run \w+|openssl ts -verify/g;

describe.each(OTHERS)('%s', async (language) => {
  const words = await of(language);
  const texts = leaves(words);
  const said = spoken(words);

  it('has the texts that English has, and no others', () => {
    const kinds = (c: Catalogue) => [
      ...new Set(leaves(c).map(({ at, value }) => `${at.replace(LINES, '')}: ${typeof value}`)),
    ];
    expect(kinds(words).sort()).toEqual(kinds(english).sort());
  });

  it('gives the figures, units and names that were given to a text', () => {
    const told = new Map(texts.map(({ at, value }) => [at, value]));
    const faults: string[] = [];
    let trials = 0;
    for (const { at, value } of leaves(english)) {
      if (FIGURES_OTHERWISE[language]?.includes(at)) continue;
      const other = told.get(at);
      if (typeof value === 'string') {
        if (figures(value).join() !== figures(String(other)).join()) faults.push(`${at}: ${String(other)}`);
      } else if (typeof value === 'function')
        for (const given of TRIALS) {
          const text = tried(value, given);
          if (text === null) continue;
          trials++;
          const there = tried(other, given);
          if (there === null || figures(text).join() !== figures(there).join())
            faults.push(`${at}(${given.join()}): ${text} | ${there}`);
        }
    }
    expect(trials).toBeGreaterThan(1500);
    expect(faults).toEqual([]);
  });

  it('says alarms, orders, instructions and events with the same figures and units', () => {
    expect(said.length).toBe(inEnglish.length);
    const faults = said.flatMap(([what, text], i) => {
      const [, first] = inEnglish[i]!;
      return figures(text).join() === figures(first).join() && units(text).join() === units(first).join()
        ? []
        : [`${what}: ${first} | ${text}`];
    });
    expect(faults).toEqual([]);
    for (const [what, text] of said) expect(text, what).not.toMatch(UNFILLED);
  });

  it('leaves nothing in English but what is said so there, too', () => {
    const first = new Map(leaves(english).map(({ at, value }) => [at, value]));
    const alike = new Set(Object.values(SAME_IN[language] ?? {}).flat());
    const left = texts.filter(
      ({ at, value }) =>
        typeof value === 'string' && /\p{L}{2}/u.test(value) && value === first.get(at) && !alike.has(value),
    );
    expect(left.map(({ at, value }) => `${at}: ${String(value)}`)).toEqual([]);
    const whole = [
      ...texts.flatMap(({ at, value }) => (typeof value === 'string' ? [[at, value] as const] : [])),
      ...texts.flatMap(({ at, value }) =>
        typeof value === 'function'
          ? TRIALS.flatMap((given) => {
              const text = tried(value, given);
              return text === null ? [] : [[at, text] as const];
            })
          : [],
      ),
      ...said,
    ];
    const left_ = whole.filter(([, text]) => ENGLISH.test(text.replaceAll(QUOTED, '')));
    expect([...new Set(left_.map(([at, text]) => `${at}: ${text}`))]).toEqual([]);
  });

  it('is made of letters that the font has, and of no markup', () => {
    const whole = [...texts.map(({ value }) => value), ...said.map(([, text]) => text)].filter(
      (text) => typeof text === 'string',
    );
    const seen = new Set([...whole.join('')].map((letter) => letter.codePointAt(0)!));
    seen.delete(0x0a);
    for (const has of LETTERS)
      expect(
        [...seen].filter((c) => !has.has(c) && !STAND_IN.has(c)).map((c) => String.fromCodePoint(c)),
      ).toEqual([]);
    expect(whole.filter((text) => /<\/?[a-z!]|&#?\w+;/i.test(text))).toEqual([]);
  });
});

it('the font has what four languages are written with', () => {
  for (const letter of 'äöüßÄÖÜéèêëçàâîïôûùœŒæñÑáíóúüÁÉÍÓÚ¿¡«»„“”‚‘’–…×±°²³µ\u00a0')
    for (const has of LETTERS) expect(has.has(letter.codePointAt(0)!), letter).toBe(true);
});
