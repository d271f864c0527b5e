import { describe, expect, it } from 'vitest';
import { ALARMS, STAGES } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { loadCatalogue } from '../catalogue.ts';

// What the French texts hold beyond what the compiler sees: orders that cannot be read as their opposite, one word for one
// thing (docs/glossary.md), and the typography of the language.

const french = await loadCatalogue({ language: 'fr', decimal: 'comma' });
const { CURE } = french.hold;
const { INSTRUCTIONS, STAGE_KEY, VERBS } = french.orders;
const { alarmText, alarmWas } = french.alarms;

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

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
};
const VALUES: readonly AlarmValues[] = [
  {},
  FULL,
  ...['fast-fall', 'reading-jump', 'over', 'hose', 'unannounced', 'full', 'port'].map((cause) => ({
    ...FULL,
    cause,
  })),
  { ...FULL, kind: 'settle', secondBar: 2.6 },
  { ...FULL, kind: 'left-band', cause: 'swapped' },
  { ...FULL, kind: 'hand-time', cause: 'against-flow' },
  { ...FULL, kind: 'opened', cause: 'check-pressure' },
];

/** Where air goes in, stands, and goes out. */
const AT = STAGES.filter((stage) => ['prepare', 'inflate', 'hold', 'let-down'].includes(stage));

const EVERY = ALARMS.flatMap((code) =>
  AT.flatMap((stage) =>
    VALUES.map((values) => ({
      code,
      values,
      order: VERBS[code](
        { state: 'unacknowledged', values },
        { stage, question: code === 'fast-fall' && stage === 'let-down' ? 'let-down-or-loss' : null },
      ),
    })),
  ),
);

describe('orders', () => {
  it('are one or two lines of ten letters at most, and short for an ear', () => {
    for (const { code, order } of EVERY) {
      expect(order.verb.length, code).toBeGreaterThanOrEqual(1);
      for (const line of order.verb) {
        expect(line.length, `${code} ${line}`).toBeLessThanOrEqual(10);
        expect(line).toBe(line.toUpperCase());
      }
      expect(order.spoken.length, order.spoken).toBeLessThanOrEqual(52);
      for (const [label] of order.figures) expect(label.length, label).toBeLessThanOrEqual(20);
      expect(order.sentence.length, order.sentence).toBeLessThanOrEqual(200);
    }
  });

  it('one verb has one tap: COUPER is of the air, PURGER of the vent, and no order opens, shuts or stays', () => {
    for (const { code, order } of EVERY) {
      const across = order.verb.join(' ');
      expect(across, code).not.toMatch(/OUVR|FERM|RESTER|GONFLER(?<!DÉGONFLER)|PAS|NE /);
      expect(order.shutsAir).toBe(/^COUPER (L’)?AIR( |$)/.test(across));
      if (across.includes('COUPER')) expect(order.spoken).toMatch(/^Couper l’air/);
      if (across.includes('PURG')) expect(across).toMatch(/^(COUPER AIR PURGER|PURGER ENCORE)$/);
      if (across === 'COUPER AIR PURGER')
        expect(order.sentence).toMatch(/fermer la vanne d’air,( puis)? ouvrir la purge/);
    }
  });

  it('completing is done at the valve, and never after a fast fall or by a false reading', () => {
    for (const { values, order } of EVERY) {
      const adds = /compléter/i.test(`${order.verb.join(' ')} ${order.sentence}`);
      if (adds) expect(order.sentence).toContain('à la vanne d’air');
      if (values.cause === 'fast-fall' || values.cause === 'reading-jump') expect(adds).toBe(false);
    }
  });

  it('an alarm that is over orders nothing', () => {
    const order =
      /(^|[:.;,] |puis )(fermer|ouvrir|purger|lâcher|baisser|tenir|rester|voir|chercher|compléter|contrôler|attendre|plaquer|tirer|chauffer|noter|corriger|comparer|croire|suivre|ne pas)\b/i;
    for (const code of ALARMS)
      for (const values of VALUES) {
        expect(plain(alarmWas(code, values)), code).not.toMatch(order);
        expect(alarmWas(code, values), code).not.toMatch(/undefined|null|NaN|–| {2}|\( ?\)/);
        expect(alarmText(code, values), code).not.toMatch(/undefined|null|NaN|–| {2}|\( ?\)/);
      }
  });
});

describe('instructions', () => {
  const all = Object.entries(INSTRUCTIONS).flatMap(([stage, states]) =>
    Object.entries(states).flatMap(([state, told]) =>
      [undefined, {}, { s: 25, bar: 1.5 }].map((given) => ({ key: `${stage} ${state}`, ...told(given) })),
    ),
  );

  it('are one short sentence with a second under it', () => {
    for (const { key, say, besides } of all) {
      expect(say, key).toMatch(/^[A-ZÀ-Ý].*\.$/);
      expect(say.length, say).toBeLessThanOrEqual(42);
      expect(besides.length, besides).toBeLessThanOrEqual(145);
    }
    for (const text of Object.values(STAGE_KEY)) expect(text.length, text).toBeLessThanOrEqual(30);
  });

  it('a count stands before its order, and a hand that goes and one that stays are told in unlike words', () => {
    expect(plain(INSTRUCTIONS.inflate['count-down']({ s: 8 }).say)).toBe('Dans 8 s : fermer la vanne.');
    expect(INSTRUCTIONS.inflate.ready().say).toBe('Prêt à la vanne.');
    expect(INSTRUCTIONS.hold.keep().say).toBe('Laisser la vanne fermée.');
  });

  it('pulling is spoken of only after it stayed at zero, and nothing is said to be safe, empty or cured', () => {
    for (const { key, say, besides } of all) {
      if (/\btirer (lentement|par)/i.test(`${say} ${besides}`)) expect(key).toMatch(/ stayed$/);
      expect(`${say} ${besides}`, key).not.toMatch(/sans danger|sécurité|est vide\b|\bdurcie?s?\b/i);
    }
    for (const text of Object.values(CURE).map(String))
      expect(text).not.toMatch(/\best (dure|durcie)\b(?! à)|garanti/i);
  });
});

/** Every text of the catalogue; a function's with a letter for whatever it is given, where that will do. */
function texts(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value];
  if (typeof value === 'function') {
    try {
      return texts((value as (...given: readonly unknown[]) => unknown)('x', 'x', 'x', 'x', 'x'));
    } catch {
      return [];
    }
  }
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(texts) : [];
}

const { wording, format, ...sections } = french;
const TEXTS = [
  ...texts(sections),
  ...EVERY.flatMap(({ order }) => [order.sentence, order.spoken]),
  ...ALARMS.flatMap((code) => VALUES.map((values) => alarmWas(code, values))),
];
/** Of a record's CHECK.txt and a packet only the words: what a shell is given is its own. */
const found = (never: RegExp): readonly string[] => [
  ...new Set(TEXTS.filter((text) => never.test(text)).map((text) => never.exec(text)?.[0] ?? text)),
];

describe('typography', () => {
  it('the texts were gone through', () => {
    expect(new Set(TEXTS).size).toBeGreaterThan(2000);
  });

  it('double marks stand behind a no-break space that the font has; quotes and apostrophes are the language’s own', () => {
    // B612 has no U+202F.
    expect(found(/\u202f/)).toEqual([]);
    expect(found(/.{0,20} [:;!?»%](?=\s|$)/)).toEqual([]);
    expect(found(/.{0,20}[\p{L})»][;!?](?=\s|$)/u)).toEqual([]);
    expect(found(/(?<!Content-)\b\p{L}{3,}:(?=\s|$)/u)).toEqual([]);
    expect(found(/.{0,20}(« |«[^\u00a0]|[^\u00a0]»)/)).toEqual([]);
    expect(found(/\p{L}'\p{L}/u)).toEqual([]);
  });
});

describe('one word, one thing (docs/glossary.md)', () => {
  const INSTEAD: readonly (readonly [never: RegExp, say: string])[] = [
    [/pression nominale|pression de service/i, 'pression admissible, pression de travail'],
    [/polymérisation/i, 'durcissement'],
    [/\bappareils?\b(?! photo)/i, 'boîtier'],
    [/tablette|portable\b/i, 'ordinateur'],
    [/soupape de sécurité/i, 'soupape de sûreté'],
    [/purgeur|évent\b/i, 'purge'],
    [/\btuyaux?\b/i, 'conduite, flexible'],
    [/banc d’entraînement|installation d’exercice/i, 'simulateur'],
    [/mettre à zéro/i, 'faire le zéro'],
  ];
  it.each(INSTEAD)('no text says %s', (never) => {
    expect(found(never)).toEqual([]);
  });
});
