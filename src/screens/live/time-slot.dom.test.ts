import { describe, expect, it } from 'vitest';
import type { Setup } from '../../job/setup.ts';
import { LIMITS } from '../../job/testing/givens.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { FACE } from '../../words/face.ts';
import { METRIC } from '../../words/format.ts';
import { NO_CUE } from './cue-count.ts';
import { alarm, at, CURE, guard, sceneOf } from './testing/scene.ts';
import { timeParts, timeSlot } from './time-slot.ts';

const RESIN = { resin: {} } as unknown as Setup;
const NOON = new Date(2026, 10, 27, 12, 0).getTime();
const of = (...given: Parameters<typeof sceneOf>) => timeSlot(sceneOf(...given), METRIC, { nowMs: NOON });
const read = (slot: ReturnType<typeof of>) => (slot.big ?? []).flat().join('');
const event = (e: object) => ({ tUs: 50e6, ...e }) as unknown as WatchEvent;

it('times are rounded down, with small units', () => {
  expect(timeParts(6.9)).toEqual([['6', 's']]);
  expect(timeParts(95)).toEqual([
    ['1', 'min'],
    ['35', 's'],
  ]);
  expect(timeParts(95, false)).toEqual([['1', 'min']]);
  expect(timeParts(6179)).toEqual([
    ['1', 'h'],
    ['42', 'min'],
  ]);
});

it('says no stage and no missing run beside a run that was not closed', () => {
  expect(of({}, { step: 'connect' }).label).toBe(FACE.noRun);
  for (const step of ['connect', 'packer'] as const)
    expect(of({}, { step, leftOpen: true })).toMatchObject({ label: FACE.runLeftOpen, big: null });
});

describe('by stage', () => {
  it('the pot life, the seat pause with its rungs, the cue', () => {
    expect(of({ potLifeLeftS: 1709, mixedUs: 1 })).toMatchObject({ code: 'pot-life', big: [['28', 'min']] });
    const pause = of({ stage: 'seat', bar: 0.4 }, { pauseLeftS: 6.2 });
    expect(pause).toMatchObject({ code: 'settle', rungs: { left: 7, of: 18 } });
    const cue = of({ stage: 'inflate' }, { cue: { ...NO_CUE, leftS: 8, ofS: 14 } });
    expect(cue).toMatchObject({ code: 'cue', big: [['8', 's']], rungs: { left: 8, of: 14 } });
    const now = of({ stage: 'inflate' }, { cue: { ...NO_CUE, leftS: 0, ofS: 14 } });
    expect(now.big).toEqual([[FACE.now, '']]);
    // 'Ready at the valve: NOW' would be read as the order to be ready.
    expect(now.label).toBe('Shut the valve');
    expect(cue.label).toBe('Ready at the valve');
  });

  it('no count says when to shut the valve beside an order to shut it now', () => {
    const cue = { ...NO_CUE, leftS: 24, ofS: 20 };
    const beside = (part: Parameters<typeof alarm>[0]) =>
      of({ stage: 'inflate', bar: 0.95, potLifeLeftS: 600, alarms: [alarm(part)] }, { cue }).code;
    expect(beside({ alarm: 'supply-over' })).toBe('pot-life');
    expect(beside({ alarm: 'supply-over', state: 'acknowledged' })).toBe('pot-life');
    expect(beside({ alarm: 'stuck', priority: 'high' })).toBe('pot-life');
    // What wants no valve shut, or is a plate under the instruction, leaves the count.
    expect(beside({ alarm: 'sensors-differ', priority: 'high' })).toBe('cue');
    expect(beside({ alarm: 'stuck', priority: 'high', state: 'acknowledged' })).toBe('cue');
    expect(beside({ alarm: 'supply-over', state: 'returned' })).toBe('cue');
  });

  it('a count that broke off says why', () => {
    const slot = of({ stage: 'inflate' }, { cue: { ...NO_CUE, stopped: 'unsure' } });
    expect(slot.code).toBe('cue-stopped');
    expect(slot.big).toBeNull();
    expect(slot.sub).not.toBe('');
  });

  it('what is left of the cure time runs to its late end, and clock times stand after at', () => {
    const slot = of({ stage: 'hold', bar: 1.8, cure: CURE }, { setup: RESIN });
    expect(slot.code).toBe('cure-left');
    expect(read(slot)).toBe('2h10min');
    expect(slot.sub).toContain('at 13:40 to 14:10');
    const soon = { ...CURE, metInS: { value: 60, low: 60, high: 70 } };
    expect(of({ stage: 'hold', bar: 1.8, cure: soon }, { setup: RESIN }).sub).toBe('reached at 12:01');
  });

  it('reached it is a black block of words, no time, until let-down', () => {
    const met = { ...CURE, low: 1.02, metAtS: 40 };
    const slot = of({ stage: 'hold', bar: 1.8, cure: met }, { setup: RESIN });
    expect(slot.block).toEqual(['CHECK', 'SAMPLE']);
    expect(slot.big).toBeNull();
    expect(slot.sub).toContain('at 11:59');
    expect(of({ stage: 'let-down', bar: 1.2, cure: met }, { setup: RESIN }).block).toBeNull();
    // A hand is wanted at the valve, or the sample was felt: nobody is sent to it.
    const low = alarm({ alarm: 'below-floor', priority: 'high', state: 'acknowledged' });
    const hard = { tUs: 50e6, e: 'witness', hard: true, atPipeTemperature: true } as unknown as WatchEvent;
    for (const [view, more] of [
      [{ alarms: [low] }, {}],
      [{}, { events: [hard] }],
    ] as const) {
      const other = of({ stage: 'hold', bar: 1.8, cure: met, ...view }, { setup: RESIN, ...more });
      expect(other).toMatchObject({ code: 'held', block: null });
      expect(other.sub).toContain('Cure time reached at 11:59');
    }
  });

  it('too cold it stands still; a temperature is no large number', () => {
    const cold = alarm({ alarm: 'cold', priority: 'low', state: 'acknowledged', values: { c: 4.6 } });
    const slot = of({ stage: 'hold', bar: 1.8, cure: CURE, alarms: [cold] }, { setup: RESIN });
    expect(slot).toMatchObject({ code: 'cure-still', big: null });
    expect(slot.sub).toContain('4.6');
  });

  it('letting down tells about when, the test counts, its end says what was seen', () => {
    const down = of({ stage: 'let-down', bar: 0.6, guard: guard({ rateBarPerS: -0.01 }) });
    expect(down.code).toBe('empties-in');
    const test = of({ stage: 'let-down', rebound: { sinceUs: 86e6, needS: 25, startBar: 0 } });
    expect(test).toMatchObject({ code: 'vent', big: [['14', 's']], rungs: { left: 11, of: 25 } });
    const back = of(
      { stage: 'let-down', bar: 0.06 },
      { events: [event({ e: 'rebound', what: 'came-back', seconds: 14, bar: 0.06 })] },
    );
    expect(back).toMatchObject({ code: 'vent-failed', rungs: null });
    expect(back.sub).toContain('0.06');
    expect(back.sub).toContain('0.02');
    // A rise under the reading's uncertainty is not said to be beyond it.
    const rose = of(
      { stage: 'let-down', bar: 0.01 },
      { events: [event({ e: 'rebound', what: 'came-back', seconds: 3, bar: 0.012 })] },
    );
    expect(rose.sub).toContain('within');
  });
});

describe('a danger comes first', () => {
  it('the ceiling that comes, and the rated pressure behind it', () => {
    const rising = alarm({ alarm: 'rising', values: { inS: 6.8 } });
    const slot = of({ stage: 'inflate', bar: 1.4, alarms: [rising] });
    expect(slot).toMatchObject({ code: 'ceiling-in', big: [['6', 's']], rungs: { left: 6, of: 6 } });
    const ceiling = of({
      stage: 'inflate',
      bar: LIMITS.ceilingBar,
      guard: guard({ rateBarPerS: 0.009 }),
      alarms: [alarm({})],
    });
    expect(ceiling).toMatchObject({ code: 'rated-in', big: [['2', 's']] });
    expect(of({ stage: 'hold', bar: LIMITS.ceilingBar, alarms: [alarm({})] })).toMatchObject({
      code: 'over-ceiling',
      big: [['10', 's']],
    });
  });

  it('over rated it says who else has to act, and for how long', () => {
    const slot = of({
      stage: 'inflate',
      bar: 3,
      peakBar: 3,
      alarms: [alarm({ alarm: 'over-rated', sinceUs: 74e6 })],
    });
    expect(slot).toMatchObject({ code: 'over-rated', alarmed: true });
    expect(slot.block?.join(' ')).toBe('EVERYONE CLEAR');
    expect(slot.label).toBe('Over rated for 26\u00a0s');
    const begun = alarm({ alarm: 'over-rated', sinceUs: 97.6e6 });
    expect(of({ stage: 'inflate', bar: 3, peakBar: 3, alarms: [begun] }).label).toBe(
      'Over rated for 2\u00a0s',
    );
    // Acknowledged, or asked again: it has been over for as long as before.
    // While the supply is proved the peak is the packer's, which is not on the hose: beside 3 bar it would be a riddle.
    const proving = { stage: 'prepare', bar: 3, alarms: [begun] } as const;
    expect(of({ ...proving, peakBar: 0.01 }).sub).toBe('');
    expect(of({ ...proving, peakBar: 3.1 }).sub).toContain('3.10');
    const acknowledged = alarm({ alarm: 'over-rated', state: 'acknowledged', sinceUs: 99e6, begunUs: 74e6 });
    expect(of({ stage: 'inflate', bar: 3, peakBar: 3, alarms: [acknowledged] }).label).toContain('26');
  });

  it('a lost reading counts its silence, its last value is small and has its time', () => {
    const lost = alarm({ alarm: 'pressure-lost', values: { bar: 1.46, seconds: 6 } });
    const slot = of({ stage: 'hold', bar: null, ageS: 6.4, alarms: [lost] }, { trust: 'lost' });
    expect(slot).toMatchObject({ code: 'no-reading', big: [['6', 's']] });
    expect(slot.sub).toMatch(/1\.46.*at 11:59/);
  });

  it.each([0, 0.4, 0.99, -3])('nothing that is %f s away is counted: it is there now', (s) => {
    const rated = of({
      stage: 'inflate',
      bar: LIMITS.ratedBar - 0.01 * s,
      guard: guard({ rateBarPerS: 0.01 }),
      limits: { ...LIMITS, ceilingBar: LIMITS.ratedBar - 0.05 },
      alarms: [alarm({})],
    });
    const rising = alarm({ alarm: 'rising', values: { inS: s } });
    const ceiling = of({ stage: 'inflate', bar: 1.4, alarms: [rising] });
    const leaking = alarm({ alarm: 'leaking', priority: 'high' });
    const hold = { bandExit: { direction: 'down', inS: { value: s, low: s, high: s } } } as never;
    const floor = of({ stage: 'hold', bar: 1.2, hold, alarms: [leaking] });
    for (const slot of s < 0 ? [ceiling, floor] : [rated, ceiling, floor]) {
      expect(slot).toMatchObject({ big: [[FACE.now, '']], rungs: null });
      // Read together: 'At rated: NOW', never 'Rated in NOW'.
      expect(slot.label).toMatch(/^At /);
    }
  });

  it('what is still to come is never said to be nothing; pot life that is over is said to be', () => {
    const soon = { ...CURE, metInS: { value: 0.2, low: 0, high: 0.4 } };
    expect(read(of({ stage: 'hold', bar: 1.8, cure: soon }, { setup: RESIN }))).toBe('1s');
    expect(read(of({ potLifeLeftS: 0.3, mixedUs: 1 }))).toBe('1s');
    expect(of({ potLifeLeftS: -20, mixedUs: 1 })).toMatchObject({ big: null, label: FACE.potLifeOver });
  });

  it('the floor that comes', () => {
    const leaking = alarm({ alarm: 'leaking', priority: 'high' });
    const hold = { bandExit: { direction: 'down', inS: at(1000) } } as never;
    expect(of({ stage: 'hold', bar: 1.2, hold, alarms: [leaking] })).toMatchObject({
      code: 'floor-in',
      big: [['15', 'min']],
    });
  });
});
