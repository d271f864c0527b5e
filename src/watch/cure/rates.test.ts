import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Coldest, Estimate } from './coldest.ts';
import { gapRate, K_DRY, K_GROUND, K_RISE, K_WET, NO_RATE, rateAt } from './rates.ts';
import { cureMinutes, fitSheet } from './sheet.ts';

const FIT = fitSheet({
  name: 'R',
  criterion: 'let-down',
  points: [
    { c: 10, minutes: 120 },
    { c: 20, minutes: 60 },
  ],
  lowestC: 5,
  potLifeMin: null,
  exotherm: 'unknown',
  expectedRiseK: null,
})!;

const seen = (
  dry: Estimate | null,
  more: Partial<Pick<Coldest, 'wet' | 'floor' | 'source'>> = {},
): Coldest => ({
  c: null,
  dry,
  wet: null,
  floor: null,
  water: 'none',
  ground: { c: 9, sd: 0.5 },
  source: 'pipe',
  ...more,
});
const low = (one: Estimate, k: number) => 1 / cureMinutes(FIT, one.c, k, one.sd);

describe('progress a minute', () => {
  const dry = { c: 15, sd: 1 };

  it('waits for temperature and fit together', () => {
    expect(rateAt(FIT, seen(dry)).low).toBeCloseTo(low(dry, K_DRY), 12);
    expect(rateAt(FIT, seen(dry, { source: 'ground' })).low).toBeCloseTo(low(dry, K_GROUND), 12);
  });

  it('takes the worst case where water may seep in, whatever else is known', () => {
    const wet = { c: 9, sd: 0.5 };
    const floor = { c: 14, sd: 0.3 };
    expect(rateAt(FIT, seen(dry, { wet, floor })).low).toBeCloseTo(low(wet, K_WET), 12);
  });

  it('takes the rise over the ground where that says more, never more than the middle', () => {
    const unsure = { c: 15, sd: 2.5 };
    const floor = { c: 14, sd: 0.6 };
    expect(rateAt(FIT, seen(unsure, { floor })).low).toBeCloseTo(low(floor, K_RISE), 12);
    const hot = { c: 30, sd: 0.1 };
    const one = rateAt(FIT, seen(dry, { floor: hot }));
    expect(one.low).toBe(one.value);
  });

  it('earns nothing where the low end is under the sheet’s lowest, or nothing is known', () => {
    const one = rateAt(FIT, seen({ c: 6, sd: 1 }));
    expect(one.low).toBe(0);
    expect(one.value).toBeGreaterThan(0);
    expect(rateAt(FIT, seen({ c: 4.9, sd: 0 })).value).toBe(0);
    expect(rateAt(FIT, seen(null))).toEqual(NO_RATE);
  });

  it('has its bounds in order, and less with less certainty', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (c, sd, more) => {
          const one = rateAt(FIT, seen({ c, sd }));
          expect(one.low).toBeLessThanOrEqual(one.value);
          expect(one.value).toBeLessThanOrEqual(one.high);
          expect(rateAt(FIT, seen({ c, sd: sd + more })).low).toBeLessThanOrEqual(one.low);
        },
      ),
    );
  });

  it('over a gap counts at the ground’s low end', () => {
    const gap = gapRate(FIT, { c: 12, uC: 2 });
    expect(gap.value).toBeCloseTo(1 / cureMinutes(FIT, 10, 0), 12);
    expect(gap.high).toBe(gap.value);
    expect(gap.low).toBeLessThan(gap.value);
    // Not known: 4 °C, which is under this sheet's lowest.
    expect(gapRate(FIT, null)).toEqual(NO_RATE);
  });
});
