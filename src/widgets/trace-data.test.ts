import { describe, expect, it } from 'vitest';
import type { TraceWindow } from '../engine/messages.ts';
import { METRIC } from '../words/create-format.ts';
import { paceOf, toPlot, valueAt } from './trace-data.ts';

const window: TraceWindow = {
  fromS: 0,
  toS: 3,
  s: Float64Array.of(0, 1, 2),
  readings: 30,
  series: [
    {
      name: 'bar',
      place: null,
      channel: 0,
      min: Float32Array.of(1, Number.NaN, 0.5),
      max: Float32Array.of(1.5, Number.NaN, 0.75),
    },
    {
      name: 'temperature',
      place: 'pipe',
      channel: 1,
      min: Float32Array.of(10, 10, 10),
      max: Float32Array.of(10, 10, 10),
    },
  ],
};

describe('plot data', () => {
  it('gives two rising points a bucket and null for a gap', () => {
    const plot = toPlot(window, METRIC);
    expect(plot.x).toEqual([0, 0.5, 1, 1.5, 2, 2.5]);
    expect(plot.y[0]).toEqual([1, 1.5, null, null, 0.5, 0.75]);
  });

  it('joins holes of the sensor’s own pace and leaves longer ones open', () => {
    const slow = { bar: 2.5, temperature: 5 };
    expect(toPlot(window, METRIC, slow).y[0]).toEqual([1, 1.5, undefined, undefined, 0.5, 0.75]);
    expect(toPlot(window, METRIC, { bar: 1.9, temperature: 5 }).y[0]![2]).toBeNull();
    const gap = [{ fromS: 0.9, toS: 1.8 }];
    expect(toPlot(window, METRIC, slow, gap).y[0]![2]).toBeNull();
    expect(paceOf(1).bar).toBe(2.5);
    expect(paceOf(100, [{ quantity: 'temp', rateMilliHz: 4000 }]).temperature).toBe(0.625);
    expect(paceOf(1000).bar).toBe(0.25);
  });

  it('draws the scatter of a probe as one line, a true swing in full, and pressure always in full', () => {
    const at = (name: 'bar' | 'temperature', lo: number, hi: number) =>
      toPlot(
        {
          ...window,
          s: Float64Array.of(0),
          series: [{ name, place: null, channel: 0, min: Float32Array.of(lo), max: Float32Array.of(hi) }],
        },
        METRIC,
      ).y[0];
    expect(at('temperature', 10, 11)).toEqual([10.5, 10.5]);
    expect(at('temperature', 10, 14)).toEqual([10, 14]);
    expect(at('bar', 1, 1.25)).toEqual([1, 1.25]);
  });

  it('a calm probe is one point a bucket; a bucket after a gap is a short line of its own', () => {
    const calm = (lo: readonly number[]) =>
      toPlot(
        {
          ...window,
          s: Float64Array.from(lo, (_, i) => i),
          series: [
            {
              name: 'temperature',
              place: null,
              channel: 1,
              min: Float32Array.from(lo),
              max: Float32Array.from(lo, (v) => v + 1),
            },
          ],
        },
        METRIC,
        { bar: 0.35, temperature: 1.5 },
      ).y[0];
    expect(calm([10, 12, 14])).toEqual([10.5, 10.5, 12.5, undefined, 14.5, undefined]);
    expect(calm([10, Number.NaN, 14])).toEqual([10.5, 10.5, null, null, 14.5, 14.5]);
  });

  it('takes the arrays of an earlier picture over, and nothing of what stood in them', () => {
    const into = toPlot({ ...window, s: Float64Array.of(0, 1, 2, 3) }, { ...METRIC, pressure: 'psi' });
    const first = into.y[0];
    const again = toPlot(window, METRIC, paceOf(null), [], into);
    expect(again.y[0]).toBe(first);
    expect(again).toEqual(toPlot(window, METRIC));
    expect(toPlot({ ...window, series: [] }, METRIC, paceOf(null), [], into).y).toEqual([]);
  });

  it('converts to the units of the user', () => {
    const plot = toPlot(window, { ...METRIC, pressure: 'kPa', temperature: 'F' });
    expect(plot.y[0]![0]).toBeCloseTo(100);
    expect(plot.y[1]![0]).toBeCloseTo(50);
  });

  it('reads a value, and none in a gap', () => {
    expect(valueAt(window, 0, 0.4)).toBe(1.5);
    expect(valueAt(window, 0, 1.2)).toBeNull();
  });
});
