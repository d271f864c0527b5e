import { expect, it } from 'vitest';
import type { TraceWindow } from '../engine/messages.ts';
import { isAtEnd, withinSpan } from './trace-span.ts';

const window = (highest: number): TraceWindow => ({
  fromS: 0,
  toS: 2,
  s: Float64Array.of(0, 1, 2),
  readings: 3,
  series: [
    {
      name: 'bar',
      place: null,
      channel: 0,
      min: Float32Array.of(3, 3.9, Number.NaN),
      max: Float32Array.of(3, highest, Number.NaN),
    },
    {
      name: 'temperature',
      place: 'air',
      channel: 1,
      min: Float32Array.of(10, 10, 10),
      max: Float32Array.of(10, 10, 10),
    },
  ],
});

it('goes along the end of the sensor, and leaves gaps and temperatures as they are', () => {
  const { window: seen, isPast } = withinSpan(window(4.12), 4);
  expect(isPast).toBe(true);
  expect([...seen.series[0]!.max]).toEqual([3, 4, Number.NaN]);
  expect([...seen.series[0]!.min]).toEqual([3, Math.fround(3.9), Number.NaN]);
  expect(seen.series[1]!.max[0]).toBe(10);
  expect(isAtEnd(seen.series[0]!.max[1]!, 4)).toBe(true);
  expect(isAtEnd(3.9, 4)).toBe(false);
});

it('is the same one where nothing stands over the end, or no end is known', () => {
  const own = window(3.95);
  expect(withinSpan(own, 4)).toEqual({ window: own, isPast: false });
  const far = window(9);
  expect(withinSpan(far, null).window).toBe(far);
  expect(isAtEnd(null, 4)).toBe(false);
  // A second pressure ends where its own sensor does, and says nothing of the first.
  const both = withinSpan({ ...own, series: [{ ...own.series[0]!, name: 'second' }, ...own.series] }, 4, 3.5);
  expect(both.isPast).toBe(false);
  expect(both.window.series.map((s) => s.max[1])).toEqual([3.5, Math.fround(3.95), 10]);
  // An end that a column of single precision cannot hold.
  expect(isAtEnd(withinSpan(window(9.99), 9.98675).window.series[0]!.max[1]!, 9.98675)).toBe(true);
});
