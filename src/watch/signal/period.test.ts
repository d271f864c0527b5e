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

  it('takes no spacing that is not positive', () => {
    const p = createPeriod(10);
    for (const s of [0, -1, Number.NaN]) periodAdd(p, s);
    expect(p.periodS).toBe(0.1);
  });
});
