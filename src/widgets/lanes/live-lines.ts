import { METRIC } from '../../units/display.ts';
import { BUCKET_S, type LiveBuffer } from '../live-buffer.ts';
import { type Pace, type PlotData, toPlot } from '../trace-data.ts';
import { drawLine, linePath, SECOND_WIDE } from '../trace-lines.ts';
import { fitCanvas, type Ink } from './canvas.ts';
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

/** Px across a tile of the picture, CSS px. */
const TILE_PX = 128;
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
  /** Takes a new size, CSS px: all of it is drawn anew. */
  fit(w: number, h: number): void;
  /** Px of the screen across. */
  readonly widthPx: number;
  /**
   * Draws what changed since the last time.
   * @param box of the lanes; the host's corner lies at `corner` in them, px
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

/** A stretch of the picture: px from `index` tiles on, counted from the run's first second. */
interface Tile {
  readonly canvas: HTMLCanvasElement;
  index: number;
}

/**
 * The lines of the live trace, in tiles that a strip holds. As time goes on the strip is moved by whole px of the screen and
 * only the newest part is drawn, in the newest tile: a run of twelve hours costs no more than one of a minute, and a wide
 * screen no more than a narrow one.
 * @param host clips the strip; what is in it is taken out
 */
export function createLiveLines(host: HTMLElement, ink: Ink, ratio: number): LiveLines {
  const strip = document.createElement('div');
  strip.className = 'lanes-strip';
  host.replaceChildren(strip);
  const tilePx = Math.round(TILE_PX * ratio);
  let tiles: Tile[] = [];
  let width = 0;
  let height = 0;
  let before: readonly unknown[] = [];
  let at = 0;
  const data: PlotData = { x: [], y: [] };

  /** Px from the host's left edge to the first px of a tile, now. */
  const leftOf = (index: number) => index * tilePx - at + width - 1;

  /** Gives each stretch that is in sight a tile: one that went out at the left comes in at the right. */
  const place = () => {
    const first = Math.floor((at - width + 1) / tilePx);
    for (let index = first; index < first + tiles.length; index++) {
      // A run's first seconds lie left of its begin.
      const tile = tiles[((index % tiles.length) + tiles.length) % tiles.length]!;
      if (tile.index !== index) {
        tile.index = index;
        tile.canvas.getContext('2d')?.clearRect(0, 0, tilePx, height);
      }
      tile.canvas.style.left = `${((index - first) * tilePx) / ratio}px`;
    }
    return first;
  };

  const part = (
    buffer: LiveBuffer,
    view: LinesView,
    lanes: { readonly pressure: Rect; readonly temperature: Rect },
    endBar: number,
    small: boolean,
    fromPx: number,
  ) => {
    const drawn = tiles.flatMap(({ canvas, index }) => {
      const left = leftOf(index);
      const [from, to] = [Math.max(left, fromPx), Math.min(left + tilePx, width)];
      const context = from < to ? canvas.getContext('2d') : null;
      return context === null ? [] : [{ context, left, from, to }];
    });
    // Nothing is made that is drawn nowhere.
    if (drawn.length === 0) return;
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
    const { temperature, pressure } = lanes;
    const c = temperatureY(temperature, view.scale);
    const temperatures = window.series.flatMap((series, k) => {
      const style = series.name === 'temperature' ? view.dashes.get(series.channel) : undefined;
      if (style === undefined) return [];
      const s = shape(style.isFirst ? 2.5 : 2, style.dash);
      const path = linePath(data.x, data.y[k] ?? [], 0, last, x, (v) => c(v) * ratio, s);
      return [{ path, colour: style.isFirst ? ink.colour.ink : ink.colour.ink3, wide: s.wide }];
    });
    const y = (bar: number) => (pressure.y + pressure.h * (1 - Math.max(0, bar) / endBar)) * ratio;
    const beside = window.series.findIndex((s) => s.name === 'second');
    const thin = shape(SECOND_WIDE, []);
    // What is over the scale goes along its end: the supply may, and moves no scale.
    const second =
      beside < 0
        ? null
        : linePath(data.x, data.y[beside] ?? [], 0, last, x, (v) => y(Math.min(v, endBar)), thin);
    const wide = small ? Math.min(3, ink.traceWide) : ink.traceWide;
    const line = linePath(data.x, data.y[0] ?? [], 0, last, x, y, shape(wide, []));
    const rim = linePath(data.x, data.y[0] ?? [], 0, last, x, y, shape(wide + RIM_PX, []));

    for (const { context, left, from, to } of drawn) {
      const clip = (top: number, high: number) => {
        context.save();
        context.beginPath();
        context.rect(from, top * ratio, to - from, high * ratio);
        context.clip();
      };
      context.setTransform(1, 0, 0, 1, -left, 0);
      context.clearRect(from, 0, left + tilePx - from, height);
      clip(temperature.y, temperature.h);
      for (const t of temperatures) drawLine(context, t.path, t.colour, t.wide);
      context.restore();
      clip(pressure.y - OVER_PX, pressure.h + 2 * OVER_PX);
      if (second !== null) drawLine(context, second, ink.colour.ink2, thin.wide);
      context.globalAlpha = 0.8;
      drawLine(context, rim, ink.colour.well, (wide + RIM_PX) * ratio);
      context.globalAlpha = 1;
      drawLine(context, line, ink.colour.ink, wide * ratio);
      context.restore();
    }
  };

  return {
    get widthPx() {
      return width;
    },
    fit(w, h) {
      width = Math.max(1, Math.round(w * ratio));
      height = Math.max(1, Math.round(h * ratio));
      tiles = Array.from({ length: Math.ceil(width / tilePx) + 1 }, () => {
        const canvas = document.createElement('canvas');
        fitCanvas(canvas, tilePx / ratio, height / ratio, ratio);
        canvas.className = 'lanes-layer';
        canvas.style.width = `${tilePx / ratio}px`;
        canvas.style.height = `${height / ratio}px`;
        return { canvas, index: Number.NaN };
      });
      strip.replaceChildren(...tiles.map((t) => t.canvas));
      before = [];
    },
    draw(buffer, view, box, corner, endBar, small) {
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
      const lane = (r: Rect): Rect => ({ ...r, x: r.x - corner.x, y: r.y - corner.y });
      const lanes = { pressure: lane(box.pressure), temperature: lane(box.temperature) };
      strip.style.transform = `translateX(${leftOf(place()) / ratio}px)`;
      const join = Math.max(view.pace.bar, view.pace.temperature);
      const fresh = FRESH_PX * ratio + Math.ceil((join / view.spanS) * width);
      part(buffer, view, lanes, endBar, small, isSame ? Math.max(0, Math.floor(width - step - fresh)) : 0);
    },
  };
}
