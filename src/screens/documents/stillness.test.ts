import { describe, expect, it } from 'vitest';
import { stillnessOf, type TimedReading, withReading } from './stillness.ts';

const course = (seconds: number, c: (s: number) => number, hz = 2): readonly TimedReading[] => {
  let kept: readonly TimedReading[] = [];
  for (let k = 0; k <= seconds * hz; k++) kept = withReading(kept, { tS: k / hz, c: c(k / hz) });
  return kept;
};

describe('a temperature that is to be compared', () => {
  it('stands still after thirty seconds of noise, not before', () => {
    const noise = (s: number) => 0.4 + 0.05 * Math.sin(7 * s);
    expect(stillnessOf(course(25, noise))).toMatchObject({ still: false });
    const now = stillnessOf(course(35, noise))!;
    expect(now.still).toBe(true);
    expect(now.c).toBeCloseTo(0.4, 1);
    expect(stillnessOf(course(35, noise, 0.5))!.still).toBe(true);
  });

  // By two means of ten seconds within 0.1 K a probe of a minute was taken half a kelvin off.
  it.each([5, 20, 60])(
    'that falls into ice by a time constant of %f s is taken within 0.3 K of it',
    (tau) => {
      const falls = (s: number) => 15 * Math.exp(-s / tau);
      let s = 0;
      while (!stillnessOf(course(s, falls))!.still) s += 5;
      expect(stillnessOf(course(s, falls))!.c).toBeLessThan(0.3);
      // And nobody stands there for ever: two minutes for a usual probe.
      expect(s).toBeLessThan(tau <= 20 ? 130 : 360);
    },
  );

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
