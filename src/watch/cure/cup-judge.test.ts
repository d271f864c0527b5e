import { describe, expect, it } from 'vitest';
import type { CupMark } from '../../job/setup.ts';
import { type CupSeen, judgeCup } from './cup-judge.ts';

const MARK: CupMark = { age: 0.4, scatter: 0.08, riseK: 40, batches: 4 };
const seen = (more: Partial<CupSeen>): CupSeen => ({
  age: 0.1,
  riseK: 0,
  heat: null,
  doubt: null,
  brief: false,
  warm: false,
  ...more,
});
const passed = (age: number): Partial<CupSeen> => ({
  age: age * 1.3,
  riseK: 40,
  heat: { age, passed: true },
});
const said = (more: Partial<CupSeen>, mark: CupMark | null = MARK) => {
  const { verdict, doubt } = judgeCup(seen(more), mark);
  return doubt ?? verdict;
};

describe('a cup of a resin whose mark is known', () => {
  it.each([
    [0.4, 'usual'],
    [0.44, 'usual'],
    [0.52, 'slow'],
    [0.6, 'slow'],
    [0.3, 'quick'],
    [0.24, 'too-early'],
  ])('with its greatest heat at %f of the sheet’s time is %s', (age, word) => {
    expect(said(passed(age))).toBe(word);
  });

  it('tells its time against the usual with two standard deviations to either side', () => {
    const { times } = judgeCup(seen(passed(0.6)), MARK);
    expect(times!.value).toBeCloseTo(1.5, 9);
    expect(times!.least).toBeCloseTo(1.5 * Math.exp(-0.16), 9);
    expect(times!.most).toBeCloseTo(1.5 * Math.exp(0.16), 9);
  });

  it('is slow before its heat has come, as soon as that is overdue', () => {
    expect(said({ age: 0.45 })).toBe('waits');
    expect(said({ age: 0.5, riseK: 3 })).toBe('slow');
    expect(said({ age: 0.9, riseK: 0.5 })).toBe('no-reaction');
    // A batch of whatever speed has warmed a little by then: this is none, or its probe hangs beside it.
    expect(said({ age: 0.5, riseK: 0.5 })).toBe('no-reaction');
    expect(said({ age: 0.45, riseK: 0.5 })).toBe('waits');
    expect(said({ age: 0.9, riseK: 20, heat: { age: 0.7, passed: false } })).toBe('slow');
    const rising = seen({ age: 0.9, riseK: 20, heat: { age: 0.7, passed: false } });
    expect(judgeCup(rising, MARK).times).toMatchObject({ value: null, most: null });
  });

  it('makes no number of a cup that has not warmed: it may be none', () => {
    expect(judgeCup(seen({ age: 0.5, riseK: 3 }), MARK).times).toBeNull();
    expect(judgeCup(seen({ age: 0.9, riseK: 0.5 }), MARK).times).toBeNull();
  });

  it('says nothing of a resin whose cups never warm much', () => {
    const little = { ...MARK, riseK: 8 };
    expect(said({ age: 0.6, riseK: 3 }, little)).toBe('waits');
    expect(said({ age: 1, riseK: 3 }, little)).toBe('little-heat');
    // Two of its four cups warmed by 18 K, the others by too little for a mark: a usual one of these was called slow.
    expect(said({ age: 0.6, riseK: 0.3 }, { ...MARK, riseK: 17.6, batches: 2 })).toBe('waits');
  });

  // Of a resin that is over in ten minutes the age is past the mark before there are nine stretches to take a slope of.
  it('is not called slow before it was followed long enough to see whether it reacts', () => {
    const brief = { age: 0.6, brief: true };
    expect(said({ ...brief, riseK: 140 })).toBe('waits');
    expect(said({ ...brief, age: 1.6 }, null)).toBe('waits');
    expect(said({ ...brief, age: 2, riseK: 0 })).toBe('waits');
    expect(said({ ...brief, riseK: 140, heat: { age: 0.5, passed: false } })).toBe('reacts');
    expect(said({ ...brief, riseK: 140, heat: { age: 0.4, passed: true } })).toBe('usual');
  });
});

// A resin of ten minutes: it was 24 K over the pot when the probe was in, and its age at the peak a sixth too little.
it('that was warmer than the pot when it was first read is a coarser measure of its batch', () => {
  const warm = (more: Partial<CupSeen>) => said({ ...more, warm: true });
  expect(said(passed(0.5))).toBe('slow');
  expect(warm(passed(0.5))).toBe('usual');
  expect(warm(passed(0.6))).toBe('slow');
  expect(said(passed(0.3))).toBe('quick');
  expect(warm(passed(0.3))).toBe('usual');
  expect(warm(passed(0.24))).toBe('too-early');
});

describe('a cup of an unknown resin', () => {
  it('tells that it reacts, that it does not, or that it is grossly slow, and no more', () => {
    expect(said(passed(0.3), null)).toBe('reacts');
    expect(said(passed(0.9), null)).toBe('reacts');
    expect(said({ age: 1.6, riseK: 20, heat: { age: 1.5, passed: false } }, null)).toBe('slow');
    expect(said({ age: 1.3, riseK: 1 }, null)).toBe('waits');
    expect(said({ age: 1.5, riseK: 1 }, null)).toBe('no-reaction');
    expect(said({ age: 1.5, riseK: 4 }, null)).toBe('little-heat');
    expect(judgeCup(seen(passed(0.9)), null).times).toBeNull();
  });
});

it('a doubt stands before whatever its course says', () => {
  expect(said({ ...passed(0.4), doubt: 'not-of-pot' })).toBe('not-of-pot');
});
