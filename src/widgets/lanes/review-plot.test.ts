import { expect, it } from 'vitest';
import { METRIC } from '../../units/display.ts';
import { type PlotScene, plotBox, plotOver, plotUnder } from './review-plot.ts';
import type { PathShape, Shape } from './shape.ts';
import { LIMITS, unitOf } from './testing/pictures.ts';

const measure = (text: string, size: number) => text.length * size * 0.55;
const MARKS = { rated: 'Rated', ceiling: 'Ceiling', working: 'Working', floor: 'Hold floor', seat: 'Seat' };

function drawn(sensorEndBar: number | null, limited = true, endBar = 4.3) {
  const box = plotBox(600, 300, false);
  const scene: PlotScene = {
    box,
    endBar,
    scale: null,
    decor: {
      limits: limited ? [{ ...LIMITS, fromS: 0, toS: null }] : [],
      gaps: [],
      marks: [],
      practice: false,
      sensorEndBar,
      secondEndBar: null,
    },
    ticks: [],
    x: (s) => box.pressure.x + s,
    pressureUnit: unitOf(METRIC),
    temperatureUnit: { unit: '°C', factor: 1, shift: 0, text: String, axis: String },
    words: { marks: MARKS, sensorEnd: 'End', practice: 'PRACTICE' },
  };
  return { box, under: plotUnder(scene, measure), over: plotOver(scene, [], measure) };
}
const names = (shapes: readonly Shape[]) => shapes.flatMap((s) => (s.k === 'text' ? [s.text] : []));
const endLine = (shapes: readonly Shape[]) =>
  shapes.find((s): s is PathShape => s.k === 'path' && s.pen?.dash?.join() === '1,3');

it('the end of a sensor is a line with a name where the trace goes along it, and nothing otherwise', () => {
  const { box, under, over } = drawn(4);
  const { y, h } = box.pressure;
  expect(endLine(under)!.points[0]![1]).toBeCloseTo(y + h * (1 - 4 / 4.3), 6);
  expect(names(over).some((n) => n.startsWith('End 4'))).toBe(true);
  expect(names(over).some((n) => n.startsWith('Rated'))).toBe(true);
  expect(endLine(drawn(null).under)).toBeUndefined();
  expect(names(drawn(null).over).some((n) => n.startsWith('End'))).toBe(false);
});

it('is named where no limit was set, too, and never outside the scale', () => {
  expect(names(drawn(4, false).over)).toHaveLength(1);
  expect(endLine(drawn(4, true, 2.2).under)).toBeUndefined();
});
