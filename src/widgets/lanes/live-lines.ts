import { METRIC } from '../../units/display.ts';
import type { LiveBuffer } from '../live-buffer.ts';
import { BUCKET_S } from '../live-buffer.ts';
import { type Pace, type PlotData, toPlot } from '../trace-data.ts';
import { drawLine, linePath } from '../trace-lines.ts';
import type { Ink } from './canvas.ts';
import type { Rect } from './shape.ts';
import { type TemperatureScale, temperatureY } from './temperature-lane.ts';

/** What the moving lines of the live trace are drawn of. */
export interface LinesView {
  /** Seconds across the lanes; the right edge is now. */
  readonly spanS: number;
  readonly nowS: number;
  /** Both lanes, px from the canvas' own corner. */
  readonly pressure: Rect;
  readonly temperature: Rect;
  readonly endBar: number;
  readonly scale: TemperatureScale;
  /** Dash and tone of each temperature channel, by its number. */
  readonly dashes: ReadonlyMap<number, { readonly dash: readonly number[]; readonly isFirst: boolean }>;
  readonly pace: Pace;
  readonly gaps: readonly { readonly fromS: number; readonly toS: number }[];
  readonly small: boolean;
}

/** Newest px that are drawn again with each step, besides the longest hole that a line is drawn across. */
const FRESH_PX = 10;
const NO_PLACES: ReadonlyMap<number, string | null> = new Map();

/** Px of the canvas between the run's first second and the right edge. */
export const nowPx = (view: Pick<LinesView, 'nowS' | 'spanS'>, widthPx: number): number =>
  Math.floor((view.nowS / view.spanS) * widthPx + 1e-6);

export interface LiveLines {
  /** Draws what changed since the last time. @returns whether anything did */
  draw(buffer: LiveBuffer, view: LinesView, ink: Ink, ratio: number): boolean;
}

/**
 * The lines of the live trace on a canvas of their own. As time goes on the picture is shifted by whole px and only its newest
 * part is drawn: a run of twelve hours costs no more than one of a minute.
 */
export function createLiveLines(canvas: HTMLCanvasElement): LiveLines {
  let key = '';
  let at = 0;
  const data: PlotData = { x: [], y: [] };

  const part = (
    context: CanvasRenderingContext2D,
    buffer: LiveBuffer,
    view: LinesView,
    ink: Ink,
    ratio: number,
    fromPx: number,
  ) => {
    const width = canvas.width;
    const secondsPerPx = view.spanS / Math.max(1, width);
    const stride = Math.max(1, Math.ceil(secondsPerPx / BUCKET_S - 1e-6));
    const join = Math.max(view.pace.bar, view.pace.temperature);
    // Lines come from a point left of what is drawn: a whole hole of the slowest channel away.
    const fromS = (at - width + fromPx) * secondsPerPx - 2 * join - 2 * stride * BUCKET_S;
    const window = buffer.strided(Math.max(0, fromS), view.nowS + BUCKET_S, stride, NO_PLACES);
    toPlot(window, METRIC, view.pace, view.gaps, data);
    const x = (s: number) => Math.round(s / secondsPerPx) - at + width - 1;
    const last = data.x.length - 1;

    context.save();
    context.beginPath();
    context.rect(fromPx, 0, width - fromPx, canvas.height);
    context.clip();
    context.clearRect(fromPx, 0, width - fromPx, canvas.height);
    const lane = (box: Rect, overPx: number) => {
      context.beginPath();
      context.rect(box.x * ratio, (box.y - overPx) * ratio, box.w * ratio, (box.h + 2 * overPx) * ratio);
      context.clip();
    };
    const shape = (wide: number, dash: readonly number[]) => ({
      wide: wide * ratio,
      dash: dash.map((d) => d * ratio),
      origin: at,
    });
    context.save();
    lane(view.temperature, 0);
    const c = temperatureY(view.temperature, view.scale);
    for (const [k, series] of window.series.entries()) {
      const style = series.name === 'temperature' ? view.dashes.get(series.channel) : undefined;
      if (style === undefined) continue;
      const s = shape(style.isFirst ? 2.5 : 2, style.dash);
      const path = linePath(data.x, data.y[k] ?? [], 0, last, x, (v) => c(v) * ratio, s);
      drawLine(context, path, style.isFirst ? ink.colour.ink : ink.colour.ink3, s.wide);
    }
    context.restore();
    lane(view.pressure, 4);
    const { y: top, h } = view.pressure;
    const y = (bar: number) => (top + h * (1 - Math.max(0, bar) / view.endBar)) * ratio;
    const wide = view.small ? Math.min(3, ink.traceWide) : ink.traceWide;
    const line = linePath(data.x, data.y[0] ?? [], 0, last, x, y, shape(wide, []));
    const halo = linePath(data.x, data.y[0] ?? [], 0, last, x, y, shape(wide + 3, []));
    context.globalAlpha = 0.8;
    drawLine(context, halo, ink.colour.well, (wide + 3) * ratio);
    context.globalAlpha = 1;
    drawLine(context, line, ink.colour.ink, wide * ratio);
    context.restore();
  };

  return {
    draw(buffer, view, ink, ratio) {
      const context = canvas.getContext('2d');
      if (context === null || canvas.width < 2) return false;
      const next = nowPx(view, canvas.width);
      const nextKey = JSON.stringify([
        canvas.width,
        canvas.height,
        ratio,
        buffer.epoch,
        view.spanS,
        view.pressure,
        view.temperature,
        view.endBar,
        view.scale,
        view.pace,
        view.gaps,
        [...view.dashes],
        ink,
      ]);
      const step = next - at;
      const isSame = nextKey === key && step >= 0 && step < canvas.width / 2;
      if (isSame && step === 0) return false;
      context.setTransform(1, 0, 0, 1, 0, 0);
      at = next;
      if (isSame) {
        context.globalCompositeOperation = 'copy';
        context.drawImage(canvas, -step, 0);
        context.globalCompositeOperation = 'source-over';
        const join = Math.max(view.pace.bar, view.pace.temperature);
        const fresh = FRESH_PX + Math.ceil((join / view.spanS) * canvas.width);
        part(context, buffer, view, ink, ratio, Math.max(0, canvas.width - step - fresh));
      } else part(context, buffer, view, ink, ratio, 0);
      key = nextKey;
      return true;
    },
  };
}
