/** A rectangle on the plot, px, y downwards. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A line of the trace in px; null where there is none. */
export interface Course {
  readonly x: readonly number[];
  readonly y: readonly (number | null)[];
}

/** How much of the box's width is crossed by the lines: 0 free, 1 and more crowded. */
export function crossed(box: Box, courses: readonly Course[]): number {
  const right = box.left + box.width;
  const bottom = box.top + box.height;
  let sum = 0;
  for (const { x, y } of courses) {
    for (let i = 1; i < x.length; i++) {
      const [x0, x1, y0, y1] = [x[i - 1]!, x[i]!, y[i - 1], y[i]];
      if (y0 == null || y1 == null || x1 < box.left || x0 > right) continue;
      if (Math.max(y0, y1) < box.top || Math.min(y0, y1) > bottom) continue;
      sum += Math.max(1, Math.min(x1, right) - Math.max(x0, box.left));
    }
  }
  return sum / box.width;
}

/** The first place that no line crosses; where all are crossed the one with the least; null: no places. */
export function freest(places: readonly Box[], courses: readonly Course[]): Box | null {
  let best: Box | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const place of places) {
    const share = crossed(place, courses);
    if (share >= least) continue;
    best = place;
    least = share;
    if (share === 0) break;
  }
  return best;
}
