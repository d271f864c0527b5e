import { describe, expect, it } from 'vitest';
import { layoutOf, type Rect } from '../layout.ts';
import { blockLayout } from './sizes.ts';

const overlaps = (a: Rect, b: Rect): boolean =>
  a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
const PARTS = {
  verb: ['AIR OFF', 'OPEN VENT'],
  figures: [
    ['Over rated by', '1.20'],
    ['Rated', '1.80'],
  ] as const,
  sentence: [{ text: 'Urgent. Everyone clear: shut the supply valve, open the vent.', weight: 400 }] as const,
};
const SIZES = [
  [360, 740],
  [740, 360],
  [820, 1180],
  [1180, 820],
  [1024, 600],
  [1280, 800],
  [1366, 768],
  [1600, 1000],
  [800, 500],
] as const;

describe.each(SIZES)('an acknowledged alarm at %d x %d', (width, height) => {
  it.each(['urgent', 'high', 'was'] as const)('%s: nothing that is read lies under the key More', (form) => {
    const l = layoutOf(width, height, false);
    const at = blockLayout(l, form, { ...PARTS, more: true });
    for (const part of [at.verb, ...at.figures, at.sentence].filter((r) => r.w > 0 && r.h > 0))
      expect(overlaps(part, l.more), JSON.stringify({ part, more: l.more })).toBe(false);
  });
});
