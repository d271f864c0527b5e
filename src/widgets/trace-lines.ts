import type uPlot from 'uplot';
import { columnPen } from './trace-columns.ts';
import { dashedPen } from './trace-dashes.ts';

/** From a value on a linear scale to canvas px. The same as the plot's own valToPos, worked out once for many values. */
export function pxOf(u: uPlot, scale: string): (value: number) => number {
  const { min, max } = u.scales[scale] ?? {};
  const { left, top, width, height } = u.bbox;
  if (min == null || max == null) return () => Number.NaN;
  const across = scale === 'x';
  const each = (across ? width : -height) / (max - min);
  const origin = (across ? left : top + height) - min * each;
  return (value) => origin + value * each;
}

/** How a line of the trace is drawn. */
export interface LineInk {
  /** Scale of its values. */
  readonly scale: string;
  readonly colour: string;
  /** CSS px. */
  readonly width: number;
  /** CSS px drawn, left out, and again; empty: in one piece. */
  readonly dash: readonly number[];
}

type Values = ArrayLike<number | null | undefined>;

/** The point that a line comes from, or goes on to, beyond the window's edge: none where a gap lies between. */
function outer(values: Values, from: number, step: 1 | -1): number {
  let i = from;
  while (values[i] === undefined && i >= 0 && i < values.length) i += step;
  return typeof values[i] === 'number' ? i : from;
}

/** The plot's series as columns (trace-columns.ts), one ink each. The caller has clipped to the plot. */
export function drawLines(
  u: uPlot,
  ctx: CanvasRenderingContext2D,
  ratio: number,
  inks: readonly LineInk[],
): void {
  const xs = u.data[0];
  const [first, last] = u.series[0]?.idxs ?? [0, -1];
  const x = pxOf(u, 'x');
  ctx.lineJoin = 'round';
  // The columns reach half the line's width beyond their ends, and so do the straight stretches.
  ctx.lineCap = 'square';
  for (const [k, ink] of inks.entries()) {
    const ys: Values | undefined = u.data[k + 1];
    if (ys === undefined || ys.length === 0) continue;
    const y = pxOf(u, ink.scale);
    const wide = ink.width * ratio;
    const [fill, stroke] = [new Path2D(), new Path2D()];
    const columns = columnPen(fill, stroke, wide);
    const dash = ink.dash.map((d) => d * ratio);
    const pen = dash.length === 0 ? columns : dashedPen(columns, dash, wide);
    const to = outer(ys, Math.min(last + 1, ys.length - 1), 1);
    for (let i = outer(ys, Math.max(first - 1, 0), -1); i <= to; i++) {
      const value = ys[i];
      if (value === null) pen.lift();
      else if (value !== undefined) pen.point(Math.round(x(xs[i]!)), Math.round(y(value)));
    }
    pen.end();
    ctx.fillStyle = ink.colour;
    ctx.strokeStyle = ink.colour;
    ctx.lineWidth = wide;
    ctx.fill(fill);
    ctx.stroke(stroke);
  }
}
