import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createPeriod, periodAdd } from './period.ts';

describe('sample period', () => {
  it('starts from the rate that was asked for, or a tenth of a second', () => {
    expect(createPeriod(50).periodS).toBe(0.02);
    expect(createPeriod(null).periodS).toBe(0.1);
  });

  it('is the median of the last five spacings', () => {
    const p = createPeriod(10);
    for (const s of [1, 1, 1, 1, 1, 7, 1, 1]) periodAdd(p, s);
    expect(p.periodS).toBe(1);
    for (const s of [2, 2, 2]) periodAdd(p, s);
    expect(p.periodS).toBe(2);
  });

  it('is that whatever the spacings are, and in whatever order they come', () => {
    const spacing = fc.double({ min: 1e-6, max: 5, noNaN: true });
    // Few different values: what is equal must be counted once each.
    fc.assert(
      fc.property(fc.array(fc.oneof(spacing, fc.constantFrom(0.1, 0.2)), { minLength: 1 }), (spacings) => {
        const p = createPeriod(10);
        spacings.forEach((s, i) => {
          periodAdd(p, s);
          const last = spacings.slice(Math.max(0, i - 4), i + 1).sort((a, b) => a - b);
          expect(p.periodS).toBe(last[(last.length - 1) >> 1]);
        });
      }),
    );
  });

  it('takes no spacing that is not positive', () => {
    const p = createPeriod(10);
    for (const s of [0, -1, Number.NaN]) periodAdd(p, s);
    expect(p.periodS).toBe(0.1);
  });
});
