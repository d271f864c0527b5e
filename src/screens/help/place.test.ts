import { describe, expect, it } from 'vitest';
import { type Box, helpPlace } from './place.ts';

const box = (left: number, top: number, width: number, height: number): Box => ({
  left,
  top,
  width,
  height,
  right: left + width,
  bottom: top + height,
});

/** The rectangle that is covered at the most. */
function covered(place: ReturnType<typeof helpPlace>, height: number) {
  const bottom = place.bottom === undefined ? (place.top ?? 0) + place.maxHeight : height - place.bottom;
  const top = place.top ?? bottom - place.maxHeight;
  return { left: place.left, right: place.left + place.width, top, bottom };
}

describe('where help lies', () => {
  it('on the live page inside the drawer, so that pressure, ladder and orders stay in sight', () => {
    for (const [drawer, size] of [
      [box(8, 240, 900, 380), { width: 1180, height: 820 }],
      [box(4, 300, 352, 200), { width: 360, height: 740 }],
      [box(380, 60, 352, 220), { width: 740, height: 360 }],
    ] as const) {
      const at = covered(
        helpPlace(box(drawer.right - 50, drawer.top + 10, 44, 44), drawer, size),
        size.height,
      );
      expect(at.left).toBeGreaterThanOrEqual(drawer.left);
      expect(at.right).toBeLessThanOrEqual(drawer.right);
      expect(at.top).toBeGreaterThanOrEqual(drawer.top);
      expect(at.bottom).toBeLessThanOrEqual(drawer.bottom);
    }
  });

  it('in the hand a sheet from below, as wide as the window', () => {
    for (const size of [
      { width: 360, height: 740 },
      { width: 740, height: 360 },
    ])
      expect(helpPlace(box(300, 100, 44, 44), null, size)).toEqual({
        left: 0,
        width: size.width,
        bottom: 0,
        maxHeight: 0.8 * size.height,
      });
  });

  it('else beside its key and inside the window, on the side that has room', () => {
    const size = { width: 1180, height: 820 };
    for (const key of [box(10, 10, 44, 44), box(1130, 400, 44, 44), box(600, 770, 44, 44)]) {
      const at = covered(helpPlace(key, null, size), size.height);
      expect(at.left).toBeGreaterThanOrEqual(0);
      expect(at.right).toBeLessThanOrEqual(size.width);
      expect(at.top).toBeGreaterThanOrEqual(0);
      expect(at.bottom).toBeLessThanOrEqual(size.height);
      // Never over the key that closes it again.
      expect(at.top >= key.bottom || at.bottom <= key.top).toBe(true);
    }
    expect(helpPlace(box(600, 770, 44, 44), null, size).bottom).toBeDefined();
  });
});
