import { describe, expect, it } from 'vitest';
import type { CupMark } from '../../job/setup.ts';
import type { CupSeen } from './cup-judge.ts';
import { AS_THE_SHEET, batchOf, ofBatch } from './cup-speed.ts';

const MARK: CupMark = { age: 0.4, scatter: 0.08, riseK: 40, batches: 4 };
const seenAt = (times: number, more: Partial<CupSeen> = {}): CupSeen => ({
  age: 0.4 * times + 0.05,
  riseK: 40,
  heat: { age: 0.4 * times, passed: true },
  doubt: null,
  brief: false,
  warm: false,
  ...more,
});
/** What a sheet's count of 1 with so wide a bound is by this batch. */
const counted = (times: number, low = 0.85) =>
  ofBatch({ value: 1, low, high: 1.2 }, batchOf(seenAt(times), MARK));

describe('a batch by its cup', () => {
  it('is as the sheet has it without a word, or with a doubtful one', () => {
    expect(batchOf(seenAt(1.5, { doubt: 'lost' }), MARK)).toBe(AS_THE_SHEET);
    expect(batchOf(seenAt(0.6), MARK)).toBe(AS_THE_SHEET);
    expect(batchOf(seenAt(1.5), null)).toBe(AS_THE_SHEET);
    expect(batchOf(seenAt(1.5, { warm: true }), MARK).sd).toBeCloseTo(Math.hypot(0.08, 0.12), 9);
    expect(ofBatch({ value: 1, low: 0.8, high: 1.3 }, AS_THE_SHEET)).toEqual({
      value: 1,
      low: 0.8,
      high: 1.3,
    });
  });

  it('is as slow as what has passed without its heat, be it said yet or not', () => {
    const rises = batchOf(seenAt(1.2, { heat: { age: 0.48, passed: false } }), MARK);
    expect(rises).toMatchObject({ seen: false, sd: 0.08 });
    expect(rises.log).toBeCloseTo(Math.log(1.2), 9);
    // A cup that has not warmed at all.
    const cold = batchOf(seenAt(2, { heat: null, riseK: 1, age: 0.8 }), MARK);
    expect(cold.log).toBeCloseTo(Math.log(2), 9);
    expect(batchOf(seenAt(0.9, { heat: null, riseK: 1, age: 0.36 }), MARK)).toBe(AS_THE_SHEET);
  });

  it('tells nothing by being cool where the resin usually warms little', () => {
    expect(batchOf(seenAt(2, { heat: null, age: 0.8 }), { ...MARK, riseK: 9 })).toBe(AS_THE_SHEET);
  });

  it('of a resin that nothing is known of is slow once every resin looked at would have had its heat', () => {
    expect(batchOf(seenAt(1, { heat: null, age: 0.7 }), null)).toBe(AS_THE_SHEET);
    expect(batchOf(seenAt(1, { heat: null, age: 1.6 }), null).log).toBeCloseTo(Math.log(2), 9);
  });
});

describe('what it changes in the count', () => {
  it('a slow batch waits for all that was told, and its uncertainty together with the sheet’s', () => {
    const back = Math.hypot(Math.log(1 / 0.85), 2 * 0.08);
    expect(counted(1.5).low).toBeCloseTo(Math.exp(-back) / 1.5, 9);
    expect(counted(1.02).low).toBeCloseTo(Math.exp(-back) / 1.02, 9);
  });

  it('costs little where the bound by the sheet is the wider one', () => {
    expect(counted(1, 0.6).low / 0.6).toBeGreaterThan(0.97);
    expect(counted(1, 0.95).low / 0.95).toBeLessThan(0.95);
  });

  it('never credits a slower batch with more', () => {
    let last = Number.POSITIVE_INFINITY;
    for (let v = 0.71; v < 2.5; v += 0.01) {
      const { low } = counted(v);
      expect(low).toBeLessThanOrEqual(last + 1e-12);
      last = low;
    }
  });

  it('a quick batch is credited with some of it, and never with all', () => {
    expect(counted(0.72).low).toBeGreaterThan(0.85);
    expect(counted(0.75).low).toBeLessThan(0.85 / 0.75);
  });

  // A usual batch whose cup stood in a draught was told as 0.73 times the usual time, and was early by a tenth.
  it('a quick one is not waited for by more than a tenth less, however quick it is told', () => {
    const usual = counted(1).low;
    expect(counted(0.75).low).toBeLessThanOrEqual(1.106 * usual);
    expect(counted(0.72).low).toBe(counted(0.75).low);
  });

  it('keeps its bounds in order', () => {
    for (const v of [0.7, 0.9, 1, 1.1, 1.5, 2]) {
      const s = counted(v);
      expect(s.low).toBeLessThanOrEqual(s.value);
      expect(s.value).toBeLessThanOrEqual(s.high);
    }
  });

  it('nothing counted stays nothing', () => {
    expect(ofBatch({ value: 0, low: 0, high: 0 }, batchOf(seenAt(1.3), MARK))).toEqual({
      value: 0,
      low: 0,
      high: 0,
    });
  });
});
