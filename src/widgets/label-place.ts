/** A rectangle on the plot, px, y downwards. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/**
 * A line of the trace in px, asked for point by point: of thousands of points a label meets a few. x ascends; y is null
 * where there is no line, undefined where the line goes on without a point.
 */
export interface Course {
  readonly n: number;
  x(i: number): number;
  y(i: number): number | null | undefined;
}

/** The first point at or right of `at`; n where all lie left of it. */
function firstAt(course: Course, at: number): number {
  let low = 0;
  let high = course.n;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (course.x(middle) < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** How much of the box's width is crossed by the lines: 0 free, 1 and more crowded. */
export function crossed(box: Box, courses: readonly Course[]): number {
  const right = box.left + box.width;
  const bottom = box.top + box.height;
  let sum = 0;
  for (const course of courses) {
    let from = Math.max(0, firstAt(course, box.left) - 1);
    while (from > 0 && course.y(from) === undefined) from--;
    for (let i = from + 1; i < course.n; i++) {
      const y1 = course.y(i);
      if (y1 === undefined) continue;
      const [x0, y0] = [course.x(from), course.y(from)];
      from = i;
      if (x0 > right) break;
      if (y0 == null || y1 === null) continue;
      if (Math.max(y0, y1) < box.top || Math.min(y0, y1) > bottom) continue;
      sum += Math.max(1, Math.min(course.x(i), right) - Math.max(x0, box.left));
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
