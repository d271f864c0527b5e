import { describe, expect, it } from 'vitest';
import { METRIC } from '../../units/display.ts';
import { MARK_STYLE } from './marks.ts';
import { practiceWord, pressureGround, pressureMarks, stretchesOf } from './pressure-lane.ts';
import type { PathShape, RectShape } from './shape.ts';
import { LIMITS, unitOf } from './testing/pictures.ts';

const BOX = { x: 20, y: 10, w: 400, h: 220 };
const span = (fromS: number, toS: number | null, ceilingBar: number | null = 1.74) => ({
  ...LIMITS,
  ceilingBar,
  fromS,
  toS,
});
const x = (s: number) => BOX.x + s * 4;

describe('the pressure lane', () => {
  it('draws limits where they were in force, cut to the view', () => {
    const stretches = stretchesOf([span(-50, 50), span(50, null, 1.6)], BOX, x);
    expect(stretches.map((s) => [s.x0, s.x1])).toEqual([
      [20, 220],
      [220, 420],
    ]);
    expect(stretchesOf([span(200, null)], BOX, x)).toEqual([]);
    const ceilings = pressureMarks(BOX, 2.2, stretches, false).filter(
      (s): s is PathShape => s.k === 'path' && s.pen?.dash === MARK_STYLE.ceiling.dash,
    );
    // And one comes down to the other in a step.
    const [before, now] = [expect.closeTo(56, 6), expect.closeTo(70, 6)];
    expect(ceilings.map((c) => c.points)).toEqual([
      [
        [220, before],
        [220, now],
      ],
      [
        [20, before],
        [220, before],
      ],
      [
        [220, now],
        [420, now],
      ],
    ]);
  });

  it('the rated line’s lower edge is its value, as the stop’s is', () => {
    const [stretch] = stretchesOf([span(0, null)], BOX, x);
    const rated = pressureMarks(BOX, 2.2, [stretch!], false).find(
      (s): s is PathShape => s.k === 'path' && s.pen?.wide === MARK_STYLE.rated.trace[0],
    )!;
    expect(rated.points[0]![1] + 2).toBeCloseTo(10 + 220 * (1 - 1.8 / 2.2), 6);
  });

  it('without a limit there is neither hatch nor band nor mark', () => {
    const ground = pressureGround(BOX, 2, unitOf(METRIC), [], [100]);
    expect(ground.filter((s): s is RectShape => s.k === 'rect')).toHaveLength(1);
    expect(pressureMarks(BOX, 2, [], false)).toEqual([]);
  });

  it('the word of practice stands under the floor, inside the lane', () => {
    const word = practiceWord(BOX, 150, 'PRACTICE', false);
    if (word.k !== 'text') throw new Error(word.k);
    expect(word.y - word.size * 0.76).toBeGreaterThan(150);
    expect(word.y).toBeLessThan(BOX.y + BOX.h);
  });
});
