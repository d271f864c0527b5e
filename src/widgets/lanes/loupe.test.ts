import { expect, it } from 'vitest';
import { METRIC } from '../../units/display.ts';
import { lanesBox } from './geometry.ts';
import { LOUPE_BAR, loupeBox, loupeScene } from './loupe.ts';
import type { Measure, PathShape, TextShape } from './shape.ts';
import { SIZES, unitOf, WORDS } from './testing/pictures.ts';

const measure: Measure = (text, size) => text.length * size * 0.58;
const points = Array.from({ length: 60 }, (_, i) => ({ s: i / 2 - 30, bar: i < 40 ? 0 : 0.05 }));

it.each(Object.entries(SIZES))(
  'the loupe stands inside the lane of a %s, and shows the foot enlarged',
  (_, size) => {
    const lane = lanesBox(size).pressure;
    const box = loupeBox(lane)!;
    expect(box.x).toBeGreaterThanOrEqual(lane.x);
    expect(box.x + box.w).toBeLessThanOrEqual(lane.x + lane.w);
    const shapes = loupeScene(
      box,
      { points, allowedBar: 0.02, bar: 0.05 },
      unitOf(METRIC),
      WORDS.loupe,
      size.small,
      measure,
    );
    const line = shapes.find((s): s is PathShape => s.k === 'path' && s.points.length > 2)!;
    const ys = line.points.map((p) => p[1]);
    // 0.05 of 0.10 bar is half of its height: more than twenty times what the scale gives it.
    expect(Math.max(...ys) - Math.min(...ys)).toBeGreaterThan(box.h * 0.15);
    const texts = shapes.filter((s): s is TextShape => s.k === 'text');
    expect(texts.map((t) => t.text)).toContain('0.05');
    for (const t of texts) {
      const wide = measure(t.text, t.size, t.bold === true);
      const x0 = t.anchor === 'end' ? t.x - wide : t.x;
      expect(x0).toBeGreaterThanOrEqual(box.x);
      expect(x0 + wide).toBeLessThanOrEqual(box.x + box.w);
    }
  },
);

it('a pressure over its scale says so; a lane without room has no loupe', () => {
  const box = { x: 0, y: 0, w: 200, h: 120 };
  const shapes = loupeScene(
    box,
    { points: [], allowedBar: null, bar: 0.3 },
    unitOf(METRIC),
    WORDS.loupe,
    false,
    measure,
  );
  expect(shapes.some((s) => s.k === 'text' && s.text === `>${LOUPE_BAR.toFixed(2)}`)).toBe(true);
  expect(loupeBox({ x: 0, y: 0, w: 80, h: 200 })).toBeNull();
});
