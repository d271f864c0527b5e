import { describe, expect, it } from 'vitest';
import { FLAG } from '../../sensing/reading.ts';
import { readingOf } from '../../sensing/testing/readings.ts';
import { lossCause } from './loss.ts';
import { createRecent, recentAdd, recentStats } from './recent.ts';
import { createSignal, signalFrame, usability } from './signal.ts';

// Both sides of the figures by which a reading is used, lost or an empty line's (docs/alarms.md, pressure-lost).

describe('a reading out of its span', () => {
  const out = (bar: number, uBar = 0.02) => usability(readingOf(0, bar, { uBar, flags: FLAG.outOfRange }));
  it('is one of an open line to 0.1 bar, or twice its uncertainty where that is more', () => {
    expect([out(-0.099), out(-0.101), out(0.099), out(0.101)]).toEqual(['usable', 'range', 'usable', 'over']);
    expect([out(-0.15, 0.08), out(-0.17, 0.08)]).toEqual(['usable', 'range']);
  });
});

describe('frames without a value', () => {
  const CTX = {
    stage: 'inflate',
    stageSinceUs: 0,
    atRest: false,
    airComesIn: false,
    emptyDoubted: false,
  } as const;
  const faulty = (frames: number, hz: number, afterS: number) => {
    const s = createSignal();
    signalFrame(s, readingOf(0, 1));
    for (let k = 1; k <= frames; k++) signalFrame(s, readingOf(k / hz, null, { flags: FLAG.fault }));
    return lossCause(s, CTX, (1 / hz + afterS) * 1e6);
  };
  it('count from three of them and from half a second on', () => {
    expect([faulty(20, 20, 0.49), faulty(20, 20, 0.5)]).toEqual([null, 'fault']);
    expect([faulty(2, 20, 0.6), faulty(3, 20, 0.6)]).toEqual([null, 'fault']);
  });

  const away = (bar: number, stage: 'done' | 'prepare' | 'hold', doubted = false) => {
    const s = createSignal();
    signalFrame(s, readingOf(1, bar));
    return lossCause(s, { ...CTX, stage, emptyDoubted: doubted }, 60e6);
  };
  it('of a line that read 50 mbar or less after the work are the gear that is put away', () => {
    expect([away(0.05, 'done'), away(0.051, 'done'), away(-0.05, 'done'), away(-0.051, 'done')]).toEqual([
      null,
      'silence',
      null,
      'silence',
    ]);
    expect([away(0, 'prepare'), away(0, 'hold'), away(0, 'done', true)]).toEqual([
      'silence',
      'silence',
      'silence',
    ]);
  });
});

describe('means of the last second', () => {
  const third = (bar: number) => {
    const r = createRecent();
    recentAdd(r, 0, 1);
    recentAdd(r, 10_000, 1);
    return recentAdd(r, 20_000, bar);
  };
  it('a reading more than 50 mbar off the median of three counts as that', () => {
    expect([third(1.049), third(1.051), third(0.951), third(0.949)]).toEqual([1.049, 1, 0.951, 1]);
  });
  it('reach ten tenths back and no further; with fewer than three readings the last three stand in', () => {
    const r = createRecent();
    for (let k = 0; k < 40; k++) recentAdd(r, k * 50_000, k < 20 ? 1 : 2);
    // Of the step the first reading still counts as the level before it.
    expect(recentStats(r, 1_950_000, 0)).toMatchObject({ n: 20, mean: expect.closeTo(39 / 20, 9) });
    expect(recentStats(r, 2_849_000, 0)?.n).toBe(3);
    expect(recentStats(r, 2_700_000, 0)?.n).toBe(4);
    expect(recentStats(r, 5_000_000, 0)?.n).toBe(3);
    expect(recentStats(r, 5_000_000, 1_900_000)?.n).toBe(2);
    expect(recentStats(r, 5_000_000, 3_000_000)).toBeNull();
  });
});
