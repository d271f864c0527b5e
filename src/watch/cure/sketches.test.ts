import { describe, expect, it } from 'vitest';
import { fitSheet } from './sheet.ts';
import { degreeAt, END, type Sketch, sketchesOf, sketchRate } from './sketches.ts';

const FIT = fitSheet({
  name: 'R',
  criterion: 'hardness',
  points: [
    { c: 10, minutes: 120 },
    { c: 20, minutes: 60 },
  ],
  lowestC: 5,
  potLifeMin: null,
  exotherm: 'medium',
  expectedRiseK: null,
})!;

describe('sketches', () => {
  it('take the sheet’s time at a constant temperature', () => {
    const sketch = sketchesOf('medium', FIT)[0]!;
    for (const c of [8, 20]) {
      const minutes = Math.exp(FIT.logMin + FIT.slope * (1 / (c + 273.15) - FIT.centre));
      let a = 0;
      const dt = (minutes * 60) / 20_000;
      for (let i = 0; i < 20_000; i++) {
        const half = a + 0.5 * dt * sketchRate(FIT, sketch, a, c);
        a += dt * sketchRate(FIT, sketch, half, c);
      }
      expect(a).toBeCloseTo(END, 4);
    }
  });

  it('know how far they are by the progress', () => {
    expect(degreeAt(0)).toBeCloseTo(0, 6);
    expect(degreeAt(1)).toBeCloseTo(END, 6);
    expect(degreeAt(0.5)).toBeLessThan(degreeAt(0.6));
  });

  it('know more heat from less, and span quick and hot to slow and cool', () => {
    const [likely, hot, cool, none] = sketchesOf('medium', FIT) as [Sketch, Sketch, Sketch, Sketch];
    expect(hot.heatJm3).toBeGreaterThan(likely.heatJm3);
    expect(hot.speed).toBeGreaterThan(1);
    expect(cool.heatJm3).toBeLessThan(likely.heatJm3);
    expect(hot.speed * cool.speed).toBeCloseTo(1, 12);
    expect(none.heatJm3).toBe(0);
    const wide = sketchesOf('unknown', FIT);
    for (const known of ['low', 'medium', 'high'] as const) {
      expect(wide[1]!.heatJm3).toBeGreaterThanOrEqual(sketchesOf(known, FIT)[1]!.heatJm3);
      expect(wide[2]!.heatJm3).toBeLessThanOrEqual(sketchesOf(known, FIT)[2]!.heatJm3);
    }
  });
});
