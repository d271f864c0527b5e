import type { Priority } from '../../watch/codes.ts';
import { line, type Point, type Rect, type Shape, type Tone } from './shape.ts';

/** An alarm on the trace: when it was raised, by its shape and colour; put aside: the shape is hollow. */

const COLOUR: Record<Priority, { readonly fill: Tone; readonly cut: Tone; readonly line: Tone }> = {
  urgent: { fill: 'urgent', cut: 'on-urgent', line: 'urgent-thin' },
  high: { fill: 'high', cut: 'on-high', line: 'high' },
  low: { fill: 'low', cut: 'on-low', line: 'low' },
};

const outline = (priority: Priority, x: number, y: number, r: number): readonly Point[] => {
  const c = r * 0.42;
  return priority === 'high'
    ? [
        [x, y - r],
        [x + r * 1.05, y + r * 0.9],
        [x - r * 1.05, y + r * 0.9],
      ]
    : [
        [x - c, y - r],
        [x + c, y - r],
        [x + r, y - c],
        [x + r, y + c],
        [x + c, y + r],
        [x - c, y + r],
        [x - r, y + c],
        [x - r, y - c],
      ];
};

/** The exclamation mark in a shape: a bar and a dot. */
function cut(priority: Priority, x: number, y: number, r: number, tone: Tone): Shape[] {
  const w = r * 0.28;
  const top = priority === 'high' ? y - r * 0.35 : y - r * 0.58;
  const foot = priority === 'high' ? y + r * 0.68 : y + r * 0.6;
  return [
    { k: 'rect', x: x - w / 2, y: top, w, h: foot - top - w * 1.7, fill: tone },
    { k: 'rect', x: x - w / 2, y: foot - w, w, h: w, fill: tone },
  ];
}

/**
 * @param x where it lies, px; kept inside the box by its shape
 * @param priority null: an event that is no alarm
 */
export function alarmMark(
  x: number,
  box: Rect,
  priority: Priority | null,
  isHollow: boolean,
  small: boolean,
): Shape[] {
  const bottom = box.y + box.h;
  if (priority === null) return [line(x, box.y, x, bottom, { tone: 'ink2', wide: 1 })];
  const r = small ? 8 : 11;
  const colour = COLOUR[priority];
  const at = Math.min(box.x + box.w - r - 1, Math.max(box.x + r + 1, x));
  const y = box.y + r - (small ? 2 : 3);
  const out: Shape[] = [];
  // Amber is never a thin line on light ground: it lies between edges of ink.
  if (priority === 'high') out.push(line(x, box.y, x, bottom, { tone: 'ink', wide: 4 }));
  out.push(line(x, box.y, x, bottom, { tone: colour.line, wide: 2 }));
  const fill: Tone = isHollow ? 'plate' : colour.fill;
  const rim: Tone = priority === 'high' ? 'ink' : isHollow ? colour.line : 'well';
  const pen = { tone: rim, wide: isHollow ? 2.5 : 1 };
  if (priority === 'low') out.push({ k: 'disc', x: at, y, r: r * 0.95, fill, pen });
  else out.push({ k: 'path', points: outline(priority, at, y, r), closed: true, fill, pen });
  out.push(...cut(priority, at, y, r, isHollow ? 'ink' : colour.cut));
  return out;
}
