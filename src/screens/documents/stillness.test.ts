import { describe, expect, it } from 'vitest';
import { stillnessOf, type TimedReading, withReading } from './stillness.ts';

const course = (seconds: number, c: (s: number) => number, hz = 2): readonly TimedReading[] => {
  let kept: readonly TimedReading[] = [];
  for (let k = 0; k <= seconds * hz; k++) kept = withReading(kept, { tS: k / hz, c: c(k / hz) });
  return kept;
};

describe('a temperature that is to be compared', () => {
  it('stands still after twenty seconds of noise, not before', () => {
    const noise = (s: number) => 0.4 + 0.05 * Math.sin(7 * s);
    expect(stillnessOf(course(15, noise))).toMatchObject({ still: false });
    const now = stillnessOf(course(25, noise))!;
    expect(now.still).toBe(true);
    expect(now.c).toBeCloseTo(0.4, 1);
    expect(stillnessOf(course(25, noise, 0.5))!.still).toBe(true);
  });

  it('does not while the probe still cools, or where one reading leaps', () => {
    expect(stillnessOf(course(60, (s) => 15 * Math.exp(-s / 20)))!.still).toBe(false);
    expect(stillnessOf(course(40, (s) => (s === 35 ? 3 : 0.4)))!.still).toBe(false);
  });

  it('begins anew where time steps back, and is nothing without a reading', () => {
    expect(
      withReading(
        course(30, () => 1),
        { tS: 1, c: 2 },
      ),
    ).toEqual([{ tS: 1, c: 2 }]);
    expect(stillnessOf([])).toBeNull();
  });
});
