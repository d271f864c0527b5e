import { describe, expect, it } from 'vitest';
import { STAGES } from '../../watch/codes.ts';
import type { WatchView } from '../../watch/view.ts';
import { doubtsOf, nextStage, otherStages } from './next-stage.ts';

const view = (part: Partial<WatchView>): WatchView =>
  ({ stage: 'hold', bar: 0, standing: [], cure: null, ...part }) as WatchView;
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
