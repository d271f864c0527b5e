import { expect, it } from 'vitest';
import type { WatchEvent } from '../../watch/events.ts';
import { groupNotes, notesOf, worstOf } from './notes.ts';

const alarm = (
  s: number,
  priority: 'urgent' | 'high',
  why: 'condition' | 'acknowledged' = 'condition',
): WatchEvent => ({
  tUs: s * 1e6,
  e: 'alarm',
  alarm: 'ceiling',
  priority,
  occurrence: 1,
  to: why === 'condition' ? 'unacknowledged' : 'acknowledged',
  why,
  values: {},
});
const events: readonly WatchEvent[] = [
  { tUs: 10e6, e: 'stage', stage: 'seat', attempt: 1, by: 'operator' },
  { tUs: 20e6, e: 'gauge', gaugeBar: 0.4, readingBar: 0.41, agrees: true },
  alarm(50, 'high'),
  alarm(52, 'high', 'acknowledged'),
  alarm(53, 'urgent'),
  { tUs: 400e6, e: 'witness', hard: true, atPipeTemperature: true },
];

it('what happened is numbered in the order of time; stages and answers to alarms are not', () => {
  const notes = [...notesOf(events, 5e6).values()];
  expect(notes.map((n) => [n.number, n.s, n.event.e])).toEqual([
    [1, 15, 'gauge'],
    [2, 45, 'alarm'],
    [3, 48, 'alarm'],
    [4, 395, 'witness'],
  ]);
});

it('marks that would lie over each other stand as one; what is out of sight is left out', () => {
  const notes = [...notesOf(events, 0).values()];
  const groups = groupNotes(notes, { fromS: 0, toS: 400 }, 800, 30);
  expect(groups.map((g) => [g.x, g.notes.map((n) => n.number)])).toEqual([
    [40, [1]],
    [100, [2, 3]],
    [800, [4]],
  ]);
  expect(worstOf(groups[1]!.notes)).toBe('urgent');
  expect(worstOf(groups[0]!.notes)).toBeNull();
  // Nearer to it they stand apart.
  expect(groupNotes(notes, { fromS: 40, toS: 60 }, 800, 30).map((g) => g.notes.length)).toEqual([1, 1]);
});
