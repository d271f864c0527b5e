import type { TraceWindow } from '../../engine/messages.ts';
import type { MarkedLimits } from './marks.ts';
import { block, line, type Point, type Rect, type Shape } from './shape.ts';

/** The course of a run's pressure in small: seconds, and lowest and highest of each of them, bar; NaN for a gap. */
export interface Course {
  readonly fromS: number;
  readonly toS: number;
  readonly s: ArrayLike<number>;
  readonly min: ArrayLike<number>;
  readonly max: ArrayLike<number>;
}

/** The pressure of a window; null where it holds none. */
export function courseOf(window: TraceWindow): Course | null {
  const bar = window.series.find((s) => s.name === 'bar');
  if (bar === undefined || window.s.length === 0) return null;
  return { fromS: window.fromS, toS: window.toS, s: window.s, min: bar.min, max: bar.max };
}

/** The scale ends at this times rated, or at the peak where that is higher. */
const ABOVE = 1.1;
/** A hole of so many of the course's own steps is a gap. */
const HOLE_STEPS = 3;

function highest(course: Course): number {
  let top = 0;
  for (let i = 0; i < course.max.length; i++) if (course.max[i]! > top) top = course.max[i]!;
  return top;
}

/** Stretches of the line between its gaps, in px; where it lies over `over`, in stretches of their own. */
function stretches(
  course: Course,
  x: (s: number) => number,
  y: (bar: number) => number,
  over: number,
): { readonly points: readonly Point[]; readonly isOver: boolean }[] {
  const out: { points: Point[]; isOver: boolean }[] = [];
  const { s, min, max } = course;
  const step = s.length < 2 ? 1 : (s[s.length - 1]! - s[0]!) / (s.length - 1);
  let before: { s: number; bar: number } | null = null;
  const put = (at: number, bar: number, joined: boolean) => {
    const isOver = bar > over;
    const last = out[out.length - 1];
    const point: Point = [x(at), y(bar)];
    if (joined && last !== undefined && last.isOver === isOver) last.points.push(point);
    // What goes over begins where it left the other side, so that the line stays in one piece.
    else if (joined && last !== undefined)
      out.push({ points: [last.points[last.points.length - 1]!, point], isOver });
    else out.push({ points: [point], isOver });
  };
  for (let i = 0; i < s.length; i++) {
    const [lo, hi] = [min[i]!, max[i]!];
    if (!Number.isFinite(lo) || !Number.isFinite(hi)) continue;
    const joined: boolean = before !== null && s[i]! - before.s <= HOLE_STEPS * step;
    // The end nearer to the last value first: the line swings once a column, not twice.
    const upFirst: boolean = before !== null && Math.abs(before.bar - hi) < Math.abs(before.bar - lo);
    const ends: readonly [number, number] = upFirst ? [hi, lo] : [lo, hi];
    put(s[i]!, ends[0], joined);
    if (hi !== lo) put(s[i]!, ends[1], true);
    before = { s: s[i]!, bar: ends[1] };
  }
  return out;
}

/**
 * @param limits those in force last; null: no limit was set
 * @param box where the drawing stands, px
 */
export function sparklineScene(
  course: Course | null,
  limits: Pick<MarkedLimits, 'ratedBar' | 'ceilingBar' | 'floorBar'> | null,
  box: Rect,
): Shape[] {
  if (course === null) return [];
  const peak = highest(course);
  const end = Math.max(limits === null ? 0.5 : limits.ratedBar * ABOVE, peak);
  const y0 = box.y + box.h - 2;
  const y = (bar: number) => y0 - (box.h - 4) * Math.max(0, bar / end);
  const span = Math.max(1e-3, course.toS - course.fromS);
  const x = (s: number) => box.x + 1 + ((box.w - 2) * (s - course.fromS)) / span;
  const out: Shape[] = [];
  if (limits !== null && limits.floorBar !== null)
    out.push(...block(box.x, y(limits.ceilingBar), box.w, y(limits.floorBar) - y(limits.ceilingBar), 'band'));
  if (limits !== null)
    out.push(line(box.x, y(limits.ratedBar), box.x + box.w, y(limits.ratedBar), { tone: 'ink', wide: 2 }));
  for (const { points, isOver } of stretches(course, x, y, limits?.ratedBar ?? Number.POSITIVE_INFINITY))
    out.push({
      k: 'path',
      points: points.length > 1 ? points : [points[0]!, [points[0]![0] + 1, points[0]![1]]],
      pen: isOver ? { tone: 'urgent-thin', wide: 3.5 } : { tone: 'ink', wide: 2 },
    });
  return out;
}
