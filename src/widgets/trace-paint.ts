import uPlot from 'uplot';
import type { Priority } from '../watch/codes.ts';
import { UI } from '../words/ui.ts';
import { type Course, freest } from './label-place.ts';
import { drawLines, type LineInk, pxOf } from './trace-lines.ts';

/** Limits in force over a stretch of the trace, bar; null: not set. toS null: to the end. */
export interface LimitSpan {
  readonly fromS: number;
  readonly toS: number | null;
  readonly ratedBar: number | null;
  readonly ceilingBar: number | null;
  readonly workingBar: number | null;
  readonly floorBar: number | null;
}

/** What is painted with the lines: limits and band, gaps, marks. */
export interface Decor {
  readonly limits: readonly LimitSpan[];
  readonly gaps: readonly { readonly fromS: number; readonly toS: number }[];
  readonly marks: readonly { readonly atS: number; readonly priority: Priority | null }[];
  readonly practice: boolean;
}

export interface Ink {
  readonly ink: string;
  readonly ink2: string;
  readonly line: string;
  readonly band: string;
  readonly edge: string;
  readonly hatch: string;
  readonly trace: string;
  readonly trace2: string;
  readonly alarm: Record<Priority, string>;
  readonly paper: string;
}

/** The theme's colours as the canvas needs them. */
export function inkOf(element: Element): Ink {
  const style = getComputedStyle(element);
  const get = (name: string) => style.getPropertyValue(name).trim() || '#777';
  return {
    ink: get('--ink'),
    ink2: get('--ink2'),
    line: get('--grid'),
    band: get('--band'),
    edge: get('--edge'),
    hatch: get('--hatch'),
    trace: get('--ink'),
    trace2: get('--ink3'),
    paper: get('--plate'),
    alarm: { urgent: get('--urgent'), high: get('--high'), low: get('--low') },
  };
}

function clipped(u: uPlot, paint: (ctx: CanvasRenderingContext2D, ratio: number) => void): void {
  const { left, top, width, height } = u.bbox;
  u.ctx.save();
  u.ctx.beginPath();
  u.ctx.rect(left, top, width, height);
  u.ctx.clip();
  paint(u.ctx, uPlot.pxRatio);
  u.ctx.restore();
}

function hatch(
  ctx: CanvasRenderingContext2D,
  x: number,
  y: number,
  w: number,
  h: number,
  step: number,
): void {
  ctx.save();
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.rect(x, y, w, h);
  ctx.clip();
  ctx.beginPath();
  for (let k = -h; k < w; k += step) {
    ctx.moveTo(x + k, y + h);
    ctx.lineTo(x + k + h, y);
  }
  ctx.stroke();
  ctx.restore();
}

/** Band, uncertainty, gaps and the practice mark: behind the lines. */
export function drawUnder(u: uPlot, decor: Decor, ink: Ink, unit: (bar: number) => number): void {
  clipped(u, (ctx, ratio) => {
    const { left, top, width, height } = u.bbox;
    const right = left + width;
    const x = pxOf(u, 'x');
    const inUnit = pxOf(u, 'p');
    const y = (bar: number) => inUnit(unit(bar));
    for (const l of decor.limits) {
      const x0 = Math.max(left, x(l.fromS));
      const x1 = Math.min(right, l.toS === null ? right : x(l.toS));
      if (x1 <= x0) continue;
      if (l.floorBar !== null && l.ceilingBar !== null) {
        ctx.fillStyle = ink.band;
        ctx.fillRect(x0, y(l.ceilingBar), x1 - x0, y(l.floorBar) - y(l.ceilingBar));
      }
      if (l.ratedBar !== null && l.ceilingBar !== null && l.ratedBar > l.ceilingBar) {
        ctx.strokeStyle = ink.hatch;
        ctx.lineWidth = ratio;
        hatch(ctx, x0, y(l.ratedBar), x1 - x0, y(l.ceilingBar) - y(l.ratedBar), 7 * ratio);
      }
    }
    ctx.strokeStyle = ink.edge;
    ctx.lineWidth = ratio;
    for (const g of decor.gaps) {
      const x0 = x(g.fromS);
      const w = Math.max(2 * ratio, x(g.toS) - x0);
      if (x0 + w < left || x0 > right) continue;
      hatch(ctx, x0, top, w, height, 10 * ratio);
    }
    if (decor.practice) {
      ctx.globalAlpha = 0.09;
      ctx.fillStyle = ink.ink;
      ctx.font = `700 ${Math.round(Math.min(height * 0.4, width * 0.13))}px system-ui, sans-serif`;
      ctx.textAlign = 'center';
      ctx.textBaseline = 'middle';
      ctx.fillText(UI.practiceWord, left + width / 2, top + height / 2);
    }
  });
}

/** The lines of the trace as they lie on the canvas. */
function coursesOf(u: uPlot, lines: readonly LineInk[]): Course[] {
  const s = u.data[0];
  const x = pxOf(u, 'x');
  return lines.flatMap(({ scale }, i) => {
    const values = u.data[i + 1];
    if (values === undefined) return [];
    const y = pxOf(u, scale);
    return [
      {
        n: s.length,
        x: (k: number) => x(s[k]!),
        y: (k: number) => {
          const v = values[k];
          return typeof v === 'number' ? y(v) : v;
        },
      },
    ];
  });
}

/** The lines of the trace; over them the limit lines with their names, and marks of alarms. */
export function drawOver(
  u: uPlot,
  lines: readonly LineInk[],
  decor: Decor,
  ink: Ink,
  unit: (bar: number) => number,
): void {
  clipped(u, (ctx, ratio) => {
    drawLines(u, ctx, ratio, lines);
    ctx.lineCap = 'butt';
    const { left, top, width, height } = u.bbox;
    const right = left + width;
    const x = pxOf(u, 'x');
    const inUnit = pxOf(u, 'p');
    const y = (bar: number) => inUnit(unit(bar));
    const rule = (bar: number | null, x0: number, x1: number, dash: number[], wide: number) => {
      if (bar === null) return;
      ctx.setLineDash(dash.map((d) => d * ratio));
      ctx.lineWidth = wide * ratio;
      ctx.beginPath();
      ctx.moveTo(x0, y(bar));
      ctx.lineTo(x1, y(bar));
      ctx.stroke();
    };
    for (const l of decor.limits) {
      const x0 = Math.max(left, x(l.fromS));
      const x1 = Math.min(right, l.toS === null ? right : x(l.toS));
      if (x1 <= x0) continue;
      ctx.strokeStyle = ink.ink;
      rule(l.ratedBar, x0, x1, [], 2);
      rule(l.ceilingBar, x0, x1, [8, 4], 1.5);
      ctx.strokeStyle = ink.ink2;
      rule(l.workingBar, x0, x1, [2, 4], 1.25);
      rule(l.floorBar, x0, x1, [8, 3, 2, 3], 1.25);
    }
    ctx.setLineDash([]);
    const last = decor.limits[decor.limits.length - 1];
    if (last !== undefined) {
      ctx.font = `${12 * ratio}px system-ui, sans-serif`;
      ctx.fillStyle = ink.ink2;
      ctx.textAlign = 'left';
      ctx.textBaseline = 'bottom';
      ctx.lineJoin = 'round';
      ctx.lineWidth = 3 * ratio;
      ctx.strokeStyle = ink.paper;
      const courses = coursesOf(u, lines);
      const high = 14 * ratio;
      const name = (bar: number | null, text: string) => {
        if (bar === null) return;
        const wide = ctx.measureText(text).width;
        const rows = [y(bar) - 2 * ratio - high, y(bar) + 3 * ratio];
        const columns = [left + 6 * ratio, right - 6 * ratio - wide, left + (width - wide) / 2];
        const places = rows.flatMap((top) =>
          columns.map((x) => ({ left: x, top, width: wide, height: high })),
        );
        const at = freest(places, courses);
        if (at === null) return;
        // The paper's colour round the letters keeps them readable where a line must be crossed.
        ctx.strokeText(text, at.left, at.top + high);
        ctx.fillText(text, at.left, at.top + high);
      };
      name(last.ratedBar, UI.rated);
      if (
        last.ceilingBar !== null &&
        last.ratedBar !== null &&
        y(last.ceilingBar) - y(last.ratedBar) > 14 * ratio
      )
        name(last.ceilingBar, UI.ceiling);
      name(last.floorBar, UI.floor);
    }
    for (const m of decor.marks) {
      const at = x(m.atS);
      if (at < left || at > right) continue;
      ctx.fillStyle = m.priority === null ? ink.ink2 : ink.alarm[m.priority];
      ctx.strokeStyle = ctx.fillStyle;
      ctx.lineWidth = ratio;
      ctx.beginPath();
      ctx.moveTo(at, top);
      ctx.lineTo(at, top + height);
      ctx.globalAlpha = 0.55;
      ctx.stroke();
      ctx.globalAlpha = 1;
      shape(ctx, m.priority, at, top + 10 * ratio, 8 * ratio);
    }
  });
}

/** The unit of each axis, over its numbers. */
export function drawUnits(u: uPlot, ink: Ink, left: string, right: string): void {
  const { ctx, bbox } = u;
  ctx.save();
  ctx.font = `${13 * uPlot.pxRatio}px system-ui, sans-serif`;
  ctx.fillStyle = ink.ink2;
  ctx.textBaseline = 'bottom';
  const y = bbox.top - 5 * uPlot.pxRatio;
  ctx.textAlign = 'right';
  ctx.fillText(left, bbox.left - 6 * uPlot.pxRatio, y);
  ctx.textAlign = 'left';
  ctx.fillText(right, bbox.left + bbox.width + 6 * uPlot.pxRatio, y);
  ctx.restore();
}

/** The alarm's own shape, so that colour is never the only means: square cut, triangle, disc; a bar for events. */
function shape(
  ctx: CanvasRenderingContext2D,
  priority: Priority | null,
  x: number,
  y: number,
  r: number,
): void {
  ctx.beginPath();
  if (priority === 'urgent') {
    const c = r * 0.42;
    ctx.moveTo(x - c, y - r);
    ctx.lineTo(x + c, y - r);
    ctx.lineTo(x + r, y - c);
    ctx.lineTo(x + r, y + c);
    ctx.lineTo(x + c, y + r);
    ctx.lineTo(x - c, y + r);
    ctx.lineTo(x - r, y + c);
    ctx.lineTo(x - r, y - c);
  } else if (priority === 'high') {
    ctx.moveTo(x, y - r);
    ctx.lineTo(x + r, y + r);
    ctx.lineTo(x - r, y + r);
  } else if (priority === 'low') ctx.arc(x, y, r * 0.9, 0, 2 * Math.PI);
  else ctx.rect(x - r * 0.3, y - r, r * 0.6, 2 * r);
  ctx.closePath();
  ctx.fill();
}
