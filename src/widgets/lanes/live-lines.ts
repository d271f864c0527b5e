import { METRIC } from '../../units/display.ts';
import { BUCKET_S, type LiveBuffer } from '../live-buffer.ts';
import { type Pace, type PlotData, toPlot } from '../trace-data.ts';
import { drawLine, linePath } from '../trace-lines.ts';
import type { Ink } from './canvas.ts';
import type { LanesBox } from './geometry.ts';
import type { Rect } from './shape.ts';
import { type TemperatureScale, temperatureY } from './temperature-lane.ts';

/** What the moving lines of the live trace are drawn of. */
export interface LinesView {
  /** Seconds across the lanes; the right edge is now. */
  readonly spanS: number;
  readonly nowS: number;
  readonly scale: TemperatureScale;
  /** Dash of each temperature channel, by its number. */
  readonly dashes: ReadonlyMap<number, { readonly dash: readonly number[]; readonly isFirst: boolean }>;
  readonly pace: Pace;
  readonly gaps: readonly { readonly fromS: number; readonly toS: number }[];
}

/** Newest px that are drawn again with each step, besides the longest hole that a line is drawn across. */
const FRESH_PX = 6;
/** Lines reach over the pressure lane by this, px. */
const OVER_PX = 4;
/** The line lies on a rim of the ground's colour, px wider than itself. */
const RIM_PX = 3;
const NO_PLACES: ReadonlyMap<number, string | null> = new Map();

/** Px of the canvas between the run's first second and the right edge. */
export const nowPx = (view: Pick<LinesView, 'nowS' | 'spanS'>, widthPx: number): number =>
  Math.floor((view.nowS / view.spanS) * widthPx + 1e-6);

export interface LiveLines {
  /**
   * Draws what changed since the last time.
   * @param box of the lanes; the canvas' corner lies at `corner` in them, px
   */
  draw(
    buffer: LiveBuffer,
    view: LinesView,
    box: LanesBox,
    corner: { readonly x: number; readonly y: number },
    endBar: number,
    small: boolean,
  ): void;
}

/**
 * The lines of the live trace on a canvas of their own. As time goes on the picture is shifted by whole px and only its newest
 * part is drawn: a run of twelve hours costs no more than one of a minute.
 */
export function createLiveLines(canvas: HTMLCanvasElement, ink: Ink, ratio: number): LiveLines {
  let before: readonly unknown[] = [];
  let at = 0;
  const data: PlotData = { x: [], y: [] };

  const part = (
    context: CanvasRenderingContext2D,
    buffer: LiveBuffer,
    view: LinesView,
    lanes: { readonly pressure: Rect; readonly temperature: Rect },
    endBar: number,
    small: boolean,
    fromPx: number,
  ) => {
    const { width, height } = canvas;
    const secondsPerPx = view.spanS / Math.max(1, width);
    const stride = Math.max(1, Math.ceil(secondsPerPx / BUCKET_S - 1e-6));
    const join = Math.max(view.pace.bar, view.pace.temperature);
    // Lines come from a point left of what is drawn: a whole hole of the slowest channel away.
    const fromS = (at - width + fromPx) * secondsPerPx - join - 2 * stride * BUCKET_S;
    const window = buffer.strided(Math.max(0, fromS), view.nowS + BUCKET_S, stride, NO_PLACES);
    toPlot(window, METRIC, view.pace, view.gaps, data);
    const x = (s: number) => Math.round(s / secondsPerPx) - at + width - 1;
    const last = data.x.length - 1;
    const shape = (wide: number, dash: readonly number[]) => ({
      wide: wide * ratio,
      dash: dash.map((d) => d * ratio),
      origin: at,
    });
    const clip = (top: number, high: number) => {
      context.save();
      context.beginPath();
      context.rect(fromPx, top * ratio, width - fromPx, high * ratio);
      context.clip();
    };

    context.clearRect(fromPx, 0, width - fromPx, height);
    const { temperature, pressure } = lanes;
    const c = temperatureY(temperature, view.scale);
    clip(temperature.y, temperature.h);
    for (const [k, series] of window.series.entries()) {
      const style = series.name === 'temperature' ? view.dashes.get(series.channel) : undefined;
      if (style === undefined) continue;
      const s = shape(style.isFirst ? 2.5 : 2, style.dash);
      const path = linePath(data.x, data.y[k] ?? [], 0, last, x, (v) => c(v) * ratio, s);
      drawLine(context, path, style.isFirst ? ink.colour.ink : ink.colour.ink3, s.wide);
    }
    context.restore();
    const y = (bar: number) => (pressure.y + pressure.h * (1 - Math.max(0, bar) / endBar)) * ratio;
    const wide = small ? Math.min(3, ink.traceWide) : ink.traceWide;
    const line = linePath(data.x, data.y[0] ?? [], 0, last, x, y, shape(wide, []));
    const rim = linePath(data.x, data.y[0] ?? [], 0, last, x, y, shape(wide + RIM_PX, []));
    clip(pressure.y - OVER_PX, pressure.h + 2 * OVER_PX);
    context.globalAlpha = 0.8;
    drawLine(context, rim, ink.colour.well, (wide + RIM_PX) * ratio);
    context.globalAlpha = 1;
    drawLine(context, line, ink.colour.ink, wide * ratio);
    context.restore();
  };

  return {
    draw(buffer, view, box, corner, endBar, small) {
      const { width, height } = canvas;
      if (width < 2) return;
      const next = nowPx(view, width);
      const made = [
        box,
        width,
        height,
        buffer,
        buffer.epoch,
        view.spanS,
        view.scale,
        view.dashes,
        view.pace,
        view.gaps,
        endBar,
        small,
      ];
      const step = next - at;
      const isSame =
        made.length === before.length &&
        made.every((v, i) => Object.is(v, before[i])) &&
        step >= 0 &&
        step < width / 2;
      if (isSame && step === 0) return;
      before = made;
      at = next;
      const context = canvas.getContext('2d');
      if (context === null) return;
      const lane = (r: Rect): Rect => ({ ...r, x: r.x - corner.x, y: r.y - corner.y });
      const lanes = { pressure: lane(box.pressure), temperature: lane(box.temperature) };
      context.setTransform(1, 0, 0, 1, 0, 0);
      if (!isSame) return part(context, buffer, view, lanes, endBar, small, 0);
      context.globalCompositeOperation = 'copy';
      context.drawImage(canvas, -step, 0);
      context.globalCompositeOperation = 'source-over';
      const join = Math.max(view.pace.bar, view.pace.temperature);
      const fresh = FRESH_PX * ratio + Math.ceil((join / view.spanS) * width);
      part(context, buffer, view, lanes, endBar, small, Math.max(0, Math.floor(width - step - fresh)));
    },
  };
}
