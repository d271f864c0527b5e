import { expect, it } from 'vitest';
import { dialGaugeU, USUAL_GAUGE_U_BAR } from './dial-gauge.ts';

// GUM 4.3.7: a rectangular distribution of half width a has the standard uncertainty a/√3; k = 2.
it('class and span make the uncertainty', () => {
  // Class 1.6 of 4 bar: limits 0.064 bar, read to 0.02 bar.
  expect(USUAL_GAUGE_U_BAR).toBeCloseTo((2 * Math.sqrt(0.064 ** 2 + 0.02 ** 2)) / Math.sqrt(3), 3);
  expect(dialGaugeU({ spanBar: 10, class: 2.5 })).toBeCloseTo(0.294, 3);
  expect(dialGaugeU({ spanBar: 2.5, class: 0.6 })).toBeLessThan(USUAL_GAUGE_U_BAR / 2);
});
