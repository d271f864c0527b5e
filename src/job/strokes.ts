/**
 * A signature by hand: strokes of whole numbers on a pad of a fixed size, and nothing else. What is drawn of it is made
 * here; no markup of anybody's is ever taken in.
 */
import * as z from 'zod/mini';
import { int, MADE, rule } from './fields.ts';

/** The pad's own units; the longer side lies across. */
export const PAD = { width: 1000, height: 360 } as const;
export const MOST_STROKES = 60;
/** In all strokes: a long name by a quick pen at 120 Hz has a third of them. */
export const MOST_POINTS = 3000;
/** Less than this across is a dot or a slip, not a name: units of the pad. */
export const LEAST_ACROSS = 60;

/** x, y, x, y … of one stroke. */
const stroke = z.array(int(0, PAD.width)).check(
  z.minLength(2),
  z.maxLength(2 * MOST_POINTS),
  z.refine((s) => s.length % 2 === 0 && s.every((v, i) => i % 2 === 0 || v <= PAD.height), rule('order')),
);

export type Strokes = readonly (readonly number[])[];

const pointsIn = (strokes: Strokes): number => strokes.reduce((n, s) => n + s.length / 2, 0);

export const strokesSchema = z
  .array(stroke)
  .check(
    z.minLength(1),
    z.maxLength(MOST_STROKES),
    z.refine((all) => pointsIn(all) <= MOST_POINTS, rule('order')),
  )
  .register(MADE, { is: 'rows', most: MOST_STROKES });

/** Nothing that could be a name was drawn: no stroke at all, or nothing that goes across. */
export function isBlank(strokes: Strokes): boolean {
  const xs = strokes.flatMap((s) => s.filter((_, i) => i % 2 === 0));
  return xs.length < 2 || Math.max(...xs) - Math.min(...xs) < LEAST_ACROSS;
}

/** There is no room for one point more. */
export const isFull = (strokes: Strokes): boolean =>
  strokes.length >= MOST_STROKES || pointsIn(strokes) >= MOST_POINTS;

/** The strokes as one path of SVG; a dot is a line of no length, which a round end makes visible. */
export const strokesPath = (strokes: Strokes): string =>
  strokes
    .map((s) => {
      const [x = 0, y = 0, ...rest] = s;
      let d = `M${x} ${y}`;
      if (rest.length === 0) d += 'h0';
      for (let i = 0; i + 1 < rest.length; i += 2) d += `L${rest[i]} ${rest[i + 1]}`;
      return d;
    })
    .join('');
