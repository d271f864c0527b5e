import { describe, expect, it } from 'vitest';
import { ALARMS, STAGES } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { loadCatalogue } from '../catalogue.ts';

const { alarms, face, orders } = await loadCatalogue({ language: 'es', decimal: 'comma' });
const { INSTRUCTIONS, STAGE_KEY, VERBS } = orders;

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
  { ...FULL, cause: 'fast-fall' },
  { ...FULL, cause: 'over' },
  { ...FULL, cause: 'hose' },
  { ...FULL, kind: 'settle', secondBar: 2.6 },
  { ...FULL, kind: 'left-band', cause: 'swapped' },
  { ...FULL, kind: 'hand-time', cause: 'against-flow' },
  { ...FULL, kind: 'opened', cause: 'check-pressure' },
];

const told = ALARMS.flatMap((code) =>
  STAGES.flatMap((stage) =>
    ([null, 'let-down-or-loss'] as const).flatMap((question) =>
      VALUES.map((values) => ({
        code,
        values,
        order: VERBS[code]({ state: 'unacknowledged', values }, { stage, question }),
      })),
    ),
  ),
);
/** Stages and values mostly lead to the same words: each is looked at once. */
const every = [...new Map(told.map((t) => [JSON.stringify(t), t])).values()];

describe('Spanish orders', () => {
  it('are short, in capitals, and no line of them nor a cross of two reads as its opposite', () => {
    for (const { code, order } of every) {
      const [first = '', second = ''] = order.verb;
      for (const line of order.verb) {
        // 'CORTAR AIRE' is as wide as ten letters of the others: its I and its gap are narrow.
        expect(line.length, `${code} ${line}`).toBeLessThanOrEqual(line === 'CORTAR AIRE' ? 11 : 9);
        expect(line).toBe(line.toUpperCase());
        expect(line).not.toMatch(/^(ABRIR|INFLAR|TIRAR|SEGUIR|CERCA|AIRE|DAR AIRE|CERRAR|CORTAR)$/);
      }
      const crossed = `${first.split(' ')[0]} ${second.split(' ').at(-1)}`;
      for (const read of [order.verb.join(' '), crossed])
        expect(read, code).not.toMatch(/ABRIR|DAR AIRE|CORTAR.*PURGA$|CERRAR|\bNO\b/);
      for (const [label, value] of order.figures) {
        expect(label.length, `${code} ${label}`).toBeLessThanOrEqual(18);
        expect(value, code).not.toMatch(/undefined|null|NaN|–|^$/);
      }
    }
  });

  it('one verb for each tap: air is cut, the purge lets out', () => {
    for (const { code, order } of every) {
      expect(order.shutsAir, code).toBe(/^CORTAR/.test(order.verb[0] ?? ''));
      if (order.verb.join(' ') === 'CORTAR AIRE PURGAR')
        expect(order.sentence, code).toMatch(/cerrar la llave de aire(,| y después) abrir la purga/);
      expect(`${order.verb.join(' ')} ${order.sentence}`).not.toMatch(/válvula de aire|grifo|venteo/i);
    }
  });

  it('are short for an ear', () => {
    for (const { order } of every) {
      expect(order.spoken.length, order.spoken).toBeLessThanOrEqual(48);
      expect(order.spoken.length).toBeGreaterThan(5);
      expect(order.spoken).not.toMatch(/\bno\b(?! está vacío)/i);
    }
  });

  it('over the rated pressure everyone is sent away', () => {
    for (const code of ['over-rated', 'over-range'] as const) {
      const order = VERBS[code]({ state: 'unacknowledged', values: FULL }, { stage: 'hold' });
      expect(order.verb).toEqual(['CORTAR AIRE', 'PURGAR']);
      expect(order.call).toBe('TODOS LEJOS');
      expect(order.sentence).toContain('todos lejos');
    }
    expect(face.FACE.everyoneClear.join(' ')).toBe('TODOS LEJOS');
  });

  it('topping up is done at the tap, and never after a fast fall', () => {
    for (const { values, order } of every) {
      const adds = /reponer/i.test(`${order.verb.join(' ')} ${order.sentence}`);
      if (adds) expect(order.sentence).toContain('en la llave de aire');
      if (values.cause === 'fast-fall') expect(adds).toBe(false);
    }
  });

  it('one that is over says what was, and orders nothing', () => {
    for (const code of ALARMS)
      for (const values of VALUES) {
        const order = VERBS[code]({ state: 'returned', values }, { stage: 'inflate' });
        expect(order.verb).toEqual([]);
        expect(order.sentence).toMatch(/^Antes: [^A-ZÁÉÍÓÚ]/);
        expect(order.sentence).not.toMatch(/: (cerrar|abrir|purgar|reponer|revisar|mirar)\b/);
      }
  });

  it('a sentence names what the hand grasps, and fits its place', () => {
    const thing =
      /llave|regulador|purga|manómetro|cable|corriente|aparato|ordenador|hoja|sonda|tubo|manga|conector|manguera|lejos|más alta|muestra testigo/i;
    for (const { code, order } of every) {
      expect(order.sentence, code).toMatch(thing);
      expect(order.sentence.length, order.sentence).toBeLessThanOrEqual(205);
      expect(order.sentence).not.toMatch(/undefined|null|NaN| {2}|\s,/);
    }
    expect(alarms.alarmText('rising', { ...FULL, kind: 'settle' }).replaceAll('\u00a0', ' ')).toBe(
      'La línea quedará en 1,93 bar (1,88 a 1,99), techo 1,74: cerrar ya la llave de aire, después bajar el regulador',
    );
  });
});

describe('Spanish instructions', () => {
  const all = Object.entries(INSTRUCTIONS).flatMap(([stage, states]) =>
    Object.entries(states).flatMap(([state, told]) =>
      [undefined, {}, { s: 25, bar: 1.5 }].map((given) => ({ key: `${stage} ${state}`, ...told(given) })),
    ),
  );

  it('are one sentence each with a second under it', () => {
    for (const { key, say, besides } of all) {
      expect(say, key).toMatch(/^[¿A-ZÁÉÍÓÚ].*[.?]$/);
      expect(say.length, `${key} ${say}`).toBeLessThanOrEqual(40);
      expect(besides.length, `${key} ${besides}`).toBeLessThanOrEqual(125);
      expect(`${say} ${besides}`, key).not.toMatch(/undefined|null|NaN|–/);
      expect(`${say} ${besides}`, key).not.toMatch(/\bseguro|\bcurad[oa]\b(?<!de curado|del curado)/);
    }
  });

  it('pulling is spoken of only after it stayed at zero', () => {
    for (const { key, say, besides } of all)
      if (/\btirar despacio/.test(`${say} ${besides}`)) expect(key).toMatch(/ stayed$/);
  });

  it('done says that it may hold air, never that it is empty', () => {
    for (const [state, told] of Object.entries(INSTRUCTIONS.done)) {
      if (state === 'pressure') continue;
      const { say, besides } = told({ s: 25 });
      expect(`${say} ${besides}`, state).toMatch(/puede (tener|esconder) aire|como lleno/i);
    }
  });

  it('keys are short', () => {
    for (const text of Object.values(STAGE_KEY)) expect(text.length, text).toBeLessThanOrEqual(32);
  });
});
