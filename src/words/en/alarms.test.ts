import { describe, expect, it } from 'vitest';
import { ALARMS } from '../../watch/codes.ts';
import { english } from '../testing/english.ts';

const { alarmText, alarmWas } = english.alarms;
const { ALARM_TITLE, alarmLine, alarmTitle } = english.alarmTitles;
const { CAUTION } = english.cautions;
const { eventText } = english.events;
const { CURE } = english.hold;
const { STAGE, STAGE_ACTION } = english.terms;
const { INSTRUCTIONS } = english.orders;

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('alarm texts', () => {
  it('say what will happen and what to do, with the interval', () => {
    expect(
      plain(
        alarmText('rising', {
          kind: 'settle',
          settleBar: 1.58,
          settleLowBar: 1.55,
          settleHighBar: 1.62,
          ceilingBar: 1.46,
        }),
      ),
    ).toBe(
      'Line will settle at 1.58 bar (1.55 to 1.62), ceiling 1.46: shut the supply valve now, then turn the regulator down',
    );
    expect(alarmText('pressure-lost', { cause: 'port' })).toMatch(
      /^Pressure reading lost .*: treat the packer as full, shut the supply valve, keep clear$/,
    );
  });

  it('advice has a floor, and an unknown floor is said to be unknown', () => {
    expect(plain(alarmText('lift', { adviceHighBar: 1.35, adviceLowBar: 0.9 }))).toContain(
      'let out to 1.35 bar, not under 0.90',
    );
    expect(alarmText('lift', { adviceHighBar: 1.35 })).toContain('hold floor is not known');
  });

  it('no alarm leaves an empty slot when its numbers are missing', () => {
    for (const code of ALARMS) {
      for (const text of [alarmText(code, {}), alarmWas(code, {})]) {
        expect(text, code).not.toMatch(/undefined|null|NaN|–| {2}|\( ?\)| [,:]/);
        expect(text.length, code).toBeGreaterThan(13);
      }
      expect(ALARM_TITLE[code].length, code).toBeLessThanOrEqual(28);
    }
  });

  it('air that came in before the work has not come back, and is not called so', () => {
    const rebound = (values: object) =>
      alarmTitle({ alarm: 'rebound', values }).concat(
        alarmLine({ alarm: 'rebound', priority: 'high', values }),
      );
    expect(rebound({ cause: 'unannounced' })).not.toMatch(/back/);
    expect(rebound({})).toMatch(/came back.*came back/);
    expect(alarmTitle({ alarm: 'rebound', values: { cause: 'unannounced' } }).length).toBeLessThanOrEqual(28);
    // Nor has what was never let out.
    expect(rebound({ cause: 'full' })).not.toMatch(/back|unannounced/);
    expect(alarmText('rebound', { cause: 'full', bar: 1.5 })).toMatch(/^Still under pressure, now 1\.50/);
    expect(alarmWas('rebound', { cause: 'full', bar: 1.5 })).not.toMatch(/back/);
    // Where only the code is known, neither is claimed.
    expect(ALARM_TITLE.rebound).not.toMatch(/back|unannounced/);
  });

  it('over the rated pressure it says by how much, when that can be seen', () => {
    expect(plain(alarmText('over-rated', { bar: 2.85, ratedBar: 2.5, overBar: 0.35 }))).toMatch(
      /^Over rated by 0\.35 bar, rated 2\.50 bar: shut the supply valve, then open the vent/,
    );
    expect(plain(alarmText('over-rated', { bar: 2.501, ratedBar: 2.5, overBar: 0.001 }))).toMatch(
      /^At the rated pressure 2\.50 bar: /,
    );
    expect(plain(alarmText('over-range', { spanBar: 4 }))).toMatch(
      /^Over 4\.00 bar, .*: shut the supply valve, then open the vent/,
    );
  });

  it('just under the hold floor no number is said to be under itself', () => {
    const at = (bar: number) => plain(alarmText('below-floor', { bar, floorBar: 0.774 }));
    expect(at(0.76)).toMatch(/^Pressure 0\.76 bar is under the hold floor 0\.77 bar, /);
    expect(at(0.772)).toMatch(/^Pressure is under the hold floor 0\.77 bar, /);
  });

  it('after a fast fall nobody is told to top up: the loss is found first', () => {
    for (const code of ['below-floor', 'leaking', 'band-exit'] as const) {
      expect(alarmText(code, {})).toMatch(/top up/i);
      const text = alarmText(code, { cause: 'fast-fall' });
      expect(text).not.toMatch(/top up/i);
      expect(text).toContain('Find the loss first. Keep clear');
    }
  });

  it('an alarm that is over orders nothing and does not say now: its numbers are those of its moment', () => {
    const order =
      /(^|[:.;,] |then )(shut|vent|let|lower|treat|keep|look|find|top|say|check|open|wait|seat|pull|warm|note|correct|compare|believe|stay|do not)\b/i;
    const values = { bar: 2.5, overBar: 0.1, ceilingBar: 2.4, inS: 3, seconds: 4, c: 3, cause: 'fast-fall' };
    for (const code of ALARMS)
      for (const v of [
        {},
        values,
        { ...values, kind: 'settle', settleBar: 3 },
        { ...values, kind: 'left-band' },
      ] as const) {
        expect(alarmWas(code, v), code).not.toMatch(order);
        expect(alarmWas(code, v), code).not.toMatch(/\bnow\b|\bis\b|\bwill\b/i);
      }
    expect(plain(alarmWas('ceiling', { bar: 2.51, ceilingBar: 2.48 }))).toBe(
      'at the ceiling 2.48 bar, at most 2.51 bar',
    );
  });

  it('pot life that is over is not said to end in the past', () => {
    expect(alarmText('pot-life', { seconds: -30 })).toContain('Pot life is over');
  });

  it('speaks in the user’s unit', () => {
    const psi = { pressure: 'psi', temperature: 'F', length: 'in' } as const;
    expect(plain(alarmText('ceiling', { bar: 1.5, ceilingBar: 1.46 }, psi))).toContain('21.8 psi');
  });

  it('a recording fault says why in words', () => {
    expect(alarmText('store-fault', { cause: 'full' })).toContain('(the disk is full)');
  });

  it('names a cause of loss that it does not know as it came', () => {
    expect(alarmText('pressure-lost', { cause: 'sensor 3' })).toContain('(sensor 3)');
  });
});

describe('what the words never claim', () => {
  it('nothing about cure or let-down says that it is cured or safe', () => {
    const all = [
      ...Object.values(CURE),
      ...Object.values(STAGE),
      ...Object.values(STAGE_ACTION),
      ...Object.values(INSTRUCTIONS).flatMap((states) =>
        Object.values(states).flatMap((told) => Object.values(told({ s: 25, bar: 1.2 }))),
      ),
      eventText({ tUs: 0, e: 'cure-met', progressLow: 1, equivalentAgeMin: 90 }),
      eventText({ tUs: 0, e: 'rebound', what: 'stayed', bar: 0, seconds: 25 }),
      ...ALARMS.map((a) => alarmText(a, {})),
    ];
    for (const text of all.map(String)) expect(text).not.toMatch(/\bcured\b|\bsafe\b|\bguarantee/i);
  });

  it('what counts from mixing is told with its minutes and the coldest that it may have been', () => {
    const start = { tUs: 0, e: 'cure-start', from: 'seat' } as const;
    expect(eventText(start)).not.toContain('mixing');
    const told = eventText({ ...start, before: { minutes: 12, coldestC: 7.5 } });
    expect(told).toContain('12.0 min');
    expect(told).toContain('7.5');
  });

  it('the device is never called a safety device', () => {
    expect(CAUTION['not-a-safety-device']).toContain('no safety device');
  });
});
