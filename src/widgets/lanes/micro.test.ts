import { describe, expect, it } from 'vitest';
import { microScene } from './micro.ts';
import type { RectShape, Shape } from './shape.ts';

const LIMITS = { ratedBar: 1.8, ceilingBar: 1.74, floorBar: 0.77 };
const BOX = { x: 0, y: 0, w: 24, h: 46 };
const filled = (shapes: readonly Shape[], tone: string) =>
  shapes.filter((s): s is RectShape => s.k === 'rect' && s.fill === tone);

describe('the small ladder', () => {
  it('stands at its value, on the scale that ends at 1.22 times rated', () => {
    const [body] = filled(microScene({ bar: 1.098, state: 'known', limits: LIMITS }, BOX), 'ink');
    // Half of 2.196: the body's upper edge lies in the middle.
    expect(body!.y).toBeCloseTo(23, 6);
    expect(body!.y + body!.h).toBeCloseTo(45, 6);
  });

  it('is red over rated and nowhere else', () => {
    const under = microScene({ bar: 1.8, state: 'known', limits: LIMITS }, BOX);
    expect(filled(under, 'urgent')).toEqual([]);
    const [over] = filled(microScene({ bar: 2.1, state: 'known', limits: LIMITS }, BOX), 'urgent');
    const [body, stop] = filled(microScene({ bar: 2.1, state: 'known', limits: LIMITS }, BOX), 'ink');
    expect(over!.y + over!.h).toBeCloseTo(body!.y, 6);
    expect(over!.w).toBeGreaterThan(body!.w);
    // Through the stop: a value a hair over rated is seen above it too.
    const [hair] = filled(microScene({ bar: 1.81, state: 'known', limits: LIMITS }, BOX), 'urgent');
    expect(hair!.y).toBeLessThan(stop!.y);
  });

  it('has dots from end to end for a value that is not known, and no body', () => {
    const shapes = microScene({ bar: 1.4, state: 'lost', limits: LIMITS }, BOX);
    const dots = shapes.find((s): s is RectShape => s.k === 'rect' && s.texture === 'dots');
    expect(dots).toMatchObject({ y: 0, h: 46 });
    // The stop alone is of ink.
    expect(filled(shapes, 'ink')).toHaveLength(1);
  });

  it('without a limit has neither stop nor band', () => {
    const shapes = microScene({ bar: 0.5, state: 'known', limits: null }, BOX);
    expect(filled(shapes, 'ink')).toHaveLength(1);
    expect(filled(shapes, 'band2')).toEqual([]);
  });

  it('lies from left to right', () => {
    const shapes = microScene(
      { bar: 1.098, state: 'known', limits: LIMITS },
      { x: 0, y: 0, w: 138, h: 30 },
      true,
    );
    const [body, stop] = filled(shapes, 'ink');
    expect(body!.x + body!.w).toBeCloseTo(69, 6);
    expect(stop).toMatchObject({ y: 0, h: 30 });
    expect(stop!.x).toBeCloseTo(1 + 136 / 1.22, 6);
  });

  it('keeps inside its box', () => {
    for (const bar of [0, 1.5, 2.1, 7])
      for (const s of microScene({ bar, state: 'known', limits: LIMITS, settleBar: 9 }, BOX)) {
        if (s.k !== 'rect') throw new Error(s.k);
        expect(s.x).toBeGreaterThanOrEqual(0);
        expect(s.y).toBeGreaterThanOrEqual(0);
        expect(s.x + s.w).toBeLessThanOrEqual(24 + 1e-9);
        expect(s.y + s.h).toBeLessThanOrEqual(46 + 1e-9);
      }
  });
});
