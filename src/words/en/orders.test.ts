import { describe, expect, it } from 'vitest';
import { ALARMS, STAGES } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { english } from '../testing/english.ts';

const { INSTRUCTIONS, STAGE_KEY, VERBS } = english.orders;
const { alarmSentence, alarmText } = english.alarms;

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

const LIMITS = {
  ratedBar: 1.8,
  uBar: 0.06,
  ceilingBar: 1.74,
  workingBar: 1.5,
  seatBar: 0.4,
  floorBar: 0.9,
  headBar: 0.4,
  freeInflationBar: 0.3,
  seatingMarginBar: 0.2,
  noMargin: null,
  cue: true,
};

/** Everything that a watch may say at once, and the same after a fast fall. */
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
const UNITS = [
  { pressure: 'bar', temperature: 'C', length: 'mm' },
  { pressure: 'psi', temperature: 'F', length: 'in' },
  { pressure: 'kPa', temperature: 'C', length: 'mm' },
] as const;

const every = () =>
  ALARMS.flatMap((code) =>
    STAGES.flatMap((stage) =>
      ([null, 'let-down-or-loss'] as const).flatMap((question) =>
        VALUES.flatMap((values) =>
          UNITS.map((units) => ({
            code,
            stage,
            values,
            order: VERBS[code](
              { state: 'unacknowledged', values },
              { stage, question, limits: LIMITS },
              units,
            ),
          })),
        ),
      ),
    ),
  );

describe('orders', () => {
  it('every alarm has one, short enough to be read from three metres', () => {
    for (const { code, order } of every()) {
      expect(order.verb.length, code).toBeGreaterThanOrEqual(1);
      expect(order.verb.length, code).toBeLessThanOrEqual(2);
      for (const line of order.verb) {
        expect(line.length, `${code} ${line}`).toBeLessThanOrEqual(9);
        expect(line, code).toBe(line.toUpperCase());
      }
      expect(order.figures.length, code).toBeLessThanOrEqual(2);
      for (const [label, value] of order.figures) {
        expect(label.length, `${code} ${label}`).toBeLessThanOrEqual(18);
        expect(value, code).not.toMatch(/undefined|null|NaN|–|^$/);
      }
    }
  });

  it('is short for an ear too, and says no more than the verb', () => {
    for (const { code, order } of every()) {
      expect(order.spoken.length, code).toBeGreaterThan(5);
      expect(order.spoken.length, order.spoken).toBeLessThanOrEqual(46);
      if (order.verb[0] === 'AIR OFF') expect(order.spoken).toMatch(/^Air off/);
      expect(order.shutsAir).toBe(order.verb[0] === 'AIR OFF');
      expect(order.spoken).not.toMatch(/\b(do not|don.t|no)\b/i);
    }
  });

  it('its sentence is that of the list and of the record', () => {
    for (const { code, values, order } of every().filter((_, i) => i % 3 === 0)) {
      expect(order.sentence).toBe(alarmText(code, values));
      expect(order.sentence).toBe(alarmSentence({ alarm: code, state: 'acknowledged', values }));
    }
  });

  it('no line of it, nor both read across, says the opposite', () => {
    for (const { code, order } of every()) {
      const across = order.verb.join(' ');
      // What is read in part: one line alone, or the first word of one and the second of the other.
      expect(order.verb, code).not.toContain('DO NOT');
      expect(across, code).not.toMatch(/AIR VENT|SHUT|NOT |NO |HAND/);
      for (const line of order.verb) expect(line, code).not.toMatch(/^(OPEN|FILL|PULL|GO|TOUCH|AIR|ON)$/);
    }
  });

  it('one tap has one name: air is off, the vent is open', () => {
    for (const { order } of every()) {
      const across = order.verb.join(' ');
      if (across.includes('AIR')) expect(order.verb[0]).toBe('AIR OFF');
      if (/VENT/.test(across)) expect(across).toMatch(/^(AIR OFF OPEN VENT|VENT AGAIN)$/);
      if (order.verb[0] === 'AIR OFF' && order.verb[1] === 'OPEN VENT')
        expect(order.sentence).toContain('shut the supply valve, then open the vent');
    }
  });

  it('over the rated pressure and over the sensor everyone is sent away, as large as the verb', () => {
    for (const code of ['over-rated', 'over-range'] as const) {
      const order = VERBS[code]({ state: 'unacknowledged', values: FULL }, { stage: 'hold', limits: LIMITS });
      expect(order.verb).toEqual(['AIR OFF', 'OPEN VENT']);
      expect(order.call).toBe('EVERYONE CLEAR');
      expect(order.sentence).toContain('everyone clear');
    }
    expect(VERBS.ceiling({ state: 'acknowledged', values: FULL }, { stage: 'hold' }).call).toBeNull();
  });

  it('a reading that is lost in a fill, or under pressure before the work, is air off first, later it is keep clear', () => {
    const lost = (stage: (typeof STAGES)[number], values = FULL) =>
      VERBS['pressure-lost']({ state: 'unacknowledged', values }, { stage }).verb.join(' / ');
    expect(lost('prepare')).toBe('AIR OFF / GET CLEAR');
    expect(lost('prepare', { ...FULL, bar: 0.01 })).toBe('KEEP / CLEAR');
    expect([lost('seat'), lost('inflate')]).toEqual(['AIR OFF / GET CLEAR', 'AIR OFF / GET CLEAR']);
    for (const stage of ['hold', 'let-down', 'done', 'abandoned'] as const)
      expect(lost(stage)).toBe('KEEP / CLEAR');
  });

  it('air that comes in while hands may be on the packer sends them away', () => {
    for (const stage of ['let-down', 'done', 'abandoned'] as const)
      expect(VERBS.rising({ state: 'unacknowledged', values: FULL }, { stage }).verb).toEqual([
        'AIR OFF',
        'GET CLEAR',
      ]);
  });

  it('a fast fall keeps everybody clear while it asks, and once it is said to be a loss nobody stays', () => {
    const fall = (question: 'let-down-or-loss' | null) =>
      VERBS['fast-fall']({ state: 'unacknowledged', values: FULL }, { stage: 'hold', question }).verb;
    expect(fall('let-down-or-loss')).toEqual(['KEEP', 'CLEAR']);
    expect(fall(null)).toEqual(['AIR OFF', 'GET CLEAR']);
  });

  it("what is called 'now' is the reading of now, as it stands beside the order", () => {
    for (const code of ['below-floor', 'fast-fall'] as const) {
      const { figures } = VERBS[code](
        { state: 'unacknowledged', values: { bar: 0.77, floorBar: 0.77 } },
        { stage: 'hold', bar: 0.76 },
      );
      expect(figures).toEqual([
        ['Now', '0.76'],
        ['Hold floor', '0.77'],
      ]);
    }
  });

  it('topping up is done at the valve, and never after a fast fall', () => {
    for (const { values, order } of every()) {
      const adds = /top up/i.test(`${order.verb.join(' ')} ${order.sentence}`);
      if (adds) expect(order.sentence).toContain('at the supply valve');
      if (values.cause === 'fast-fall') expect(adds).toBe(false);
    }
  });

  it('no order of a fill sends a person towards the packer', () => {
    for (const { code, stage, order } of every()) {
      if (stage !== 'seat' && stage !== 'inflate') continue;
      // A loss and a leak are looked for in a hold alone (docs/alarms.md, the stages of each row).
      if (['below-floor', 'leaking', 'band-exit', 'lift', 'rebound'].includes(code)) continue;
      expect(`${order.verb.join(' ')} ${order.sentence}`, code).not.toMatch(
        /\b(find|look|go) (the|at|to|into) (the )?(packer|leak|loss|pipe|manhole)|TAKE OUT|(?<!let down and )take it out/,
      );
    }
  });

  it('the numbers stand with their names, and a time to danger is rounded down', () => {
    const figures = (code: (typeof ALARMS)[number], values: AlarmValues) =>
      VERBS[code]({ state: 'unacknowledged', values }, { stage: 'inflate', limits: LIMITS }).figures.map(
        (f) => f.map(plain),
      );
    expect(figures('rising', { ...FULL, kind: 'settle' })).toEqual([
      ['If left open', '1.93'],
      ['Ceiling', '1.74'],
    ]);
    // The time to it counts down in the slot beside the pressure.
    expect(figures('rising', { ...FULL, kind: 'hand-time' })).toEqual([
      ['Ceiling', '1.74'],
      ['Rated', '1.80'],
    ]);
    expect(figures('lift', { ...FULL, adviceHighBar: 1.35, adviceLowBar: 0.9 })[0]).toEqual([
      'Leave at least',
      '0.90',
    ]);
    // 'Let out to 0.82' beside 'not under 0.82' was read as its opposite.
    const tight = { ...FULL, adviceHighBar: 0.822, adviceLowBar: 0.82, floorBar: 0.8 };
    expect(figures('lift', tight)).toEqual([
      ['Hold floor', '0.80'],
      ['Ceiling', '1.74'],
    ]);
    const { sentence } = VERBS.lift({ state: 'unacknowledged', values: tight }, { stage: 'hold' });
    expect(plain(sentence)).toContain('let out to 0.82 bar, no further');
    expect(figures('over-rated', FULL)).toEqual([
      ['Over rated by', '1.20'],
      ['Rated', '1.80'],
    ]);
    expect(figures('over-rated', { ...FULL, overBar: 0.001 })).toEqual([['Rated', '1.80']]);
    expect(figures('over-range', FULL)).toEqual([
      ['At least', '4.00'],
      ['Rated', '1.80'],
    ]);
    expect(VERBS.lift({ state: 'unacknowledged', values: FULL }, { stage: 'hold' }).verb).toEqual([
      'LET OUT',
      'TO 1.35',
    ]);
  });

  it('a supply that droops under the ceiling while air flows is not said to be over it', () => {
    const said = (secondBar: number) => {
      const values = { bar: 1.1, secondBar, ceilingBar: 1.78 };
      const { figures, sentence } = VERBS['supply-over'](
        { state: 'unacknowledged', values },
        { stage: 'inflate', limits: LIMITS },
      );
      return [figures.map((f) => f.join(' ')), plain(sentence)] as const;
    };
    expect(said(2.6)[0]).toEqual(['Supply 2.60', 'Ceiling 1.78']);
    expect(said(2.6)[1]).toMatch(
      /^Supply 2\.60 bar at the regulator’s outlet is over the ceiling 1\.78 bar: supply valve shut/,
    );
    expect(said(1.64)[0]).toEqual(['Supply now 1.64', 'May stand over 1.78']);
    expect(said(1.64)[1]).toMatch(/may stand over the ceiling 1\.78 bar: supply valve shut/);
  });

  it('one that is over and not acknowledged says what was, and orders nothing', () => {
    for (const code of ALARMS)
      for (const values of VALUES) {
        const order = VERBS[code]({ state: 'returned', values }, { stage: 'inflate', limits: LIMITS });
        expect(order.verb).toEqual([]);
        expect(order.call).toBeNull();
        expect(order.figures).toEqual([]);
        expect(order.sentence).toMatch(/^Was: [^A-Z]/);
      }
  });

  it('a sentence names what the hand grasps or the eye looks at, and fits its line', () => {
    const thing =
      /supply valve|regulator|vent|dial gauge|cable|power|device|computer|sheet|probe|pipe|sleeve|connector|hose|keep clear|higher one|witness sample/i;
    for (const { code, order } of every()) {
      expect(order.sentence, code).toMatch(thing);
      expect(order.sentence.length, order.sentence).toBeLessThanOrEqual(170);
    }
  });
});

describe('instructions', () => {
  const all = Object.entries(INSTRUCTIONS).flatMap(([stage, states]) =>
    Object.entries(states).flatMap(([state, told]) =>
      [undefined, {}, { s: 25, bar: 1.5 }].map((given) => ({ key: `${stage} ${state}`, ...told(given) })),
    ),
  );

  it('every stage has some, each one sentence with a second under it', () => {
    expect(Object.keys(INSTRUCTIONS).sort()).toEqual([...STAGES].sort());
    for (const { key, say, besides } of all) {
      expect(say, key).toMatch(/^[A-Z][^.]*(\d\.\d[^.]*)?\.$/);
      expect(say.length, key).toBeLessThanOrEqual(36);
      expect(besides.length, key).toBeLessThanOrEqual(110);
      expect(`${say} ${besides}`, key).not.toMatch(/undefined|null|NaN|–/);
    }
  });

  it('a count stands before its order, so that it does not read as now', () => {
    expect(plain(INSTRUCTIONS.inflate['count-down']({ s: 8 }).say)).toBe('In 8 s: shut the valve.');
    expect(plain(INSTRUCTIONS.inflate['count-down']({ s: 2 }).say)).toBe('In 2 s: shut the valve.');
    expect(INSTRUCTIONS.inflate['shut-now']().say).toBe('Shut the valve now.');
  });

  it('a hand at the valve and one that leaves it are told in unlike words', () => {
    expect(INSTRUCTIONS.inflate.ready().say).toBe('Ready at the valve.');
    expect(INSTRUCTIONS.hold.keep().say).toBe('Leave the valve shut.');
    for (const { say, besides } of all) expect(`${say} ${besides}`).not.toMatch(/hands? (on|off)/i);
  });

  it('done says what was seen and that it may hold air, never that it is empty or safe', () => {
    for (const [state, told] of Object.entries(INSTRUCTIONS.done)) {
      if (state === 'pressure') continue;
      const { say, besides } = told({ s: 25 });
      expect(`${say} ${besides}`, state).toMatch(/\b(may hold air|can hide air|as full)\b/i);
    }
    expect(INSTRUCTIONS.done.stayed({ s: 25 }).say).toBe('Nobody in line, pull slowly.');
    expect(plain(INSTRUCTIONS.done.stayed({ s: 25 }).besides)).toBe(
      'Stayed at zero for 25 s. A kink can hide air: pull slowly by the rope, nobody in line with the pipe.',
    );
    for (const { key, say, besides } of all)
      expect(`${say} ${besides}`, key).not.toMatch(/\bsafe\b|\bis empty\b|\bcured\b/i);
  });

  it('pulling is spoken of only after it stayed at zero', () => {
    for (const { key, say, besides } of all)
      if (/\bpull (slowly|by)/i.test(`${say} ${besides}`)) expect(key).toMatch(/ stayed$/);
  });

  it('keys are short, and none says now what the alarm says', () => {
    for (const text of Object.values(STAGE_KEY)) expect(text.length, text).toBeLessThanOrEqual(30);
  });
});
