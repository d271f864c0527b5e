import { describe, expect, it } from 'vitest';
import type { CupSaid } from './cup-judge.ts';
import { AS_THE_SHEET, cupSpeed, speedOf } from './cup-speed.ts';

/** One standard deviation, of the logarithm. */
const SD = 0.08;
const told = (value: number): CupSaid => ({
  verdict: 'usual',
  doubt: null,
  times: { least: value * Math.exp(-2 * SD), value, most: value * Math.exp(2 * SD) },
});
const low = (value: number) => speedOf(told(value)).low;

describe('what a cup changes in the count', () => {
  it('nothing without a cup, a mark or a word', () => {
    expect(cupSpeed(null)).toEqual(AS_THE_SHEET);
    expect(speedOf({ verdict: 'reacts', doubt: null, times: null })).toEqual(AS_THE_SHEET);
    expect(speedOf({ verdict: 'no-reaction', doubt: null, times: null })).toEqual(AS_THE_SHEET);
  });

  it('a batch as usual counts as the sheet has it; a slow one waits for all of it and one deviation more', () => {
    expect(low(1)).toBe(1);
    expect(low(1.05)).toBe(1);
    expect(low(1.5)).toBeCloseTo(1 / (1.5 * Math.exp(SD)), 9);
    expect(low(2)).toBeCloseTo(1 / (2 * Math.exp(SD)), 9);
  });

  it('never credits a slower batch with more', () => {
    let last = Number.POSITIVE_INFINITY;
    for (let v = 0.7; v < 2.5; v += 0.01) {
      const now = low(v);
      expect(now).toBeLessThanOrEqual(last + 1e-12);
      last = now;
    }
  });

  it('a quick batch is credited with what is left of it after two deviations', () => {
    expect(low(0.9)).toBe(1);
    expect(low(0.75)).toBeGreaterThan(1.05);
    expect(low(0.75)).toBeLessThan(1 / 0.75);
  });

  it('while the heat is overdue, as slow as it surely has been so far', () => {
    const said: CupSaid = { verdict: 'slow', doubt: null, times: { least: 1.3, value: null, most: null } };
    expect(speedOf(said).low).toBeCloseTo(1 / 1.3, 9);
  });

  it('keeps its bounds in order', () => {
    for (const v of [0.7, 0.9, 1, 1.1, 1.5, 2]) {
      const s = speedOf(told(v));
      expect(s.low).toBeLessThanOrEqual(s.value);
      expect(s.value).toBeLessThanOrEqual(s.high);
    }
  });
});
