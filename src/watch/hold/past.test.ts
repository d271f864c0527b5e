import { describe, expect, it } from 'vitest';
import { createPast, FADES_S, fadeAt, pastAdd } from './past.ts';

describe('what a fill leaves behind', () => {
  it('fades with its time constants, and top-ups add their share', () => {
    const p = createPast(0);
    pastAdd(p, 0, 1);
    pastAdd(p, 600, 0.1);
    FADES_S.forEach((tau, k) => {
      expect(p.amount[k]! * fadeAt(p, k, 900)).toBeCloseTo(
        Math.exp(-900 / tau) + 0.1 * Math.exp(-300 / tau),
        12,
      );
    });
  });

  it('letting out takes back, but leaves doubt', () => {
    const p = createPast(0);
    pastAdd(p, 0, 1);
    pastAdd(p, 1, -1);
    expect(Math.abs(p.amount[2]!)).toBeLessThan(0.01);
    expect(p.size[2]!).toBeGreaterThan(1);
  });

  it('a hundred top-ups are not a hundred fills', () => {
    const p = createPast(0);
    for (let k = 0; k < 100; k++) pastAdd(p, k, 0.5);
    for (const size of p.size) expect(size).toBeLessThanOrEqual(1.2);
  });
});
