import type { TraceWindow } from '../engine/messages.ts';

/**
 * A window as its pressure sensor can tell it: what stood over the end of the span nobody knows, and no table names it, so that a
 * line goes along that end.
 * @param endBar of the sensor's span; null: not known
 * @returns the window, and whether anything of it stood over the end
 */
export function withinSpan(
  window: TraceWindow,
  endBar: number | null,
): { readonly window: TraceWindow; readonly isPast: boolean } {
  if (endBar === null) return { window, isPast: false };
  let isPast = false;
  const seen = (column: ArrayLike<number>) =>
    Float32Array.from(column, (v) => {
      if (v > endBar) isPast = true;
      return v > endBar ? endBar : v;
    });
  const series = window.series.map((s) =>
    s.name === 'bar' ? { ...s, min: seen(s.min), max: seen(s.max) } : s,
  );
  return isPast ? { window: { ...window, series }, isPast } : { window, isPast };
}

/** Does a value of such a window stand for whatever is over the end? */
export const isAtEnd = (bar: number | null, endBar: number | null): boolean =>
  bar !== null && endBar !== null && bar >= Math.fround(endBar);
