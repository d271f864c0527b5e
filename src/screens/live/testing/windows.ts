import type { Rect } from '../layout.ts';

/** The sizes that the face is drawn for, CSS px. */
export const WINDOWS = [
  [360, 740],
  [740, 360],
  [820, 1180],
  [1180, 820],
  [1024, 600],
  [1366, 768],
  [1600, 1000],
  [800, 500],
] as const;

export const apart = (a: Rect, b: Rect): boolean =>
  a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y;
