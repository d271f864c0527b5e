import { expect, it } from 'vitest';
import type { TraceWindow } from '../engine/messages.ts';
import { PRESSURE_CHANNEL, setupOf } from '../job/testing/givens.ts';
import { sketchOf } from './sketch.ts';

it('the course of a run in small goes along the end of its sensor, as every picture of it does', () => {
  const bars = Float32Array.of(1, 4.12, Number.NaN);
  const window: TraceWindow = {
    fromS: 0,
    toS: 2,
    s: Float64Array.of(0, 1, 2),
    series: [{ name: 'bar', place: null, channel: -1, min: bars, max: bars }],
    readings: 3,
  };
  const detail = { events: [], setups: [setupOf({ channels: [PRESSURE_CHANNEL] })], firstUs: 0, lastS: 2 };
  expect(sketchOf(detail, window, 4).course?.max).toEqual([1, 4, Number.NaN]);
  expect(sketchOf({ ...detail, setups: [] }, window, 4.12).course?.max).toEqual([1, 4.12, Number.NaN]);
});
