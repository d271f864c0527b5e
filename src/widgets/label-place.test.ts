import { describe, expect, it } from 'vitest';
import { type Course, crossed, freest } from './label-place.ts';

const box = (left: number, top: number) => ({ left, top, width: 40, height: 14 });
const course = (x: readonly number[], y: readonly (number | null | undefined)[]): Course => ({
  n: x.length,
  x: (i) => x[i]!,
  y: (i) => y[i],
});
const flat = (y: number) => course([0, 100, 200, 300], [y, y, y, y]);

describe('place of a label', () => {
  it('a line through the box counts by its length in it, one beside it does not', () => {
    expect(crossed(box(10, 100), [flat(107)])).toBeCloseTo(1, 9);
    expect(crossed(box(10, 100), [flat(120)])).toBe(0);
    expect(crossed(box(10, 100), [course([0, 30, 60], [107, 107, null])])).toBeCloseTo(0.5, 9);
    // It goes on over points that are left out, and not over a gap.
    expect(crossed(box(50, 100), [course([0, 30, 60, 200], [107, undefined, undefined, 107])])).toBeCloseTo(
      1,
      9,
    );
    expect(crossed(box(50, 100), [course([0, 30, 60, 200], [107, null, undefined, 107])])).toBe(0);
    // Steep, between two points of the data that both lie outside.
    expect(crossed(box(10, 100), [course([20, 21], [0, 300])])).toBeGreaterThan(0);
  });

  it('only the points about the box are asked for', () => {
    const asked: number[] = [];
    const far = { n: 10_000, x: (i: number) => i, y: (i: number) => asked.push(i) && 107 };
    expect(crossed(box(5000, 100), [far])).toBeCloseTo(1, 0);
    expect(Math.min(...asked)).toBeGreaterThan(4990);
    expect(Math.max(...asked)).toBeLessThan(5050);
  });

  it('the first free place is taken, or the one that is crossed least', () => {
    const rising = course([0, 100, 200, 300], [107, 107, 50, 50]);
    expect(freest([box(10, 100), box(250, 100)], [rising])).toEqual(box(250, 100));
    expect(freest([box(10, 100), box(250, 100)], [])).toEqual(box(10, 100));
    expect(freest([box(10, 100), box(250, 100)], [flat(107), rising])).toEqual(box(250, 100));
    expect(freest([], [rising])).toBeNull();
  });
});
