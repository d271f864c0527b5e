import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columnPen } from './trace-columns.ts';

type Point = readonly [x: number, y: number];

/** What is drawn of these points; null lifts the pen. */
function draw(points: readonly (Point | null)[], wide = 2) {
  const rects: [x: number, y: number, w: number, h: number][] = [];
  const lines: [from: Point, to: Point][] = [];
  let at: Point = [Number.NaN, Number.NaN];
  const pen = columnPen(
    { rect: (...r) => void rects.push(r) },
    {
      moveTo: (x, y) => {
        at = [x, y];
      },
      lineTo: (x, y) => {
        lines.push([at, [x, y]]);
        at = [x, y];
      },
    },
    wide,
  );
  for (const p of points) {
    if (p === null) pen.lift();
    else pen.point(...p);
  }
  pen.end();
  return { rects, lines };
}

describe('columns of a dense line', () => {
  it('readings of one pixel are one column from the lowest to the highest, as wide as the line', () => {
    const { rects, lines } = draw([
      [10, 50],
      [10, 40],
      [10, 45],
    ]);
    expect(rects).toEqual([[9, 39, 2, 12]]);
    expect(lines).toEqual([]);
  });

  it('a level line is one rectangle, however many readings it has', () => {
    expect(draw(Array.from({ length: 100 }, (_, x): Point => [x, 7])).rects).toEqual([[-1, 6, 101, 2]]);
  });

  it('a step is joined: the next column begins where the last reading was', () => {
    expect(
      draw([
        [10, 50],
        [11, 20],
        [12, 20],
      ]).rects,
    ).toEqual([
      [9, 49, 2, 2],
      [10, 19, 2, 32],
      [11, 19, 2, 2],
    ]);
  });

  it('points further apart than the line is wide are joined by a straight stretch', () => {
    const { lines } = draw([
      [10, 50],
      [20, 20],
      [30, 50],
    ]);
    expect(lines).toEqual([
      [
        [10, 50],
        [20, 20],
      ],
      [
        [20, 20],
        [30, 50],
      ],
    ]);
  });

  it('nothing is drawn across a gap, and a lonely reading is a dot', () => {
    const { rects, lines } = draw([[10, 50], null, [11, 20], null, [30, 20]]);
    expect(lines).toEqual([]);
    expect(rects).toEqual([
      [9, 49, 2, 2],
      [10, 19, 2, 2],
      [29, 19, 2, 2],
    ]);
  });

  it('covers each reading and every joint between neighbours, and reaches no higher or lower than they do', () => {
    const readings = fc.array(fc.tuple(fc.integer({ min: 0, max: 2 }), fc.integer({ min: 0, max: 40 })), {
      minLength: 2,
      maxLength: 60,
    });
    fc.assert(
      fc.property(readings, (steps) => {
        let x = 0;
        const points = steps.map(([dx, y]): Point => {
          x += dx;
          return [x, y];
        });
        const { rects, lines } = draw(points);
        expect(lines).toEqual([]);
        const covered = (px: number, py: number) =>
          rects.some(([l, t, w, h]) => px >= l && px <= l + w && py >= t && py <= t + h);
        points.forEach(([px, py], i) => {
          expect(covered(px, py)).toBe(true);
          // The joint runs level to the next column and then up or down in it.
          const next = points[i + 1];
          if (next === undefined) return;
          for (let at = px; at <= next[0]; at += 0.5) expect(covered(at, py)).toBe(true);
          for (let y = Math.min(py, next[1]); y <= Math.max(py, next[1]); y++)
            expect(covered(next[0], y)).toBe(true);
        });
        const ys = points.map((p) => p[1]);
        for (const [, t, , h] of rects) {
          expect(t).toBeGreaterThanOrEqual(Math.min(...ys) - 1);
          expect(t + h).toBeLessThanOrEqual(Math.max(...ys) + 1);
        }
      }),
    );
  });
});
