import { describe, expect, it } from 'vitest';
import { widthEm } from '../../../widgets/fit.ts';
import { layoutOf } from '../layout.ts';
import { apart, WINDOWS } from '../testing/windows.ts';
import { blockLayout } from './sizes.ts';

const PARTS = {
  practice: null,
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

it.each(WINDOWS)(
  'at %d x %d the lines of one that is over stand apart: letters reach below theirs',
  (...size) => {
    const verb = ['Ended: acknowledge it.', 'Was: Pressure reading lost'];
    const at = blockLayout(layoutOf(...size, false), 'was', { ...PARTS, verb, figures: [], more: false });
    expect(at.lines).toEqual(verb);
    // Of the face in use a line with all its letters is this high (B612, hhea table: ascender and descender), em.
    expect(at.verbLineEm).toBeGreaterThan(1.1);
    expect(at.lines.length * at.verbLineEm * at.verbPx).toBeLessThanOrEqual(at.verb.h + 1);
  },
);

describe('figures of an alarm that waits, on an upright tablet', () => {
  const l = layoutOf(820, 1180, false);
  const long = [
    ['Leak', '7.2 mbar/min'],
    ['Hold floor', '0.77'],
  ] as const;

  it('stand together: nothing is read between them', () => {
    const { figures, sentence } = blockLayout(l, 'urgent', { ...PARTS, more: false });
    const [first, second] = [figures[0]!, figures[1]!];
    expect(second.x).toBe(first.x);
    expect(second.y - first.y - first.h).toBeLessThanOrEqual(12);
    for (const figure of figures) expect(apart(figure, sentence)).toBe(true);
  });

  it('are as large as their longest value leaves them: none lies under a key', () => {
    const at = blockLayout(l, 'high', { ...PARTS, figures: long, more: false });
    const widest = Math.max(...long.map(([, value]) => widthEm(value) * at.figurePx));
    expect(widest).toBeLessThanOrEqual(at.figures[0]!.w);
    for (const figure of at.figures) for (const key of [l.ack, l.key]) expect(apart(figure, key)).toBe(true);
  });
});
