import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import { STAGES } from '../../watch/codes.ts';
import type { AlarmView, WatchView } from '../../watch/view.ts';
import { doubtsOf, furtherStages, mainAction, nextStage, otherStages } from './next-stage.ts';

const view = (part: Partial<WatchView>): WatchView =>
  ({
    stage: 'hold',
    bar: 0,
    overBar: null,
    stale: false,
    uBar: 0.02,
    limits: null,
    alarms: [],
    standing: [],
    cure: null,
    ...part,
  }) as unknown as WatchView;
const nothing = { witnessHard: false, reboundStayed: false };
const everything = { witnessHard: true, reboundStayed: true };

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

describe('doubts', () => {
  const notMet = { low: 0.6, metAtS: null } as unknown as WatchView['cure'];
  const met = { low: 1.02, metAtS: 5000 } as unknown as WatchView['cure'];

  it('let-down before the cure time is met, or without the witness sample, asks for a reason', () => {
    expect(doubtsOf('let-down', view({ cure: notMet }), nothing)).toEqual(['cure-not-met', 'no-witness']);
    expect(doubtsOf('let-down', view({ cure: met }), everything)).toEqual([]);
    // Without a resin there is no cure time to speak of, but the sample is still asked for.
    expect(doubtsOf('let-down', view({ cure: null }), nothing)).toEqual(['no-witness']);
  });

  it('a line at zero is not an empty packer: done asks for the rebound test', () => {
    expect(doubtsOf('done', view({ stage: 'let-down', bar: 0.01 }), nothing)).toEqual(['no-rebound']);
    expect(doubtsOf('done', view({ stage: 'let-down', bar: 0.3 }), everything)).toEqual(['under-pressure']);
    expect(doubtsOf('done', view({ stage: 'let-down', bar: null }), everything)).toEqual(['under-pressure']);
    expect(doubtsOf('done', view({ stage: 'let-down', bar: 0.01 }), everything)).toEqual([]);
  });

  it('filling without zero asks for a reason, letting down in an emergency never does', () => {
    const unzeroed = view({ stage: 'prepare', standing: ['not-zeroed'] });
    expect(doubtsOf('inflate', unzeroed, nothing)).toEqual(['not-zeroed']);
    expect(doubtsOf('let-down', view({ stage: 'inflate', bar: 1.4 }), nothing)).toEqual([]);
    expect(doubtsOf('abandoned', view({ bar: 1.4, cure: notMet }), nothing)).toEqual([]);
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

  it('blocks nothing: the step stands behind the other stages, and asks', () => {
    const troubled = view({ stage: 'inflate', bar: 1.8, limits: LIMITS, alarms: [alarm({})] });
    expect(furtherStages(troubled, true)).toEqual(['let-down', 'abandoned', 'hold']);
    expect(doubtsOf('hold', troubled, nothing)).toEqual(['urgent-alarm']);
    expect(doubtsOf('let-down', troubled, nothing)).toEqual([]);
    expect(furtherStages(view({ stage: 'inflate' }), true)).toEqual(otherStages('inflate', true));
  });
});

describe('a hold that would begin outside its band asks', () => {
  const hold = (part: Partial<WatchView>) =>
    doubtsOf('hold', view({ stage: 'inflate', limits: LIMITS, ...part }), nothing);

  it('over the working pressure, over the ceiling and under the floor', () => {
    expect(hold({ bar: 2.25 })).toEqual(['over-working']);
    expect(hold({ bar: 2.25, limits: { ...LIMITS, ceilingBar: 2.2 } })).toEqual([
      'urgent-alarm',
      'over-ceiling',
    ]);
    expect(hold({ bar: 0.6 })).toEqual(['under-floor']);
    for (const bar of [0.7, 1.2, 1.8, 1.84]) expect(hold({ bar })).toEqual([]);
    // A reading that is not sure of 0.1 bar does not know whether 1.88 is over 1.80.
    expect(hold({ bar: 1.88, uBar: 0.1 })).toEqual([]);
  });

  it('and where the pressure is not known', () => {
    expect(hold({ bar: null })).toEqual(['pressure-unknown']);
    expect(hold({ bar: 1.8, stale: true })).toEqual(['pressure-unknown']);
    expect(hold({ bar: 1.8, overBar: 4 })).toEqual(['urgent-alarm', 'over-ceiling']);
  });

  it('but not where nobody gave a band', () => {
    expect(hold({ bar: 2.25, limits: null })).toEqual([]);
    expect(hold({ bar: 2.25, limits: { ...LIMITS, cue: false, floorBar: null } })).toEqual([]);
  });

  it('done on an old reading of zero is not seen at zero', () => {
    expect(doubtsOf('done', view({ stage: 'let-down', bar: 0, stale: true }), everything)).toEqual([
      'under-pressure',
    ]);
  });
});
