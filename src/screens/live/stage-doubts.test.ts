import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { AlarmView, WatchView } from '../../watch/view.ts';
import { doubtsOf, seenOf } from './stage-doubts.ts';
import { viewWith as view } from './testing/view.ts';

const nothing = { witnessHard: false, reboundStayed: false };
const everything = { witnessHard: true, reboundStayed: true };

describe('doubts', () => {
  const notMet = { low: 0.6, metAtS: null } as unknown as WatchView['cure'];
  const met = { low: 1.02, metAtS: 5000 } as unknown as WatchView['cure'];

  it('let-down before the cure time is met, or without the witness sample, asks for a reason', () => {
    expect(doubtsOf('let-down', view({ cure: notMet }), nothing)).toEqual(['cure-not-met', 'no-witness']);
    expect(doubtsOf('let-down', view({ cure: met }), everything)).toEqual([]);
    // Without a resin there is no cure time to speak of, but the sample is still asked for.
    expect(doubtsOf('let-down', view({ cure: null }), nothing)).toEqual(['no-witness']);
  });

  it('a resin that light cures is not judged, whatever was counted before', () => {
    const light = (cure: WatchView['cure']) => view({ cure, standing: ['cure-not-judged'] });
    for (const cure of [null, notMet, met]) {
      expect(doubtsOf('let-down', light(cure), everything)).toEqual(['cure-not-judged']);
      expect(doubtsOf('done', light(cure), everything)).toContain('cure-not-judged');
    }
  });

  it('a line at zero is not an empty packer: done asks for the rebound test', () => {
    expect(doubtsOf('done', view({ stage: 'let-down', bar: 0.01 }), nothing)).toEqual(['no-rebound']);
    expect(doubtsOf('done', view({ stage: 'let-down', bar: 0.3 }), everything)).toEqual(['under-pressure']);
    expect(doubtsOf('done', view({ stage: 'let-down', bar: null }), everything)).toEqual(['under-pressure']);
    const second = {
      role: 'check-pressure',
      bar: 0.8,
      lost: false,
      zeroed: true,
      stoodBar: null,
      path: null,
    } as const;
    expect(doubtsOf('done', view({ stage: 'let-down', bar: 0.01, second }), everything)).toEqual([
      'under-pressure',
    ]);
    expect(doubtsOf('done', view({ stage: 'let-down', bar: 0.01 }), everything)).toEqual([]);
    const supply = view({ stage: 'let-down', bar: 0.01, standing: ['no-hold-by-tap'] });
    expect(doubtsOf('done', supply, everything)).toEqual(['rebound-unseen']);
  });

  it('seating or filling a line that is under pressure before the work asks for a reason', () => {
    for (const stage of ['prepare', 'abandoned'] as const)
      for (const to of ['seat', 'inflate'] as const) {
        expect(doubtsOf(to, view({ stage, bar: 0.3 }), nothing)).toEqual(['line-pressed']);
        expect(doubtsOf(to, view({ stage, bar: 0.02 }), nothing)).toEqual([]);
      }
    expect(doubtsOf('inflate', view({ stage: 'seat', bar: 0.4 }), nothing)).toEqual([]);
  });

  it('going on after a loss, or by a reading that has jumped, asks for a reason; letting down does not', () => {
    const lost = view({ stage: 'inflate', bar: 1.8, airNotWanted: 'fast-fall' });
    const jumped = view({ stage: 'inflate', bar: 1.8, airNotWanted: 'reading-jump' });
    for (const to of ['seat', 'inflate', 'hold'] as const) {
      expect(doubtsOf(to, lost, nothing)).toEqual(['loss-suspected']);
      expect(doubtsOf(to, jumped, nothing)).toEqual(['reading-jumped']);
    }
    for (const step of [lost, jumped]) expect(doubtsOf('let-down', step, nothing)).toEqual([]);
  });

  it('a packer that was over its rating in an earlier run asks before it is filled, and not again while it is', () => {
    const packer = (stage: WatchView['stage']) => view({ stage, bar: 0, standing: ['packer-not-inspected'] });
    for (const stage of ['prepare', 'abandoned'] as const)
      for (const to of ['seat', 'inflate'] as const)
        expect(doubtsOf(to, packer(stage), nothing)).toEqual(['packer-not-inspected']);
    expect(doubtsOf('inflate', packer('seat'), nothing)).toEqual([]);
    expect(doubtsOf('abandoned', packer('prepare'), nothing)).toEqual([]);
  });

  it('filling without zero asks for a reason, letting down in an emergency never does', () => {
    const unzeroed = view({ stage: 'prepare', standing: ['not-zeroed'] });
    expect(doubtsOf('inflate', unzeroed, nothing)).toEqual(['not-zeroed']);
    expect(doubtsOf('let-down', view({ stage: 'inflate', bar: 1.4 }), nothing)).toEqual([]);
    expect(doubtsOf('abandoned', view({ bar: 1.4, cure: notMet }), nothing)).toEqual([]);
  });
});

describe('a hold that would begin outside its band asks', () => {
  const hold = (part: Partial<WatchView>) =>
    doubtsOf('hold', view({ stage: 'inflate', limits: LIMITS, ...part }), nothing);

  it('a packer that was over its rating', () => {
    const peakBar = LIMITS.ratedBar + 0.1;
    expect(hold({ bar: 1.8, peakBar })).toEqual(['was-over-rated']);
    expect(doubtsOf('inflate', view({ stage: 'seat', bar: 0.4, limits: LIMITS, peakBar }), nothing)).toEqual([
      'was-over-rated',
    ]);
    expect(
      doubtsOf('let-down', view({ stage: 'inflate', bar: 1, limits: LIMITS, peakBar }), nothing),
    ).toEqual([]);
  });
  it('over the working pressure, over the ceiling and under the floor', () => {
    expect(hold({ bar: 2.25 })).toEqual(['over-working']);
    expect(hold({ bar: 2.25, limits: { ...LIMITS, ceilingBar: 2.2 } })).toEqual([
      'urgent-alarm',
      'over-ceiling',
    ]);
    expect(hold({ bar: 0.6 })).toEqual(['under-floor']);
    // The tenth under the working pressure is the end of a fill; seat pressure is not, also where no floor is known.
    for (const bar of [0.7, 1.2, 1.5]) expect(hold({ bar })).toEqual(['under-working']);
    expect(hold({ bar: 0.4, limits: { ...LIMITS, floorBar: null } })).toEqual(['under-working']);
    for (const bar of [1.6, 1.8, 1.84]) expect(hold({ bar })).toEqual([]);
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

describe('a step up under an urgent alarm', () => {
  it('asks, and the way down never does', () => {
    const rising = { alarm: 'rising', priority: 'urgent', state: 'acknowledged' } as AlarmView;
    const troubled = view({ stage: 'inflate', bar: 1.8, limits: LIMITS, alarms: [rising] });
    expect(doubtsOf('hold', troubled, nothing)).toEqual(['urgent-alarm']);
    expect(doubtsOf('seat', { ...troubled, stage: 'prepare' }, nothing)).toEqual([
      'urgent-alarm',
      'line-pressed',
    ]);
    expect(doubtsOf('let-down', troubled, nothing)).toEqual([]);
    expect(doubtsOf('abandoned', troubled, nothing)).toEqual([]);
  });
});

describe('what the crew has seen', () => {
  const stage = (stage: 'seat' | 'hold' | 'let-down', attempt: number): WatchEvent => ({
    tUs: 0,
    e: 'stage',
    stage,
    attempt,
    by: 'operator',
  });
  const rebound = (what: 'started' | 'stayed' | 'came-back' | 'broken-off'): WatchEvent => ({
    tUs: 0,
    e: 'rebound',
    what,
    bar: 0,
    seconds: 25,
  });
  const witness = (hard: boolean, atPipeTemperature = true): WatchEvent => ({
    tUs: 0,
    e: 'witness',
    hard,
    atPipeTemperature,
  });
  const first = [
    stage('hold', 1),
    witness(true),
    stage('let-down', 1),
    rebound('started'),
    rebound('stayed'),
  ];

  it('is a sample that is hard and a line that stayed at zero', () => {
    expect(seenOf([], 1)).toEqual(nothing);
    expect(seenOf(first, 1)).toEqual(everything);
  });

  it('is not of an earlier attempt, nor from before the packer went up again', () => {
    expect(seenOf([...first, stage('seat', 2), stage('let-down', 2)], 2)).toEqual(nothing);
    expect(seenOf([...first, stage('hold', 1), stage('let-down', 1)], 1)).toEqual({
      witnessHard: true,
      reboundStayed: false,
    });
  });

  it('of two answers the last one counts', () => {
    expect(seenOf([witness(true, false)], 1)).toEqual(nothing);
    expect(seenOf([...first, rebound('started'), rebound('came-back'), witness(false)], 1)).toEqual(nothing);
    expect(seenOf([...first, rebound('started'), rebound('broken-off')], 1).reboundStayed).toBe(false);
  });
});
