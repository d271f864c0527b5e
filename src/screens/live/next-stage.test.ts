import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import { STAGES } from '../../watch/codes.ts';
import type { AlarmView } from '../../watch/view.ts';
import { furtherStages, inTrouble, nextStage } from './next-stage.ts';
import { viewWith as view } from './testing/view.ts';

describe('the way through the stages', () => {
  it('has one next action a stage, and ends', () => {
    const path = ['prepare'];
    for (let s = nextStage('prepare', true); s !== null; s = nextStage(s, true)) path.push(s);
    expect(path).toEqual(['prepare', 'seat', 'inflate', 'hold', 'let-down', 'done']);
    expect(nextStage('prepare', false)).toBe('inflate');
    expect(nextStage('abandoned', true)).toBe('seat');
  });

  it('an attempt can be given up until it is done, no stage offers itself, and the next one comes first', () => {
    for (const stage of STAGES) {
      const all = furtherStages(stage, true);
      expect(all).not.toContain(stage);
      expect(new Set(all).size).toBe(all.length);
      const next = nextStage(stage, true);
      if (next !== null) expect(all[0]).toBe(next);
      // An air test is stopped, which leaves the attempt before it as it was.
      const isOver = stage === 'done' || stage === 'abandoned' || stage === 'air-test';
      expect(all.includes('abandoned')).toBe(!isOver);
    }
  });
});

describe('an urgent alarm, or a pressure over the ceiling', () => {
  const alarm = (part: Partial<AlarmView>) =>
    ({ alarm: 'rising', priority: 'urgent', state: 'unacknowledged', ...part }) as AlarmView;

  it('is trouble, acknowledged or not', () => {
    for (const state of ['unacknowledged', 'acknowledged'] as const)
      expect(inTrouble(view({ alarms: [alarm({ state })] }))).toBe(true);
    expect(inTrouble(view({ stage: 'inflate', bar: 2.49, limits: LIMITS }))).toBe(true);
    expect(inTrouble(view({ stage: 'inflate', bar: 1.8, overBar: 4, limits: LIMITS }))).toBe(true);
    expect(inTrouble(view({ stage: 'inflate', bar: 1.8, limits: LIMITS }))).toBe(false);
  });

  it('is none any more when it is over, nor where it only suppresses', () => {
    for (const part of [{ state: 'returned' }, { state: 'suppressed' }, { priority: 'high' }] as const)
      expect(inTrouble(view({ stage: 'inflate', alarms: [alarm(part)] }))).toBe(false);
  });
});
