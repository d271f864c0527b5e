import { describe, expect, it } from 'vitest';
import { STAGES, type Stage } from '../codes.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import { createStages, enterStage, isDown, isFilling, isOver, isUp } from './stages.ts';

const stage = (
  s: Script,
  ...to: ('prepare' | 'seat' | 'inflate' | 'hold' | 'let-down' | 'done' | 'abandoned')[]
) => {
  for (const one of to) s.say({ c: 'stage', to: one }).flow(2, 0);
  return s;
};

describe('stages and attempts', () => {
  it('a sleeve that was abandoned before it went up was no attempt', () => {
    const s = stage(new Script(), 'abandoned', 'prepare', 'seat');
    expect(s.of('stage').map((e) => e.attempt)).toEqual([1, 1, 1]);
  });

  it('a stage that is read off the data never begins before the one before it', () => {
    const st = createStages();
    enterStage(st, 'inflate', 'data', 50e6, () => {}, 40e6);
    enterStage(st, 'hold', 'data', 60e6, () => {}, 30e6);
    expect(st.sinceUs).toBe(40e6);
    enterStage(st, 'let-down', 'data', 70e6, () => {}, 80e6);
    expect(st.sinceUs).toBe(70e6);
  });

  it('an attempt is counted when it goes up again after a let-down', () => {
    const s = stage(
      new Script(),
      'seat',
      'inflate',
      'hold',
      'let-down',
      'prepare',
      'seat',
      'inflate',
      'let-down',
      'done',
    );
    expect(s.of('stage').map((e) => e.attempt)).toEqual([1, 1, 1, 1, 1, 2, 2, 2, 2]);
    expect(stage(s, 'hold').of('stage').at(-1)!.attempt).toBe(3);
  });

  it('going back to the seat pause is no new attempt', () => {
    const s = stage(new Script(), 'seat', 'inflate', 'seat', 'inflate');
    expect(viewOf(s.w, s.tS * 1e6).attempt).toBe(1);
  });

  it('the same stage again says nothing; a reason is recorded as an override', () => {
    const s = stage(new Script(), 'seat', 'seat').say({ c: 'stage', to: 'abandoned', reason: 'torn' });
    expect(s.of('stage')).toHaveLength(2);
    expect(s.of('override')).toMatchObject([{ what: 'stage:abandoned', reason: 'torn' }]);
  });

  it('a command-led run infers nothing', () => {
    const s = new Script().flow(40, (t) => t * 0.04).flow(60, 1.6);
    expect(s.of('stage')).toEqual([]);
  });

  it('each hold gives its summary once, also at the end', () => {
    const s = new Script()
      .flow(30, (t) => t * 0.06)
      .say({ c: 'stage', to: 'hold' })
      .flow(120, 1.8);
    s.say({ c: 'stage', to: 'let-down' })
      .flow(2, 1.8)
      .say({ c: 'stage', to: 'hold' })
      .flow(60, 1.8)
      .notice({ n: 'end' });
    const holds = s.of('hold');
    expect(holds.map((h) => h.tUs / 1e6)).toEqual([150, 212]);
    expect(holds[0]).toMatchObject({ fromUs: 30e6, leak: { verdict: 'cannot-tell' } });
    expect(holds[0]!.minutesInBand).toBeGreaterThan(1.8);
    expect(holds[0]!.minutesInBand).toBeLessThanOrEqual(2);
  });
});

it('a stage of a later version says nothing of air and work', () => {
  const later = JSON.parse('"pause"') as Stage;
  expect([isUp(later), isFilling(later), isDown(later), isOver(later)]).toEqual([false, false, false, false]);
  expect(STAGES.filter(isDown)).toEqual(['let-down', 'done', 'abandoned']);
  expect(STAGES.filter(isOver)).toEqual(['done', 'abandoned']);
});
