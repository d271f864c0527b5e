import { describe, expect, it } from 'vitest';
import { lanesBox, pressureY } from './geometry.ts';
import type { Rect } from './shape.ts';
import { SIZES } from './testing/pictures.ts';

const apart = (a: Rect, b: Rect) =>
  a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y;

describe.each(Object.entries(SIZES))('the lanes of a %s', (_, size) => {
  const box = lanesBox(size);

  it('have zones that do not meet, inside the drawing', () => {
    const { trace, ladder, temperature } = box.zones;
    for (const [a, b] of [
      [trace, ladder],
      [trace, temperature],
      [ladder, temperature],
    ] as const)
      expect(apart(a, b)).toBe(true);
    for (const z of [trace, ladder, temperature]) {
      expect(z.x).toBeGreaterThanOrEqual(0);
      expect(z.y).toBeGreaterThanOrEqual(size.ribbonH);
      expect(z.x + z.w).toBeLessThanOrEqual(size.w);
      expect(z.y + z.h).toBeLessThanOrEqual(size.h);
      expect(Math.min(z.w, z.h)).toBeGreaterThan(40);
    }
  });

  it('have trace and ladder on one scale', () => {
    const { pressure, ladder } = box;
    expect([pressure.y, pressure.h]).toEqual([ladder.column.y, ladder.column.h]);
    expect(pressureY(pressure, 2.2)(1.1)).toBe(pressureY(ladder.column, 2.2)(1.1));
  });

  it('leave numerals and labels room on both sides of the column', () => {
    const { column, numeralsX, labelsX, labelsW } = box.ladder;
    expect(numeralsX - box.pressure.x - box.pressure.w).toBeGreaterThanOrEqual(size.small ? 19 : 30);
    expect(labelsX).toBeGreaterThan(column.x + column.w);
    expect(labelsX + labelsW).toBeLessThanOrEqual(size.w);
    expect(labelsW).toBeGreaterThanOrEqual(size.small ? 46 : 64);
  });
});

it('a value under zero is drawn at zero, one over the end at the end', () => {
  const y = pressureY({ y: 10, h: 100 }, 2);
  expect([-1, 0, 1, 2, 9].map(y)).toEqual([110, 110, 60, 10, 10]);
});
