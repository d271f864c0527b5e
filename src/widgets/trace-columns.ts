/**
 * A line through more readings than the canvas has pixels, as upright columns to be filled. A stroke of such a line is
 * thousands of short bends, and the browser rounds each of them: that is most of what a redraw costs. Its picture is no
 * other than the column from the lowest to the highest reading of each pixel, as wide as the line.
 */

/** Takes a line's points from left to right, in px, y downwards. */
export interface ColumnPen {
  /** @param x not before the last one's */
  point(x: number, y: number): void;
  /** The line ends here and begins anew with the next point. */
  lift(): void;
  /** After the last point. */
  end(): void;
}

/**
 * Whole px are expected, as the plot rounds them: readings of one pixel share a column.
 * @param fill takes the columns
 * @param stroke takes the straight stretches between points that lie further apart than the line is wide
 * @param wide of the line, px
 */
export function columnPen(
  fill: Pick<Path2D, 'rect'>,
  stroke: Pick<Path2D, 'moveTo' | 'lineTo'>,
  wide: number,
): ColumnPen {
  const half = wide / 2;
  // Upright edges lie between pixels, where filling costs least; the height alone has the line's own width.
  const across = Math.max(1, Math.round(wide));
  const before = Math.floor(across / 2);
  /** A column is open. */
  let open = false;
  /** The pen is down: the next point is joined to the last one. */
  let down = false;
  /** The last joint was a stretch, which ends at the last point. */
  let stretched = false;
  // The open column reaches from `left` to the newest point and from `top` to `bottom`.
  let left = 0;
  let top = 0;
  let bottom = 0;
  let lastX = 0;
  let lastY = 0;

  const close = () => {
    if (open) fill.rect(left - before, top - half, lastX - left + across, bottom - top + wide);
    open = false;
  };
  const begin = (x: number, y0: number, y1: number) => {
    close();
    open = true;
    left = x;
    top = Math.min(y0, y1);
    bottom = Math.max(y0, y1);
  };

  return {
    point(x, y) {
      if (down && x - lastX > wide) {
        close();
        if (!stretched) stroke.moveTo(lastX, lastY);
        stroke.lineTo(x, y);
        stretched = true;
      } else {
        if (open && x === left) {
          top = Math.min(top, y);
          bottom = Math.max(bottom, y);
        } else if (!(open && top === bottom && y === top)) begin(x, down ? lastY : y, y);
        // else it goes on level, and its column grows to the side.
        stretched = false;
      }
      down = true;
      lastX = x;
      lastY = y;
    },
    lift() {
      close();
      down = false;
      stretched = false;
    },
    end: close,
  };
}
