import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import { STAGES } from '../../watch/codes.ts';
import type { AlarmView } from '../../watch/view.ts';
import { furtherStages, mainAction, nextStage, otherStages } from './next-stage.ts';
import { viewWith as view } from './testing/view.ts';

describe('the way through the stages', () => {
  it('has one next action a stage, and ends', () => {
    const path = ['prepare'];
    for (let s = nextStage('prepare', true); s !== null; s = nextStage(s, true)) path.push(s);
    expect(path).toEqual(['prepare', 'seat', 'inflate', 'hold', 'let-down', 'done']);
    expect(nextStage('prepare', false)).toBe('inflate');
    expect(nextStage('abandoned', true)).toBe('seat');
  });

  it('an attempt can be given up until it is done, and no stage offers itself', () => {
    for (const stage of STAGES) {
      const others = otherStages(stage, true);
      expect(others).not.toContain(stage);
      if (stage !== 'done' && stage !== 'abandoned') expect(others).toContain('abandoned');
    }
  });
});

describe('an urgent alarm, or a pressure over the ceiling', () => {
  const alarm = (part: Partial<AlarmView>) =>
    ({ alarm: 'rising', priority: 'urgent', state: 'unacknowledged', ...part }) as AlarmView;

  it('takes the way up off the big button, acknowledged or not, and leaves the way down on it', () => {
    for (const state of ['unacknowledged', 'acknowledged'] as const)
      for (const stage of STAGES) {
        const up = mainAction(view({ stage, alarms: [alarm({ state })] }), true);
        expect(up).toBe(stage === 'hold' ? 'let-down' : null);
      }
    expect(mainAction(view({ stage: 'inflate', bar: 2.49, limits: LIMITS }), true)).toBeNull();
    expect(mainAction(view({ stage: 'inflate', bar: 1.8, overBar: 4, limits: LIMITS }), true)).toBeNull();
    expect(mainAction(view({ stage: 'inflate', bar: 1.8, limits: LIMITS }), true)).toBe('hold');
  });

  it('is no trouble any more when it is over, nor where it only suppresses', () => {
    for (const part of [{ state: 'returned' }, { state: 'suppressed' }, { priority: 'high' }] as const)
      expect(mainAction(view({ stage: 'inflate', alarms: [alarm(part)] }), true)).toBe('hold');
  });

  it('blocks nothing: the step stands behind the other stages', () => {
    const troubled = view({ stage: 'inflate', bar: 1.8, limits: LIMITS, alarms: [alarm({})] });
    expect(furtherStages(troubled, true)).toEqual(['let-down', 'abandoned', 'hold']);
    expect(furtherStages(view({ stage: 'inflate' }), true)).toEqual(otherStages('inflate', true));
  });
});
