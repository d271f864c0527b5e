import { describe, expect, it } from 'vitest';
import { type CureScene, cureBar, cureScene, cureX } from './cure.ts';
import type { Measure, PathShape, RectShape, Shape, TextShape } from './shape.ts';

const SIZES = [
  { w: 1164, h: 61, small: false },
  { w: 804, h: 74, small: false },
  { w: 348, h: 42, small: true },
  { w: 371, h: 36, small: true },
];
const measure: Measure = (text, size) => text.length * size * 0.58;
const scene = (part: Partial<CureScene> = {}): CureScene => ({
  counts: { low: 0.36, high: 0.42 },
  name: 'Cure line',
  under: 'coldest 10.0 °C',
  end: 'at 02:13',
  sentence: 'cautious count 36 % to 42 %',
  cup: null,
  ...part,
});
const filled = (shapes: readonly Shape[], tone: string) =>
  shapes.filter((s): s is RectShape => s.k === 'rect' && s.fill === tone);

describe.each(SIZES)('the cure line at $w × $h', (size) => {
  const bar = cureBar(size);

  it('is black to the cautious count and grey to the upper one', () => {
    const shapes = cureScene(size, scene(), measure);
    const [black] = filled(shapes, 'ink');
    const [grey] = filled(shapes, 'band2');
    expect(black!.x + black!.w).toBeCloseTo(cureX(bar)(0.36), 6);
    expect([grey!.x, grey!.x + grey!.w]).toEqual([cureX(bar)(0.36), expect.closeTo(cureX(bar)(0.42), 6)]);
  });

  it('has one geometry in every stage: the flag stands at 100 %, counted or not', () => {
    const flag = (s: CureScene) =>
      cureScene(size, s, measure).find((p): p is PathShape => p.k === 'path' && p.closed === true)!.points[0];
    const empty = scene({ counts: null, end: 'no resin', sentence: 'none on the job sheet', under: '' });
    expect(flag(scene())).toEqual(flag(empty));
    expect(flag(scene())![0]).toBeCloseTo(bar.x + bar.w / 1.12, 6);
    expect(filled(cureScene(size, empty, measure), 'ink')).toEqual([]);
  });

  it('counts past its end stop at its end', () => {
    const [black] = filled(cureScene(size, scene({ counts: { low: 2, high: 3 } }), measure), 'ink');
    expect(black!.x + black!.w).toBeCloseTo(bar.x + bar.w, 6);
  });

  it('texts stay in the box and do not meet, with words a third longer too', () => {
    const longer = (s: string) => s + s.slice(0, Math.ceil(s.length / 3));
    for (const s of [
      scene(),
      scene({ cup: { text: 'CUP SLOW 1.5 ×', asks: true } }),
      scene({ cup: { text: longer('cup cannot tell'), asks: false } }),
      scene({ end: 'CHECK SAMPLE', sentence: 'data-sheet time, cautious count' }),
      scene({
        end: longer('end not known'),
        sentence: longer('cautious count 36 % to 42 %'),
        under: longer('coldest 10.0 °C'),
        name: longer('Cure line'),
      }),
    ]) {
      const edges = cureScene(size, s, measure)
        .filter((t): t is TextShape => t.k === 'text')
        .map((t) => {
          const wide = measure(t.text, t.size, t.bold === true);
          const x0 = t.anchor === 'end' ? t.x - wide : t.x;
          return { x0, x1: x0 + wide, y0: t.y - t.size * 0.76, y1: t.y };
        });
      for (const [i, a] of edges.entries()) {
        expect(a.x0).toBeGreaterThanOrEqual(0);
        expect(a.x1).toBeLessThanOrEqual(size.w);
        expect(a.y0).toBeGreaterThanOrEqual(0);
        expect(a.y1).toBeLessThanOrEqual(size.h);
        for (const b of edges.slice(i + 1))
          expect(a.x1 <= b.x0 + 0.01 || b.x1 <= a.x0 + 0.01 || a.y1 <= b.y0 || b.y1 <= a.y0).toBe(true);
      }
    }
  });
});
