import { expect, it } from 'vitest';
import type { AlarmView } from '../watch/view.ts';
import { ranked, visibleAlarms } from './alarm-order.ts';

const alarm = (part: Partial<AlarmView>): AlarmView => ({
  alarm: 'ceiling',
  priority: 'urgent',
  state: 'unacknowledged',
  shelvable: false,
  occurrence: 1,
  sinceUs: 0,
  begunUs: 0,
  values: {},
  ...part,
});

it('children of a raised parent, shelved and normal ones do not want the eye', () => {
  const quiet = (['suppressed', 'shelved', 'normal'] as const).map((state) => alarm({ state }));
  expect(visibleAlarms([...quiet, alarm({ state: 'returned' })]).map((a) => a.state)).toEqual(['returned']);
});

it('what waits stands before what was acknowledged, then the more urgent, then as the engine has them', () => {
  const alarms = [
    alarm({ alarm: 'ceiling', state: 'acknowledged' }),
    alarm({ alarm: 'cold', priority: 'low', state: 'returned' }),
    alarm({ alarm: 'temperature-lost', priority: 'low' }),
    alarm({ alarm: 'leaking', priority: 'high' }),
    alarm({ alarm: 'supply-low', priority: 'high' }),
  ];
  expect(ranked(alarms).map((a) => a.alarm)).toEqual([
    'leaking',
    'supply-low',
    'temperature-lost',
    'ceiling',
    'cold',
  ]);
});
