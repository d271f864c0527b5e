import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import { STAGES } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { stageKey } from './stage-key.ts';
import { alarm, CURE, guard, sceneOf } from './testing/scene.ts';

const of = (...given: Parameters<typeof sceneOf>) => {
  const { does, to, look } = stageKey(sceneOf(...given), false);
  return [does, to, look].filter((x) => x !== null).join(' ');
};
const event = (e: object) => ({ tUs: 50e6, ...e }) as unknown as WatchEvent;
const HARD = event({ e: 'witness', hard: true, atPipeTemperature: true });
/** The dial gauge shows more than the sensor. */
const COMPARED_LOW = event({ e: 'gauge', agrees: false, gaugeBar: 0.9, readingBar: 0.4 });
const LOW = alarm({
  alarm: 'gauge-differs',
  priority: 'high',
  state: 'acknowledged',
  values: { bar: 0.4, gaugeBar: 0.9 },
});
const STAYED = event({ e: 'rebound', what: 'stayed', seconds: 25, bar: 0 });

describe('the one key', () => {
  it('leads through the steps to a run', () => {
    expect(of({}, { step: 'connect' })).toBe('connect ready');
    expect(of({}, { step: 'packer' })).toBe('packer ready');
    expect(of({}, { step: 'zero' })).toBe('zero ready');
    expect(of({ bar: 0.4 }, { step: 'zero' })).toBe('skip-zero hold');
  });

  it('seats, compares the gauge once its time has come, inflates', () => {
    expect(of({})).toBe('stage seat ready');
    expect(of({ standing: ['not-zeroed'] })).toBe('stage seat hold');
    expect(of({ bar: 0.87 })).toBe('stage seat hold');
    const seat = { stage: 'seat' as const, bar: 0.4 };
    expect(of(seat)).toBe('compare outlined');
    expect(of(seat, { pauseLeftS: 9 })).toBe('compare outlined');
    expect(of(seat, { pauseLeftS: 0 })).toBe('compare ready');
    expect(of(seat, { events: [event({ e: 'gauge', agrees: true, gaugeBar: 0.4, readingBar: 0.4 })] })).toBe(
      'stage inflate ready',
    );
    expect(of({ ...seat, alarms: [LOW] }, { events: [COMPARED_LOW] })).toBe('stage inflate hold');
  });

  it('is outlined in the fill until the pressure stands in its band, and held where a hold would begin outside', () => {
    const fill = { stage: 'inflate' as const, guard: guard({ rateBarPerS: 0.05 }) };
    expect(of({ ...fill, bar: 1.2 })).toBe('stage hold hold');
    expect(of({ ...fill, bar: 1.65 })).toBe('stage hold outlined');
    expect(of({ ...fill, bar: 1.78 })).toBe('stage hold outlined');
    expect(of({ ...fill, bar: 1.78, guard: guard({ rateBarPerS: 0.001 }) })).toBe('stage hold ready');
    expect(of({ ...fill, bar: 0.3 })).toBe('stage hold hold');
    expect(of({ ...fill, bar: LIMITS.ceilingBar })).toBe('stage hold hold');
  });

  it('lets down by a press only once cure time and sample agree', () => {
    const hold = { stage: 'hold' as const, bar: 1.8 };
    expect(of({ ...hold, cure: CURE })).toBe('stage let-down hold');
    expect(of({ ...hold, cure: CURE }, { events: [HARD] })).toBe('stage let-down hold');
    const met = { ...CURE, low: 1.01, metAtS: 60 };
    expect(of({ ...hold, cure: met })).toBe('stage let-down hold');
    expect(of({ ...hold, cure: met }, { events: [HARD] })).toBe('stage let-down ready');
  });

  it('tests the vent before it finishes', () => {
    const down = { stage: 'let-down' as const };
    expect(of({ ...down, bar: 0.6 })).toBe('test outlined');
    expect(of(down)).toBe('test ready');
    expect(of({ ...down, alarms: [LOW] })).toBe('test hold');
    expect(of({ ...down, alarms: [LOW] }, { events: [STAYED] })).toBe('stage done hold');
    expect(of({ ...down, rebound: { sinceUs: 0, needS: 25, startBar: 0 } })).toBe('stage done hold');
    expect(of(down, { events: [STAYED] })).toBe('stage done ready');
    expect(of({ ...down, bar: 0.1 }, { events: [STAYED] })).toBe('test outlined');
    expect(of({ stage: 'done' })).toBe('end ready');
    expect(of({ stage: 'done', bar: 0.4 })).toBe('end hold');
  });

  it('of an attempt that was given up leads down first, then up again', () => {
    expect(of({ stage: 'abandoned', bar: 0.8 })).toBe('stage let-down ready'.replace('ready', 'outlined'));
    expect(of({ stage: 'abandoned' })).toBe('stage seat ready');
  });
});

it('an alarm that has the order zone demotes it in every stage: held, and never blocked', () => {
  for (const stage of STAGES) {
    const scene = sceneOf({ stage, bar: 1.2, alarms: [alarm({})] });
    expect(stageKey(scene, true)).toEqual({ does: 'stages', to: null, look: 'hold' });
  }
  expect(stageKey(sceneOf({}, { step: 'connect' }), true)).toEqual({
    does: 'connect',
    to: null,
    look: 'hold',
  });
});
