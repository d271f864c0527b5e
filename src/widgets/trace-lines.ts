import { columnPen } from './trace-columns.ts';
import { dashedPen } from './trace-dashes.ts';

/** Numbers of a line: null for a gap, undefined where it goes on without a point. */
export type Values = ArrayLike<number | null | undefined>;

/** Width of a second pressure's line, CSS px: thinner than any other, so that it is never taken for the one that the guard goes by. */
export const SECOND_WIDE = 1.5;

/** How a line of the trace is drawn; all in px of the canvas. */
export interface LineShape {
  readonly wide: number;
  /** Px drawn, left out, and again; empty: in one piece. */
  readonly dash: readonly number[];
  /** Px that x 0 lies right of the place where the first dash begins. */
  readonly origin: number;
}

/** A line as columns to be filled and straight stretches to be stroked. */
export interface LinePath {
  readonly fill: Path2D;
  readonly stroke: Path2D;
}

/** The point that a line comes from, or goes on to, beyond the window's edge: none where a gap lies between. */
function outer(values: Values, from: number, step: 1 | -1): number {
  let i = from;
  while (values[i] === undefined && i >= 0 && i < values.length) i += step;
  return typeof values[i] === 'number' ? i : from;
}

/**
 * The part of a line from the point `first` to the point `last`, with what leads to it on both sides, in px.
 * @param x from a number of `xs` to px; `y` likewise
 */
export function linePath(
  xs: ArrayLike<number>,
  ys: Values,
  first: number,
  last: number,
  x: (s: number) => number,
  y: (value: number) => number,
  shape: LineShape,
): LinePath {
  const path: LinePath = { fill: new Path2D(), stroke: new Path2D() };
  if (ys.length === 0) return path;
  const columns = columnPen(path.fill, path.stroke, shape.wide);
  const pen = shape.dash.length === 0 ? columns : dashedPen(columns, shape.dash, shape.wide, shape.origin);
  const to = outer(ys, Math.min(last + 1, ys.length - 1), 1);
  for (let i = outer(ys, Math.max(first - 1, 0), -1); i <= to; i++) {
    const value = ys[i];
    if (value === null) pen.lift();
    else if (value !== undefined) pen.point(Math.round(x(xs[i]!)), Math.round(y(value)));
  }
  pen.end();
  return path;
}

/** Draws a line that was laid out for this canvas. The caller has clipped. */
export function drawLine(
  context: CanvasRenderingContext2D,
  path: LinePath,
  colour: string,
  wide: number,
): void {
  context.lineJoin = 'round';
  // The columns reach half the line's width beyond their ends, and so do the straight stretches.
  context.lineCap = 'square';
  context.setLineDash([]);
  context.fillStyle = colour;
  context.strokeStyle = colour;
  context.lineWidth = wide;
  context.fill(path.fill);
  context.stroke(path.stroke);
}
