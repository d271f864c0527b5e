import { describe, expect, it } from 'vitest';
import type { WatchEvent } from '../watch/events.ts';
import { cureTold } from './cure-told.ts';

const start = (s: number): WatchEvent => ({ tUs: s * 1e6, e: 'cure-start', from: 'seat' });
const met = (s: number): WatchEvent => ({
  tUs: s * 1e6,
  e: 'cure-met',
  progressLow: 1,
  equivalentAgeMin: 100,
});
const told = (...events: WatchEvent[]) => {
  const { start: s, met: m } = cureTold(events);
  return [s === null ? null : s.tUs / 1e6, m === null ? null : m.tUs / 1e6];
};

describe('the count of the cure that a record tells of', () => {
  it('is that of the attempt which reached it, from its own beginning', () => {
    expect(told()).toEqual([null, null]);
    expect(told(start(10), met(900))).toEqual([10, 900]);
    // Up in the wrong place for an hour, then down and up again.
    expect(told(start(10), start(3600), met(9000))).toEqual([3600, 9000]);
    // A step back from a let-down that was pressed too early begins a count of its own.
    expect(told(start(10), met(900), start(950))).toEqual([10, 900]);
    expect(told(start(10), start(950))).toEqual([950, null]);
  });
});
