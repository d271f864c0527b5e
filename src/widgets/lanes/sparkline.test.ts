import { describe, expect, it } from 'vitest';
import type { PathShape, Shape } from './shape.ts';
import { type Course, courseOf, sparklineScene } from './sparkline.ts';

const LIMITS = { ratedBar: 1.8, ceilingBar: 1.74, floorBar: 0.77 };
const BOX = { x: 0, y: 0, w: 102, h: 46 };
const course = (bars: readonly number[]): Course => ({
  fromS: 0,
  toS: bars.length - 1,
  s: bars.map((_, i) => i),
  min: bars,
  max: bars,
});
const paths = (shapes: readonly Shape[]) => shapes.filter((s): s is PathShape => s.k === 'path');
const over = (shapes: readonly Shape[]) => paths(shapes).filter((p) => p.pen?.tone === 'urgent-thin');

describe('the small course', () => {
  it('ends at 1.1 times rated, or at a higher peak', () => {
    // 1.98 bar is the top of the box: 2 px under its edge.
    const [rated, calm] = paths(sparklineScene(course([0, 1.98, 0]), LIMITS, BOX));
    expect(rated!.points[0]![1]).toBeCloseTo(44 - 42 / 1.1, 6);
    expect(Math.min(...calm!.points.map((p) => p[1]))).toBeCloseTo(44, 6);
    const shapes = sparklineScene(course([0, 3.96, 0]), LIMITS, BOX);
    expect(Math.min(...over(shapes).flatMap((p) => p.points.map((q) => q[1])))).toBeCloseTo(2, 6);
    expect(paths(shapes)[0]!.points[0]![1]).toBeCloseTo(44 - 42 / 2.2, 6);
  });

  it('is red where it lies over rated, and joined to the rest', () => {
    const shapes = sparklineScene(course([0, 1.5, 1.9, 1.9, 1.5]), LIMITS, BOX);
    const [before, red, after] = paths(shapes).slice(1);
    expect(red!.pen!.tone).toBe('urgent-thin');
    expect(red!.points[0]).toEqual(before!.points.at(-1));
    expect(after!.points[0]).toEqual(red!.points.at(-1));
    expect(over(sparklineScene(course([0, 1.8, 0]), LIMITS, BOX))).toEqual([]);
  });

  it('is broken where readings are missing', () => {
    const nan = Number.NaN;
    expect(paths(sparklineScene(course([1, 1, nan, nan, nan, nan, 1, 1]), LIMITS, BOX))).toHaveLength(3);
    // A hole as short as the readings' own pace is none.
    expect(paths(sparklineScene(course([1, 1, nan, 1, 1, 1, 1, 1]), LIMITS, BOX))).toHaveLength(2);
  });

  it('without a limit is the line alone; without readings nothing', () => {
    expect(sparklineScene(course([0, 1]), null, BOX)).toHaveLength(1);
    expect(sparklineScene(null, LIMITS, BOX)).toEqual([]);
  });

  it('takes the pressure of a window and no temperature', () => {
    const column = { place: null, channel: 0, min: new Float32Array([1]), max: new Float32Array([2]) };
    const window = {
      fromS: 0,
      toS: 1,
      s: new Float64Array([0]),
      readings: 1,
      series: [{ name: 'temperature' as const, ...column }],
    };
    expect(courseOf(window)).toBeNull();
    expect(courseOf({ ...window, series: [{ name: 'bar' as const, ...column }] })?.max[0]).toBe(2);
  });
});
