import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { forecastShown, scaleTop, spreadLabels, tickStep } from './ladder-layout.ts';

describe('ladder scale', () => {
  it('keeps the rated mark under the top with air above it', () => {
    expect(scaleTop(1.5, 0)).toBeGreaterThan(1.5 * 1.1);
    expect(scaleTop(2.5, 0)).toBeGreaterThan(2.5 * 1.1);
  });

  it('grows with a reading past rated, so that the pointer never leaves the scale', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 8, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        (rated, bar) => {
          expect(scaleTop(rated, bar)).toBeGreaterThan(bar);
          expect(scaleTop(rated, bar)).toBeGreaterThan(rated);
        },
      ),
    );
  });

  it('does not creep with each reading', () => {
    expect(scaleTop(1.5, 1.0)).toBe(scaleTop(1.5, 1.4));
  });

  it('gives ticks on 1, 2, 5 steps', () => {
    expect(tickStep(1.75, 500)).toBe(0.5);
    expect(tickStep(175, 500)).toBe(50);
    expect(tickStep(25, 300)).toBe(10);
  });
});

describe('ladder labels', () => {
  it('leaves labels with room where they are', () => {
    const at = spreadLabels(
      [
        { key: 'a', y: 40 },
        { key: 'b', y: 100 },
      ],
      20,
      300,
    );
    expect(at.get('a')).toBe(40);
    expect(at.get('b')).toBe(100);
  });

  it('parts labels that would overlap, keeps their order and stays inside', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 400, noNaN: true }), { minLength: 1, maxLength: 5 }),
        (ys) => {
          const labels = ys.map((y, i) => ({ key: String(i), y }));
          const at = spreadLabels(labels, 22, 400);
          const order = [...labels].sort((a, b) => a.y - b.y).map((l) => at.get(l.key)!);
          for (let i = 1; i < order.length; i++)
            expect(order[i]! - order[i - 1]!).toBeGreaterThanOrEqual(22 - 1e-9);
          expect(order[order.length - 1]!).toBeLessThanOrEqual(400);
        },
      ),
    );
  });
});

describe('forecast on the scale', () => {
  it('is in sight near the rated pressure, and moves the marks no further than half as much again', () => {
    expect(forecastShown(1.5, 1.9)).toBe(1.9);
    expect(forecastShown(1.5, 9.3)).toBe(2.25);
    expect(forecastShown(null, 9.3)).toBe(9.3);
    // Working 1.2 and rated 1.5 stay apart by a label's height on a low ladder of 250 px.
    const top = scaleTop(1.5, forecastShown(1.5, 9.3));
    expect((250 * (1.5 - 1.2)) / top).toBeGreaterThan(25);
  });
});
