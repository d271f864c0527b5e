import type { Priority } from '../../watch/codes.ts';
import type { LiveBuffer } from '../live-buffer.ts';
import { alarmMark } from './alarm-mark.ts';
import { createPainter, fitCanvas, type Ink, measureWith, type Painter } from './canvas.ts';
import type { LanesBox, LanesSize } from './geometry.ts';
import { pressureY } from './geometry.ts';
import type { LadderWords } from './ladder-labels.ts';
import { createLadderPainter } from './ladder-painter.ts';
import type { LadderState } from './ladder-state.ts';
import { createLiveLines, type LinesView, nowPx } from './live-lines.ts';
import { type Loupe, type LoupeWords, loupeBox, loupeScene } from './loupe.ts';
import type { PressureUnit, ReadingUnit } from './numerals.ts';
import {
  type LimitSpan,
  type LimitStretch,
  practiceWord,
  pressureGround,
  pressureMarks,
  stretchesOf,
} from './pressure-lane.ts';
import { ground, type Measure, type Rect, type Shape } from './shape.ts';
import {
  type TemperatureNow,
  temperatureGround,
  temperatureNumerals,
  temperaturesNow,
} from './temperature-lane.ts';
import { axisLabels, type Tick } from './time-axis.ts';

/** All that the live lanes show of a moment. */
export interface LanesPicture {
  readonly size: LanesSize;
  readonly box: LanesBox;
  readonly ladder: LadderState;
  readonly lines: LinesView;
  /** Limits that were in force before those of the ladder, oldest first; none: these hold for all that is shown. */
  readonly limitsBefore: readonly LimitSpan[];
  readonly buffer: LiveBuffer;
  readonly ticks: readonly (Tick & { readonly text: string })[];
  readonly marks: readonly {
    readonly atS: number;
    readonly priority: Priority | null;
    readonly isShelved: boolean;
  }[];
  /** Gaps, and the silence that goes on, s from the first sample. */
  readonly unknown: readonly { readonly fromS: number; readonly toS: number }[];
  readonly temperatures: readonly TemperatureNow[];
  readonly loupe: Loupe | null;
  /** The word across the trace of a practice run; null: none. */
  readonly practice: string | null;
  readonly pressureUnit: PressureUnit;
  readonly temperatureUnit: ReadingUnit;
  readonly words: LadderWords & { readonly now: string; readonly loupe: LoupeWords };
}

export interface LanesLayers {
  readonly ground: HTMLCanvasElement;
  /** Holds the tiles of the moving lines. */
  readonly lines: HTMLElement;
  readonly over: HTMLCanvasElement;
  readonly ladder: HTMLCanvasElement;
}

export interface LanesPainter {
  /** Draws what changed. @param bar where pointer and fill are shown, bar: on its way to the reading */
  draw(picture: LanesPicture, bar: number | null): void;
  /** How far a change of the pressure moves the pointer, px of the screen. */
  movedPx(picture: LanesPicture, from: number, to: number): number;
}

/** Lines reach over their lane by their own width. */
const OVER_PX = 5;

/** Where the moving lines' canvas lies in the lanes: both lanes with what lies between. */
export function linesRect(box: LanesBox): Rect {
  const { pressure, temperature } = box;
  const y = pressure.y - OVER_PX;
  return { x: pressure.x, y, w: pressure.w, h: temperature.y + temperature.h - y };
}

/** From seconds to px across the lanes, by whole px of the lines' canvas, which moves by them. */
function timeX({ lines, box }: LanesPicture, widthPx: number): (s: number) => number {
  const { x, w } = box.pressure;
  const nowS = (nowPx(lines, widthPx) / widthPx) * lines.spanS;
  return (s) => x + w - ((nowS - s) / lines.spanS) * w;
}

/**
 * The limits over the live trace: those in force say what holds now and have its whole width, but for a step of limits that
 * were changed in the time that is shown.
 */
function stretches(p: LanesPicture, widthPx: number): readonly LimitStretch[] {
  const { limits } = p.ladder;
  if (limits === null) return [];
  const { x, w } = p.box.pressure;
  const since = p.limitsBefore.at(-1)?.toS ?? null;
  const at = timeX(p, widthPx);
  const x0 = since === null ? x : Math.min(x + w, Math.max(x, at(since)));
  return [...stretchesOf(p.limitsBefore, p.box.pressure, at), { ...limits, x0, x1: x + w }];
}

function groundShapes(p: LanesPicture, steps: readonly LimitStretch[], measure: Measure): Shape[] {
  const { box, ladder, lines, size } = p;
  const { pressure, temperature } = box;
  const { endBar } = ladder;
  const ticksX = p.ticks.map((t) => t.x);
  const out = pressureGround(pressure, endBar, p.pressureUnit, steps, ticksX);
  if (p.practice !== null) {
    const floor = ladder.limits?.floorBar ?? null;
    const floorY = floor === null ? null : pressureY(pressure, endBar)(floor);
    out.push(practiceWord(pressure, floorY, p.practice, size.small));
  }
  out.push(
    ...pressureMarks(pressure, endBar, steps, size.small),
    ...temperatureGround(temperature, lines.scale, p.temperatureUnit, ticksX),
    ...axisLabels(p.ticks, pressure, box.axisY, size.small, measure, p.words.now),
  );
  return out;
}

/** What stands beside the temperature lane: its scale, and the temperatures of now. */
function nowShapes(p: LanesPicture, measure: Measure): Shape[] {
  const { box, lines, size } = p;
  const x = box.now.x + (size.small ? 3 : 5);
  return [
    ...temperatureNumerals(box.temperature, x, 'start', lines.scale, p.temperatureUnit, size.small),
    ...temperaturesNow(box.now, p.temperatures, size.small, measure),
  ];
}

function overShapes(p: LanesPicture, widthPx: number, measure: Measure): Shape[] {
  const { box, size } = p;
  const { pressure } = box;
  const right = pressure.x + pressure.w;
  const x = timeX(p, widthPx);
  const out: Shape[] = [];
  for (const g of p.unknown) {
    const x0 = Math.max(pressure.x, x(g.fromS));
    const x1 = Math.min(right, Math.max(x(g.toS), x(g.fromS) + 2));
    out.push(...ground(x0, pressure.y, x1 - x0, pressure.h, 'dots', 0.85));
  }
  for (const m of p.marks) {
    const at = x(m.atS);
    if (at >= pressure.x && at <= right)
      out.push(...alarmMark(at, pressure, m.priority, m.isShelved, size.small));
  }
  const at = p.loupe === null ? null : loupeBox(pressure);
  if (p.loupe !== null && at !== null)
    out.push(...loupeScene(at, p.loupe, p.pressureUnit, p.words.loupe, size.small, measure));
  return out;
}

/** Are these the parts that were drawn last? By identity: whoever makes a picture keeps the parts that stay. */
function createSame(): (...parts: readonly unknown[]) => boolean {
  let before: readonly unknown[] = [];
  return (...parts) => {
    const same = parts.length === before.length && parts.every((part, i) => Object.is(part, before[i]));
    if (!same) before = parts;
    return same;
  };
}

/**
 * Draws the live lanes on four layers that lie over each other: what stands still, the moving lines, marks in time, and the
 * ladder. Each is drawn only when what it shows has changed.
 * @param ratio device px a CSS px
 */
export function createLanesPainter(layers: LanesLayers, ink: Ink, ratio: number): LanesPainter {
  const painter: Painter = createPainter(ink, ratio);
  const liveLines = createLiveLines(layers.lines, ink, ratio);
  const scratch = layers.ground.getContext('2d');
  const measure: Measure =
    scratch === null ? (text, size) => text.length * size * 0.55 : measureWith(scratch, ink);
  const ladder = createLadderPainter(layers.ladder, painter, measure, ratio);
  const sameSize = createSame();
  let sameGround = createSame();
  let sameNow = createSame();
  let sameOver = createSame();
  let isOverEmpty = false;

  /** By whole px of the screen, and right of the lane's own edge. */
  const clearNow = (context: CanvasRenderingContext2D, { x, y, w, h }: Rect) => {
    context.save();
    context.setTransform(1, 0, 0, 1, 0, 0);
    const [left, top] = [Math.ceil(x * ratio), Math.floor((y - 1) * ratio)];
    context.clearRect(left, top, Math.ceil(w * ratio), Math.ceil((h + 2) * ratio));
    context.restore();
  };
  const drawGround = (p: LanesPicture) => {
    const { endBar, limits } = p.ladder;
    const { unit } = p.pressureUnit;
    const steps = stretches(p, liveLines.widthPx);
    const isGround = sameGround(
      endBar,
      limits,
      steps.map(({ x0 }) => Math.round(x0)).join(),
      p.lines.scale,
      p.ticks,
      p.practice,
      unit,
      p.temperatureUnit.unit,
    );
    const isNow = sameNow(p.temperatures);
    if (isGround && isNow) return;
    const context = isGround
      ? layers.ground.getContext('2d')
      : fitCanvas(layers.ground, p.size.w, p.size.h, ratio);
    if (context === null) return;
    // A probe that moves by a tenth leaves bands, grid and names as they are.
    if (isGround) clearNow(context, p.box.now);
    else painter.paint(context, groundShapes(p, steps, measure));
    painter.paint(context, nowShapes(p, measure));
  };

  const drawOver = (p: LanesPicture) => {
    const { lines, marks, unknown, loupe } = p;
    const isEmpty = marks.length === 0 && unknown.length === 0 && loupe === null;
    if (isEmpty && isOverEmpty) return;
    const px = nowPx(lines, liveLines.widthPx);
    if (!isEmpty && sameOver(px, marks, unknown, loupe, lines.spanS)) return;
    isOverEmpty = isEmpty;
    // An empty canvas costs the page as much as a full one.
    layers.over.hidden = isEmpty;
    const context = fitCanvas(layers.over, p.size.w, p.size.h, ratio);
    if (context !== null && !isEmpty) painter.paint(context, overShapes(p, liveLines.widthPx, measure));
  };

  return {
    draw(p, bar) {
      const { box, size } = p;
      const { x, y, w, h } = linesRect(box);
      if (!sameSize(box)) {
        liveLines.fit(w, h);
        sameGround = createSame();
        sameNow = createSame();
        sameOver = createSame();
        isOverEmpty = false;
      }
      drawGround(p);
      liveLines.draw(p.buffer, p.lines, box, { x, y }, p.ladder.endBar, size.small);
      drawOver(p);
      ladder.draw(p.ladder, bar, box, p.pressureUnit, p.words);
    },
    movedPx(p, from, to) {
      const y = pressureY(p.box.ladder.column, p.ladder.endBar);
      return Math.abs(y(from) - y(to)) * ratio;
    },
  };
}
