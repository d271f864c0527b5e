import { describe, expect, it } from 'vitest';
import { withSection } from './sections.ts';
import { betaI, clopperPearson, quantile } from './stats.ts';

describe('statistics of the score', () => {
  it('incomplete beta: closed forms I_x(1, b) = 1 − (1 − x)^b and I_x(a, 1) = x^a', () => {
    expect(betaI(0.3, 1, 5)).toBeCloseTo(1 - 0.7 ** 5, 12);
    expect(betaI(0.3, 4, 1)).toBeCloseTo(0.3 ** 4, 12);
    expect(betaI(0.5, 7, 7)).toBeCloseTo(0.5, 12);
  });

  it('Clopper-Pearson: none of n has the closed form 1 − (α/2)^(1/n); the bounds enclose the tail sums', () => {
    expect(clopperPearson(0, 100).high).toBeCloseTo(1 - 0.025 ** (1 / 100), 10);
    expect(clopperPearson(0, 100).low).toBe(0);
    expect(clopperPearson(10, 10).high).toBe(1);
    // By definition: at the upper bound the chance of so few is 2.5 %, summed here term by term.
    const { high } = clopperPearson(2, 50);
    let tail = 0;
    for (let k = 0, choose = 1; k <= 2; k++) {
      tail += choose * high ** k * (1 - high) ** (50 - k);
      choose = (choose * (50 - k)) / (k + 1);
    }
    expect(tail).toBeCloseTo(0.025, 9);
  });

  it('quantiles take what was seen', () => {
    expect(quantile([3, 1, 2], 0)).toBe(1);
    expect(quantile([3, 1, 2], 0.5)).toBe(2);
    expect(quantile([], 0.5)).toBeNaN();
  });
});

describe('validation page', () => {
  const section = (markdown: string) => ({ name: 'x', title: 'X', markdown, figures: {} });
  it('puts a section in once and then replaces it, and leaves the others alone', () => {
    const other = withSection(null, { name: 'y', title: 'Y', markdown: 'keep', figures: {} });
    const once = withSection(other, section('first'));
    const twice = withSection(once, section('second'));
    expect(twice).toContain('keep');
    expect(twice).toContain('second');
    expect(twice).not.toContain('first');
    expect(withSection(twice, section('second'))).toBe(twice);
  });
});
