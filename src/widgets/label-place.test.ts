import { describe, expect, it } from 'vitest';
import { crossed, freest } from './label-place.ts';

const box = (left: number, top: number) => ({ left, top, width: 40, height: 14 });
const flat = (y: number) => ({ x: [0, 100, 200, 300], y: [y, y, y, y] });

describe('place of a label', () => {
  it('a line through the box counts by its length in it, one beside it does not', () => {
    expect(crossed(box(10, 100), [flat(107)])).toBeCloseTo(1, 9);
    expect(crossed(box(10, 100), [flat(120)])).toBe(0);
    expect(crossed(box(10, 100), [{ x: [0, 30, 60], y: [107, 107, null] }])).toBeCloseTo(0.5, 9);
    // Steep, between two points of the data that both lie outside.
    expect(crossed(box(10, 100), [{ x: [20, 21], y: [0, 300] }])).toBeGreaterThan(0);
  });

  it('the first free place is taken, or the one that is crossed least', () => {
    const rising = { x: [0, 100, 200, 300], y: [107, 107, 50, 50] };
    expect(freest([box(10, 100), box(250, 100)], [rising])).toEqual(box(250, 100));
    expect(freest([box(10, 100), box(250, 100)], [])).toEqual(box(10, 100));
    expect(freest([box(10, 100), box(250, 100)], [flat(107), rising])).toEqual(box(250, 100));
    expect(freest([], [rising])).toBeNull();
  });
});
