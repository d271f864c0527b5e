import type { Priority } from '../../watch/codes.ts';
import type { LiveBuffer } from '../live-buffer.ts';
import { alarmMark } from './alarm-mark.ts';
import { createPainter, fitCanvas, type Ink, measureWith, type Painter } from './canvas.ts';
import type { LanesBox, LanesSize } from './geometry.ts';
import { pressureY } from './geometry.ts';
import { ladderFill, ladderGround, ladderMarks, ladderPointer } from './ladder.ts';
import type { LadderWords } from './ladder-labels.ts';
import type { LadderState } from './ladder-state.ts';
import { createLiveLines, type LinesView, nowPx } from './live-lines.ts';
import { type Loupe, type LoupeWords, loupeBox, loupeScene } from './loupe.ts';
import type { PressureUnit, ReadingUnit } from './numerals.ts';
import { type LimitStretch, practiceWord, pressureGround, pressureMarks } from './pressure-lane.ts';
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
  readonly lines: Pick<LinesView, 'spanS' | 'nowS' | 'scale' | 'dashes' | 'pace' | 'gaps'>;
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

export interface LanesCanvases {
  readonly ground: HTMLCanvasElement;
  readonly lines: HTMLCanvasElement;
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

/** Where the ladder's canvas lies. */
export const ladderRect = (box: LanesBox): Rect => box.zones.ladder;

/** The limits in force, over the whole width: on the live trace they say what holds now. */
function stretchNow({ ladder, box }: LanesPicture): readonly LimitStretch[] {
  const { limits } = ladder;
  if (limits === null) return [];
  const { x, w } = box.pressure;
  return [{ ...limits, x0: x, x1: x + w }];
}

function groundShapes(p: LanesPicture, measure: Measure): Shape[] {
  const { box, ladder, lines, size } = p;
  const { pressure, temperature, now } = box;
  const { endBar } = ladder;
  const stretches = stretchNow(p);
  const ticksX = p.ticks.map((t) => t.x);
  const out = pressureGround(pressure, endBar, p.pressureUnit, stretches, ticksX);
  if (p.practice !== null) {
    const floor = ladder.limits?.floorBar ?? null;
    const floorY = floor === null ? null : pressureY(pressure, endBar)(floor);
    out.push(practiceWord(pressure, floorY, p.practice, size.small));
  }
  out.push(
    ...pressureMarks(pressure, endBar, stretches, size.small),
    ...temperatureGround(temperature, lines.scale, p.temperatureUnit, ticksX),
    ...temperatureNumerals(
      temperature,
      now.x + (size.small ? 3 : 5),
      'start',
      lines.scale,
      p.temperatureUnit,
      size.small,
    ),
    ...temperaturesNow(now, p.temperatures, size.small, measure),
    ...axisLabels(p.ticks, pressure, box.axisY, size.small, measure, p.words.now),
  );
  return out;
}

function overShapes(p: LanesPicture, widthPx: number, measure: Measure): Shape[] {
  const { box, lines, size } = p;
  const { pressure } = box;
  const right = pressure.x + pressure.w;
  // By whole px of the lines' canvas, which moves by them.
  const nowS = (nowPx(lines, widthPx) / widthPx) * lines.spanS;
  const x = (s: number) => right - ((nowS - s) / lines.spanS) * pressure.w;
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

/** What the ladder's marks and labels are drawn of: they are laid out anew when this changes, not with each reading. */
function marksKey(p: LanesPicture, bar: number | null, ratio: number): string {
  const { ladder, box, pressureUnit } = p;
  const y = pressureY(box.ladder.column, ladder.endBar);
  const at = (value: number) => [Math.round(y(value) * ratio), pressureUnit.text(value)];
  const { ghost, limits } = ladder;
  const isOver = bar !== null && limits !== null && bar > limits.ratedBar;
  const isTold = ladder.trust === 'lost' || ladder.trust === 'over';
  return JSON.stringify([
    ladder.trust,
    ladder.endBar,
    limits,
    ladder.aim,
    ladder.order,
    ghost === null ? null : [at(ghost.value), ghost.by, ghost.isUrgent],
    isOver ? Math.round(y(bar) * ratio) : null,
    isTold && ladder.bar !== null ? at(ladder.bar) : null,
  ]);
}

/**
 * Draws the live lanes on four canvases that lie over each other: what stands still, the moving lines, marks in time, and the
 * ladder. Each is drawn only when what it shows has changed.
 * @param ratio device px a CSS px
 */
export function createLanesPainter(canvases: LanesCanvases, ink: Ink, ratio: number): LanesPainter {
  const painter: Painter = createPainter(ink, ratio);
  const liveLines = createLiveLines(canvases.lines);
  const scratch = canvases.ground.getContext('2d');
  const measure: Measure =
    scratch === null ? (text, size) => text.length * size * 0.55 : measureWith(scratch, ink);
  const ladderGroundLayer = document.createElement('canvas');
  const ladderMarksLayer = document.createElement('canvas');
  const keys = { size: '', ground: '', over: '', ladderGround: '', ladderMarks: '', ladder: '' };

  const resized = (p: LanesPicture) => {
    const key = JSON.stringify(p.size);
    if (key === keys.size) return;
    Object.assign(keys, { size: key, ground: '', over: '', ladderGround: '', ladderMarks: '', ladder: '' });
    const rect = linesRect(p.box);
    fitCanvas(canvases.lines, rect.w, rect.h, ratio);
  };

  const drawGround = (p: LanesPicture) => {
    const { ladder, lines } = p;
    const key = JSON.stringify([
      ladder.endBar,
      ladder.limits,
      lines.scale,
      p.ticks,
      p.temperatures,
      p.practice,
      p.pressureUnit.unit,
      p.temperatureUnit.unit,
    ]);
    if (key === keys.ground) return;
    keys.ground = key;
    const context = fitCanvas(canvases.ground, p.size.w, p.size.h, ratio);
    if (context !== null) painter.paint(context, groundShapes(p, measure));
  };

  const drawOver = (p: LanesPicture) => {
    const { lines } = p;
    const px = nowPx(lines, canvases.lines.width);
    const isEmpty = p.marks.length === 0 && p.unknown.length === 0 && p.loupe === null;
    const key = isEmpty
      ? ''
      : JSON.stringify([px, p.marks, p.unknown, lines.spanS, p.loupe?.points.at(-1), p.loupe?.bar]);
    if (key === keys.over) return;
    keys.over = key;
    const context = fitCanvas(canvases.over, p.size.w, p.size.h, ratio);
    if (context === null || isEmpty) return;
    painter.paint(context, overShapes(p, canvases.lines.width, measure));
  };

  /** A layer of the ladder, drawn in the lanes' own px. */
  const layer = (canvas: HTMLCanvasElement, zone: Rect, shapes: readonly Shape[]) => {
    const context = fitCanvas(canvas, zone.w, zone.h, ratio);
    if (context === null) return;
    context.translate(-zone.x, -zone.y);
    painter.paint(context, shapes);
  };

  const drawLadder = (p: LanesPicture, bar: number | null) => {
    const { box, ladder, pressureUnit, words } = p;
    const zone = ladderRect(box);
    const groundKey = JSON.stringify([ladder.endBar, ladder.limits, pressureUnit.unit]);
    const newMarks = marksKey(p, bar, ratio);
    const y = pressureY(box.ladder.column, ladder.endBar);
    const rate = ladder.rateBarPerS ?? 0;
    const key = JSON.stringify([
      groundKey,
      newMarks,
      bar === null ? null : Math.round(y(bar) * ratio * 2),
      Math.round(y(rate * 5) * ratio),
      ladder.ghost === null ? null : [y(ladder.ghost.low), y(ladder.ghost.high)].map(Math.round),
    ]);
    if (key === keys.ladder) return;
    keys.ladder = key;
    const shown: LadderState = { ...ladder, bar };
    if (groundKey !== keys.ladderGround) {
      keys.ladderGround = groundKey;
      layer(ladderGroundLayer, zone, ladderGround(shown, box.ladder, pressureUnit));
    }
    if (newMarks !== keys.ladderMarks) {
      keys.ladderMarks = newMarks;
      layer(ladderMarksLayer, zone, ladderMarks(shown, box.ladder, pressureUnit, words, measure));
    }
    const context = fitCanvas(canvases.ladder, zone.w, zone.h, ratio);
    if (context === null) return;
    const blit = (canvas: HTMLCanvasElement) => {
      context.setTransform(1, 0, 0, 1, 0, 0);
      context.drawImage(canvas, 0, 0);
      context.setTransform(ratio, 0, 0, ratio, -zone.x * ratio, -zone.y * ratio);
    };
    blit(ladderGroundLayer);
    painter.paint(context, ladderFill(shown, box.ladder, pressureUnit));
    blit(ladderMarksLayer);
    painter.paint(context, ladderPointer(shown, box.ladder));
  };

  return {
    draw(p, bar) {
      resized(p);
      drawGround(p);
      const { x, y } = linesRect(p.box);
      const lane = (r: Rect): Rect => ({ ...r, x: r.x - x, y: r.y - y });
      const view: LinesView = {
        ...p.lines,
        pressure: lane(p.box.pressure),
        temperature: lane(p.box.temperature),
        endBar: p.ladder.endBar,
        small: p.size.small,
      };
      liveLines.draw(p.buffer, view, ink, ratio);
      drawOver(p);
      drawLadder(p, bar);
    },
    movedPx(p, from, to) {
      const y = pressureY(p.box.ladder.column, p.ladder.endBar);
      return Math.abs(y(from) - y(to)) * ratio;
    },
  };
}
