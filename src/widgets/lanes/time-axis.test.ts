import { expect, it } from 'vitest';
import type { Measure, TextShape } from './shape.ts';
import { axisLabels, ticksOf } from './time-axis.ts';

const BOX = { x: 10, w: 400 };
const measure: Measure = (text, size) => text.length * size * 0.58;

it('ticks are whole steps of a clock, as far apart as asked', () => {
  const { ticks, stepS } = ticksOf(-120, 0, BOX, 96);
  expect(stepS).toBe(30);
  expect(ticks.map((t) => t.s)).toEqual([-120, -90, -60, -30, 0]);
  expect(ticks[1]!.x).toBeCloseTo(110, 6);
  expect(ticksOf(0, 43_200, BOX, 96).stepS).toBe(10_800);
  expect(ticksOf(5, 5, BOX, 96).ticks).toEqual([]);
});

it('labels never run into each other, out of the box, or into the one at the end', () => {
  for (const least of [20, 40, 62, 96]) {
    const { ticks } = ticksOf(-3600, 0, BOX, least);
    const labels = axisLabels(
      ticks.map((t) => ({ ...t, text: `−${Math.round(-t.s / 60)} min` })),
      BOX,
      100,
      false,
      measure,
      'now',
    ) as TextShape[];
    const edges = labels
      .map((t) => {
        const wide = measure(t.text, t.size, t.bold === true);
        return t.anchor === 'end' ? [t.x - wide, t.x] : [t.x - wide / 2, t.x + wide / 2];
      })
      .sort((a, b) => a[0]! - b[0]!);
    expect(edges[0]![0]).toBeGreaterThanOrEqual(BOX.x - 2);
    for (let i = 1; i < edges.length; i++) expect(edges[i]![0]!).toBeGreaterThan(edges[i - 1]![1]!);
    expect(labels.some((t) => t.text === 'now')).toBe(true);
    expect(labels.length).toBeGreaterThan(2);
  }
});
