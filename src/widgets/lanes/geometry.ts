import type { Rect } from './shape.ts';

/** Sizes that the page gives to the lanes, CSS px. */
export interface LanesSize {
  readonly w: number;
  readonly h: number;
  /** Width of the now column at the right: numerals, ladder and labels. */
  readonly ladderW: number;
  readonly ribbonH: number;
  readonly tempH: number;
  readonly axisH: number;
  /** A phone, or a low window: finer pens and smaller letters. */
  readonly small: boolean;
}

/** The ladder in its column: what stands where from left to right, px. */
export interface LadderBox {
  /** Column of the ladder; its height is the pressure scale's. */
  readonly column: Rect;
  /** Right edge of the numerals. */
  readonly numeralsX: number;
  /** Room for them left of that edge. */
  readonly numeralsW: number;
  readonly labelsX: number;
  readonly labelsW: number;
  readonly small: boolean;
}

/** Where everything of the lanes stands, px from their upper left corner. */
export interface LanesBox {
  readonly ribbon: Rect;
  /** Pressure over time; its height is the pressure scale's. */
  readonly pressure: Rect;
  readonly temperature: Rect;
  readonly ladder: LadderBox;
  /** Right of the temperatures: what they are now. */
  readonly now: Rect;
  /** Base line of the time axis. */
  readonly axisY: number;
  readonly zones: { readonly trace: Rect; readonly ladder: Rect; readonly temperature: Rect };
}

/** The stop reaches so far beyond the column on both sides, px: numerals stand clear of it. */
export const stopBeyond = (small: boolean): number => (small ? 7 : 14);

export function lanesBox(size: LanesSize): LanesBox {
  const { w, h, ladderW, ribbonH, tempH, axisH, small } = size;
  const left = small ? 6 : 16;
  const split = w - ladderW;
  const top = ribbonH + (small ? 9 : 16);
  const tempBottom = h - axisH - 2;
  const tempTop = tempBottom - tempH;
  const foot = tempTop - (small ? 11 : 18);
  const numerals = small ? 31 : ladderW > 250 ? 58 : 50;
  const columnW = Math.round(ladderW * (small ? 0.34 : 0.36));
  const columnX = split + numerals;
  // Between column and labels: the hold bracket, the pointer's triangle and the leaders.
  const labelsX = columnX + columnW + (small ? 21 : 33);
  const seam = Math.round((foot + tempTop) / 2);
  return {
    ribbon: { x: left, y: 0, w: w - left, h: ribbonH },
    pressure: { x: left, y: top, w: split - left, h: foot - top },
    temperature: { x: left, y: tempTop, w: split - left, h: tempBottom - tempTop },
    ladder: {
      column: { x: columnX, y: top, w: columnW, h: foot - top },
      numeralsX: columnX - stopBeyond(small) - (small ? 2 : 3),
      numeralsW: numerals - stopBeyond(small) - (small ? 2 : 3),
      labelsX,
      labelsW: w - labelsX - (small ? 3 : 6),
      small,
    },
    now: { x: split, y: tempTop, w: ladderW, h: tempBottom - tempTop },
    axisY: h - (small ? 4 : 7),
    zones: {
      trace: { x: 0, y: ribbonH, w: split, h: seam - ribbonH },
      ladder: { x: split, y: ribbonH, w: ladderW, h: seam - ribbonH },
      temperature: { x: 0, y: seam, w, h: h - axisH - seam },
    },
  };
}

/** From bar to px from the top: trace and ladder share it. Under zero is drawn at zero, over the end at the end. */
export function pressureY(box: Pick<Rect, 'y' | 'h'>, endBar: number): (bar: number) => number {
  return (bar) => box.y + box.h * (1 - Math.min(1, Math.max(0, bar / endBar)));
}
