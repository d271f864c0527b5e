import { describe, expect, it } from 'vitest';
import type { Setup } from '../job/setup.ts';
import type { WatchEvent } from '../watch/events.ts';
import { alarmMarks, gapSpans, limitSpans, stageSpans } from './spans.ts';

const stage = (s: number, code: 'prepare' | 'inflate' | 'hold', attempt = 1): WatchEvent => ({
  tUs: s * 1e6,
  e: 'stage',
  stage: code,
  attempt,
  by: 'operator',
});

describe('stretches of a run', () => {
  it('stages follow each other without holes; what began before the first sample begins with it', () => {
    expect(stageSpans([stage(12, 'inflate'), stage(40, 'hold')], 2e6, 100)).toEqual([
      { stage: 'prepare', attempt: 1, fromS: 0, toS: 10 },
      { stage: 'inflate', attempt: 1, fromS: 10, toS: 38 },
      { stage: 'hold', attempt: 1, fromS: 38, toS: 100 },
    ]);
  });

  it('a run without a stage event is in prepare all along; one of no length is left out', () => {
    expect(stageSpans([], 0, 8)).toEqual([{ stage: 'prepare', attempt: 1, fromS: 0, toS: 8 }]);
    expect(stageSpans([stage(1, 'inflate')], 1e6, 8)).toEqual([
      { stage: 'inflate', attempt: 1, fromS: 0, toS: 8 },
    ]);
  });

  it('limits change when they were told, with the rated pressure of their own Setup', () => {
    const setups = [
      { number: 1, limits: null },
      { number: 2, limits: { ratedBar: 1.5, cue: true } },
    ] as unknown as Setup[];
    const told = (s: number, setup: number, ceilingBar: number | null): WatchEvent => ({
      tUs: s * 1e6,
      e: 'limits',
      setup,
      ceilingBar,
      workingBar: ceilingBar === null ? null : 1.3,
      floorBar: null,
    });
    const spans = limitSpans([told(0, 1, null), told(5, 2, 1.46)], setups, 0);
    expect(spans[0]).toMatchObject({ fromS: 0, toS: 5, ratedBar: null, ceilingBar: null });
    expect(spans[1]).toMatchObject({ fromS: 5, toS: null, ratedBar: 1.5, ceilingBar: 1.46, workingBar: 1.3 });
  });

  it('marks where an alarm was raised, not where it was acknowledged', () => {
    const alarm = (why: 'condition' | 'acknowledged', to: 'unacknowledged' | 'acknowledged'): WatchEvent => ({
      tUs: 3e6,
      e: 'alarm',
      alarm: 'ceiling',
      priority: 'urgent',
      occurrence: 1,
      to,
      why,
      values: {},
    });
    const events = [alarm('condition', 'unacknowledged'), alarm('acknowledged', 'acknowledged')];
    expect(alarmMarks(events, 1e6)).toEqual([{ atS: 2, priority: 'urgent', isShelved: false }]);
    expect(gapSpans([{ tUs: 9e6, e: 'gap', reason: 'port', fromUs: 4e6, toUs: 8e6, lost: 80 }], 1e6)).toEqual(
      [{ fromS: 3, toS: 7 }],
    );
  });

  it('a mark of an alarm that was put aside says so, until it comes back', () => {
    const alarm = (s: number, to: 'unacknowledged' | 'shelved', occurrence = 1): WatchEvent => ({
      tUs: s * 1e6,
      e: 'alarm',
      alarm: 'leaking',
      priority: 'high',
      occurrence,
      to,
      why: to === 'shelved' ? 'shelved' : 'condition',
      values: {},
    });
    const shelved = [alarm(2, 'unacknowledged'), alarm(5, 'shelved')];
    expect(alarmMarks(shelved, 0).map((m) => m.isShelved)).toEqual([true]);
    expect(alarmMarks([...shelved, alarm(9, 'unacknowledged', 2)], 0).map((m) => m.isShelved)).toEqual([
      true,
      false,
    ]);
  });
});
