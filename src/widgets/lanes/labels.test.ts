import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { METRIC } from '../../units/display.ts';
import { lanesBox } from './geometry.ts';
import { type Label, labelPad, type PlacedLabel, placeLabels } from './labels.ts';
import { labelsOf } from './ladder-labels.ts';
import type { Measure } from './shape.ts';
import { LADDERS, LONG_WORDS, type PictureName, SIZES, unitOf, WORDS } from './testing/pictures.ts';

/** Wider than the face is, so that what fits here fits there: B612's mean advance is under 0.6 em, bold under 0.66. */
const measure: Measure = (text, size, bold) => text.length * size * (bold ? 0.66 : 0.6);

function expectClear(
  placed: readonly PlacedLabel[],
  room: { top: number; bottom: number; width: number; small: boolean },
) {
  for (const [i, l] of placed.entries()) {
    expect(l.top).toBeGreaterThanOrEqual(room.top - 1e-6);
    expect(l.top + l.height).toBeLessThanOrEqual(room.bottom + 1e-6);
    const next = placed[i + 1];
    if (next !== undefined) expect(l.top + l.height).toBeLessThanOrEqual(next.top + 1e-6);
    const width = room.width - 2 * labelPad(room.small) + 1e-6;
    const bold = l.isBold === true;
    if (l.oneLine)
      expect(
        measure(l.names[0]!, l.nameSize, bold) + l.nameSize * 0.4 + measure(l.value, l.valueSize, true),
      ).toBeLessThanOrEqual(width + 0.01);
    else {
      for (const name of l.names) expect(measure(name, l.nameSize, bold)).toBeLessThanOrEqual(width + 0.01);
      expect(measure(l.value, l.valueSize, true)).toBeLessThanOrEqual(width + 0.01);
    }
  }
}

const roomOf = (size: keyof typeof SIZES) => {
  const { column, labelsW, small } = lanesBox(SIZES[size]).ladder;
  return {
    top: column.y - (small ? 6 : 10),
    bottom: column.y + column.h + (small ? 3 : 6),
    width: labelsW,
    small,
  };
};

function place(name: PictureName, size: keyof typeof SIZES, pressure: 'bar' | 'kPa' | 'psi', words = WORDS) {
  const { column } = lanesBox(SIZES[size]).ladder;
  const labels = labelsOf(LADDERS[name], unitOf({ ...METRIC, pressure }), words);
  return placeLabels(
    labels.map((l) => ({ ...l, y: column.y + column.h * l.y })),
    roomOf(size),
    measure,
  );
}

describe('labels of the ladder', () => {
  it.each(Object.keys(LADDERS) as PictureName[])(
    'are never overprinted: %s, at every size, in every unit, with words a third longer',
    (name) => {
      for (const size of Object.keys(SIZES) as (keyof typeof SIZES)[])
        for (const unit of ['bar', 'kPa', 'psi'] as const)
          for (const words of [WORDS, LONG_WORDS]) expectClear(place(name, size, unit, words), roomOf(size));
    },
  );

  it('all limits within 0.3 bar keep their names and values, and in psi too', () => {
    for (const unit of ['bar', 'psi'] as const) {
      const placed = place('narrow', 'tablet', unit);
      expect(placed.map((l) => l.key)).toEqual(['rated', 'ceiling', 'ghost', 'working', 'floor', 'seat']);
      expect(placed.every((l) => !l.oneLine)).toBe(true);
    }
  });

  it('marks that read the same are one label, led to both', () => {
    const room = { top: 0, bottom: 300, width: 80, small: false };
    const label = (key: string, y: number, value: string, more: Partial<Label> = {}): Label => ({
      key,
      name: key,
      value,
      y,
      rank: 1,
      ...more,
    });
    const [both, other] = placeLabels(
      [label('rated', 50, '1.8'), label('ceiling', 53, '1.8'), label('floor', 200, '0.8')],
      room,
      measure,
    );
    expect(both).toMatchObject({ names: ['rated', 'ceiling'], marks: [50, 53], value: '1.8' });
    expect(other).toMatchObject({ names: ['floor'], marks: [200] });
    // An aim keeps its plate.
    const aimed = placeLabels([label('a', 50, '1.8', { isAim: true }), label('b', 53, '1.8')], room, measure);
    expect(aimed).toHaveLength(2);
  });

  it('with little room the ones that the moment needs stay', () => {
    const { column } = lanesBox(SIZES.low).ladder;
    const labels = labelsOf(LADDERS.lift, unitOf(METRIC), WORDS).map((l) => ({
      ...l,
      y: column.y + column.h * l.y,
    }));
    const placed = placeLabels(labels, { ...roomOf('low'), bottom: column.y + 150 }, measure);
    const keys = placed.map((l) => l.key);
    expect(keys).toContain('rated');
    expect(keys).toContain('order');
    expect(keys).not.toContain('seat');
  });

  it('stand as near to their marks as they can, in the order of the marks, whatever the marks', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 400, noNaN: true }), { minLength: 1, maxLength: 9 }),
        (ys) => {
          const room = { top: 0, bottom: 420, width: 90, small: false };
          const labels = ys.map(
            (y, i): Label => ({ key: `${i}`, name: 'Mark', value: `${i}.00`, y, rank: i }),
          );
          const placed = placeLabels(labels, room, measure);
          expectClear(placed, room);
          const marks = placed.map((l) => l.marks[0]!);
          expect(marks).toEqual([...marks].sort((a, b) => a - b));
          // One that touches no other and no edge stands at its mark.
          for (const [i, l] of placed.entries()) {
            const above = placed[i - 1];
            const below = placed[i + 1];
            const free =
              l.top > 0.01 &&
              l.top + l.height < 419.99 &&
              (above === undefined || above.top + above.height < l.top - 0.01) &&
              (below === undefined || l.top + l.height < below.top - 0.01);
            if (free) expect(l.top + l.height / 2).toBeCloseTo(l.marks[0]!, 6);
          }
        },
      ),
    );
  });
});
