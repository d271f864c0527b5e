import { fitCanvas, type Painter } from './canvas.ts';
import { type LanesBox, pressureY } from './geometry.ts';
import { ladderFill, ladderGround, ladderMarks, ladderPointer } from './ladder.ts';
import type { LadderWords } from './ladder-labels.ts';
import type { LadderState } from './ladder-state.ts';
import type { PressureUnit } from './numerals.ts';
import type { Measure, Rect, Shape } from './shape.ts';

/** Where the ladder's canvas lies: its zone, and room under it for a pointer that stands at zero. */
export function ladderRect(box: LanesBox): Rect {
  const { x, y, w, h } = box.zones.ladder;
  return { x, y, w, h: h + (box.ladder.small ? 5 : 10) };
}

export interface LadderPainter {
  /** @param bar where pointer and fill are shown */
  draw(state: LadderState, bar: number | null, box: LanesBox, unit: PressureUnit, words: LadderWords): void;
}

/** The pointer with its triangle and halo reaches so far from its value, px. */
const POINTER_PX = 22;

/** Upper and lower edge of a shape, px. */
function rows(shape: Shape): readonly [number, number] {
  switch (shape.k) {
    case 'rect':
      return [shape.y - 2, shape.y + shape.h + 2];
    case 'path': {
      const ys = shape.points.map((p) => p[1]);
      const wide = (shape.pen?.wide ?? 0) / 2 + 1;
      return [Math.min(...ys) - wide, Math.max(...ys) + wide];
    }
    default:
      return [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  }
}

/**
 * Draws the ladder: what stands still is kept as two pictures, one under the fill and one over it; of what moves only the rows
 * between the old and the new place are drawn.
 */
export function createLadderPainter(
  canvas: HTMLCanvasElement,
  painter: Painter,
  measure: Measure,
  ratio: number,
): LadderPainter {
  const ground = document.createElement('canvas');
  const marks = document.createElement('canvas');
  let groundKey = '';
  let marksKey = '';
  /** What was drawn of the moving parts: rows that they took, px of the lanes. */
  let taken: readonly [number, number] | null = null;
  let drawn: { readonly still: string; readonly moving: string } | null = null;

  const layer = (target: HTMLCanvasElement, zone: Rect, shapes: readonly Shape[]) => {
    const context = fitCanvas(target, zone.w, zone.h, ratio);
    if (context === null) return;
    context.translate(-zone.x, -zone.y);
    painter.paint(context, shapes);
  };

  return {
    draw(state, bar, box, unit, words) {
      const zone = ladderRect(box);
      const { column } = box.ladder;
      const y = pressureY(column, state.endBar);
      const px = (value: number) => Math.round(y(value) * ratio);
      const { limits, ghost, trust } = state;
      const shown: LadderState = { ...state, bar };
      const size = `${zone.x} ${zone.y} ${zone.w} ${zone.h} ${column.x} ${column.w} ${column.y} ${column.h}`;
      const limitsKey = limits === null ? '' : Object.values(limits).join();
      const isOver = bar !== null && limits !== null && bar > limits.ratedBar;
      const isTold = trust === 'lost' || trust === 'over';

      const nextGround = [size, state.endBar, limitsKey, unit.unit].join('|');
      if (nextGround !== groundKey) {
        groundKey = nextGround;
        layer(ground, zone, ladderGround(shown, box.ladder, unit));
      }
      // Marks and labels are laid out anew when what they say changes, not with each reading.
      const nextMarks = [
        nextGround,
        trust,
        state.aim,
        state.loweredFromBar,
        state.order === null ? '' : `${state.order.toBar} ${state.order.notUnderBar}`,
        state.second === null
          ? ''
          : `${px(state.second.bar)} ${state.second.name} ${unit.text(state.second.bar)}`,
        ghost === null ? '' : `${px(ghost.value)} ${unit.text(ghost.value)} ${ghost.by} ${ghost.isUrgent}`,
        isOver && bar !== null ? px(bar) : '',
        isTold && state.bar !== null ? unit.text(state.bar) : '',
      ].join('|');
      if (nextMarks !== marksKey) {
        marksKey = nextMarks;
        layer(marks, zone, ladderMarks(shown, box.ladder, unit, words, measure));
      }

      const still = [
        nextMarks,
        ghost === null ? '' : `${px(ghost.low)} ${px(ghost.high)}`,
        // Colours of the whole fill.
        bar !== null && limits !== null && bar >= limits.ceilingBar,
        bar === null,
      ].join('|');
      const at = bar === null ? null : y(bar);
      const rate = state.rateBarPerS === null ? 0 : Math.round(state.rateBarPerS * 500) / 500;
      const moving = `${at === null ? '' : Math.round(at * ratio * 2)} ${rate}`;
      if (drawn !== null && drawn.still === still && drawn.moving === moving) return;

      const over = ladderPointer(shown, box.ladder);
      const reach = over.map(rows).concat(at === null ? [] : [[at - POINTER_PX, at + POINTER_PX]]);
      const mine: readonly [number, number] = [
        Math.min(zone.y + zone.h, ...reach.map((r) => r[0])),
        Math.max(zone.y, ...reach.map((r) => r[1])),
      ];
      const isPart = drawn !== null && drawn.still === still && taken !== null;
      const context = isPart ? canvas.getContext('2d') : fitCanvas(canvas, zone.w, zone.h, ratio);
      drawn = { still, moving };
      if (context === null) return;
      // Whole px of the screen, so that a part meets the rest.
      const from = isPart ? Math.max(0, Math.floor((Math.min(mine[0], taken![0]) - zone.y) * ratio)) : 0;
      const to = isPart
        ? Math.min(canvas.height, Math.ceil((Math.max(mine[1], taken![1]) - zone.y) * ratio))
        : canvas.height;
      taken = mine;
      const height = to - from;
      if (height <= 0) return;
      const inside = (shape: Shape) => {
        const [top, bottom] = rows(shape);
        return (bottom - zone.y) * ratio >= from && (top - zone.y) * ratio <= to;
      };
      context.save();
      context.setTransform(1, 0, 0, 1, 0, 0);
      context.beginPath();
      context.rect(0, from, canvas.width, height);
      context.clip();
      context.clearRect(0, from, canvas.width, height);
      const blit = (source: HTMLCanvasElement) => {
        context.setTransform(1, 0, 0, 1, 0, 0);
        context.drawImage(source, 0, from, canvas.width, height, 0, from, canvas.width, height);
        context.setTransform(ratio, 0, 0, ratio, -zone.x * ratio, -zone.y * ratio);
      };
      blit(ground);
      painter.paint(context, ladderFill(shown, box.ladder, unit).filter(inside));
      blit(marks);
      painter.paint(context, over);
      context.restore();
    },
  };
}
