import { describe, expect, it } from 'vitest';
import { layoutOf } from '../layout.ts';
import { apart, WINDOWS } from '../testing/windows.ts';
import { blockLayout } from './sizes.ts';

const PARTS = {
  verb: ['AIR OFF', 'OPEN VENT'],
  figures: [
    ['Over rated by', '1.20'],
    ['Rated', '1.80'],
  ] as const,
  sentence: [{ text: 'Urgent. Everyone clear: shut the supply valve, open the vent.', weight: 400 }] as const,
};
describe.each([...WINDOWS, [1280, 800]] as const)('an acknowledged alarm at %d x %d', (width, height) => {
  it.each(['urgent', 'high', 'was'] as const)('%s: nothing that is read lies under the key More', (form) => {
    const l = layoutOf(width, height, false);
    const at = blockLayout(l, form, { ...PARTS, more: true });
    for (const part of [at.verb, ...at.figures, at.sentence].filter((r) => r.w > 0 && r.h > 0))
      expect(apart(part, l.more), JSON.stringify({ part, more: l.more })).toBe(true);
  });
});
