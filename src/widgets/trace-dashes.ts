import type { ColumnPen } from './trace-columns.ts';

const DASHES: readonly (readonly number[])[] = [[], [6, 4], [2, 3], [10, 3, 2, 3]];

/**
 * Dashes that tell temperatures apart without colour: px drawn, px left out, and again; none for a line in one piece.
 * @param series its place among the lines of a trace; the first is the pressure, which has none
 */
export const dashOf = (series: number): readonly number[] =>
  series === 0 ? [] : (DASHES[(series - 1) % DASHES.length] ?? []);

/**
 * Draws with `pen` in dashes, measured along the line; each part of a line that was lifted begins with the first dash.
 * The pen's marks reach half the line's width beyond their ends: dashes are taken shorter by as much.
 * @param dash px drawn, px left out, and again: an even number of lengths
 * @param wide of the line, px
 */
export function dashedPen(pen: ColumnPen, dash: readonly number[], wide: number): ColumnPen {
  const lengths = dash.map((d, i) => (i % 2 === 0 ? Math.max(0, d - wide) : d + wide));
  let down = false;
  let at = 0;
  /** Px until the dash or the space ends. */
  let left = 0;
  let lastX = 0;
  let lastY = 0;
  const drawing = () => at % 2 === 0;

  return {
    point(x, y) {
      if (!down) {
        at = 0;
        left = lengths[0]!;
        pen.point(x, y);
      } else {
        const length = Math.hypot(x - lastX, y - lastY);
        let gone = 0;
        while (length - gone > left) {
          gone += left;
          const share = gone / length;
          pen.point(Math.round(lastX + share * (x - lastX)), Math.round(lastY + share * (y - lastY)));
          if (drawing()) pen.lift();
          at = (at + 1) % lengths.length;
          left = lengths[at]!;
        }
        left -= length - gone;
        if (drawing()) pen.point(x, y);
      }
      down = true;
      lastX = x;
      lastY = y;
    },
    lift() {
      pen.lift();
      down = false;
    },
    end: () => pen.end(),
  };
}
