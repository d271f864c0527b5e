import { expect, it } from 'vitest';
import { TYPICAL_PER_K, warmthBarPerK } from './sensor-warmth.ts';

it('a kelvin moves a reading by its share of the span', () => {
  // 0.04 % of 10 bar (the class of a common industrial transducer) is 4 mbar a kelvin.
  expect(warmthBarPerK({ rangeLo: 0, rangeHi: 10, perKelvin: 4e-4 })).toBeCloseTo(0.004, 12);
  expect(warmthBarPerK({ rangeLo: -1, rangeHi: 3 })).toBeCloseTo(4 * TYPICAL_PER_K, 12);
  expect(warmthBarPerK({ rangeLo: 0, rangeHi: 4, perKelvin: 0 })).toBe(0);
});

it('a sensor of which nothing is known is no better than a wide one', () => {
  expect(warmthBarPerK(null)).toBe(warmthBarPerK({ rangeLo: 0, rangeHi: 10 }));
});
