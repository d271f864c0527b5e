import type { ColumnPen } from './trace-columns.ts';

const DASHES: readonly (readonly number[])[] = [[], [6, 4], [2, 3], [10, 3, 2, 3]];

/**
 * Dashes that tell temperatures apart without colour: px drawn, px left out, and again; none for a line in one piece.
 * @param series its place among the lines of a trace; the first is the pressure, which has none
 */
export const dashOf = (series: number): readonly number[] =>
  series === 0 ? [] : (DASHES[(series - 1) % DASHES.length] ?? []);

/** A stretch steeper than this is drawn in one piece, px down for each px across, and by so many px at least. */
const STEEP = 2;
const STEEP_PX = 4;
/** No canvas reaches so far: beyond it no dashes are counted, px. And nothing shorter is gone on by. */
const FAR_PX = 20_000;
const LEAST_PX = 1e-6;
/** A dash as short as the line is wide is a dot: its ends alone, px. */
const DOT_PX = 0.25;

/**
 * Draws with `pen` in dashes that lie at fixed places across, so that a line that moves on takes its dashes along and a part
 * of it drawn anew meets the rest. A steep stretch is drawn in one piece: a jump never hides in a space.
 * The pen's marks reach half the line's width beyond their ends: dashes are taken shorter by as much.
 * @param dash px drawn, px left out, and again: an even number of lengths
 * @param wide of the line, px
 * @param origin px that x 0 lies right of the place where the first dash begins
 */
export function dashedPen(pen: ColumnPen, dash: readonly number[], wide: number, origin = 0): ColumnPen {
  const drawn = (i: number) => Math.max(DOT_PX, dash[i]! - wide);
  // What a dash gives up for its ends goes to the space after it: places stay where they are.
  const lengths = dash.map((d, i) => (i % 2 === 0 ? drawn(i) : d + dash[i - 1]! - drawn(i - 1)));
  const period = dash.reduce((sum, d) => sum + d, 0);
  let down = false;
  let drawing = false;
  let lastX = 0;
  let lastY = 0;

  /** At `x`: whether there is a dash, and how far it or the space goes on. */
  const at = (x: number): { readonly on: boolean; readonly left: number } => {
    let rest = (((x + origin) % period) + period) % period;
    for (const [i, length] of lengths.entries()) {
      if (rest < length) return { on: i % 2 === 0, left: length - rest };
      rest -= length;
    }
    return { on: true, left: lengths[0]! };
  };
  const put = (x: number, y: number) => pen.point(Math.round(x), Math.round(y));
  const turn = (on: boolean, x: number, y: number) => {
    if (on === drawing) return;
    put(x, y);
    if (!on) pen.lift();
    drawing = on;
  };

  return {
    point(x, y) {
      // A window without width has no places.
      if (!Number.isFinite(x) || !Number.isFinite(y)) return;
      if (!down) {
        drawing = false;
        turn(at(x).on, x, y);
      } else if (Math.abs(y - lastY) > STEEP * (x - lastX) + STEEP_PX) {
        turn(true, lastX, lastY);
        put(x, y);
        if (!at(x).on) {
          pen.lift();
          drawing = false;
        }
      } else {
        const slope = x > lastX ? (y - lastY) / (x - lastX) : 0;
        const till = Math.min(x, FAR_PX);
        for (let from = Math.max(lastX, -FAR_PX); from <= till; ) {
          const { on, left } = at(from);
          turn(on, from, lastY + slope * (from - lastX));
          // Where rounding leaves next to nothing of a dash, the sum would not move on for ever.
          from += Math.max(left, LEAST_PX);
        }
        if (drawing) put(x, y);
      }
      down = true;
      lastX = x;
      lastY = y;
    },
    lift() {
      if (drawing) pen.lift();
      down = false;
      drawing = false;
    },
    end: () => pen.end(),
  };
}
