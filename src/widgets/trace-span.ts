import type { TraceWindow } from '../engine/messages.ts';

/**
 * A window as its pressure sensors can tell it: what stood over the end of a span nobody knows, and no table names it, so that a
 * line goes along that end.
 * @param endBar of the span of the sensor that the guard goes by; null: not known
 * @param secondEndBar of that of the second; null: not known, or there is none
 * @returns the window, and whether the first stood over its end anywhere
 */
export function withinSpan(
  window: TraceWindow,
  endBar: number | null,
  secondEndBar: number | null = null,
): { readonly window: TraceWindow; readonly isPast: boolean } {
  let isPast = false;
  let isOther = false;
  const series = window.series.map((s) => {
    const end = s.name === 'bar' ? endBar : s.name === 'second' ? secondEndBar : null;
    if (end === null || !s.max.some((v) => v > end)) return s;
    if (s.name === 'bar') isPast = true;
    isOther = true;
    const seen = (column: Float32Array) => column.map((v) => Math.min(v, end));
    return { ...s, min: seen(s.min), max: seen(s.max) };
  });
  return isOther ? { window: { ...window, series }, isPast } : { window, isPast };
}

/** Does a value of such a window stand for whatever is over the end? */
export const isAtEnd = (bar: number | null, endBar: number | null): boolean =>
  bar !== null && endBar !== null && bar >= Math.fround(endBar);
