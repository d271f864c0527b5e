import type { Measure, Rect, Shape } from './shape.ts';

/** A tick of the time axis. */
export interface Tick {
  /** In the axis' own seconds. */
  readonly s: number;
  readonly x: number;
}

/** Steps that a clock is read in, s. */
const STEPS = [
  0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10_800,
  21_600, 43_200, 86_400,
];

/**
 * Whole steps inside a window, as far apart as `leastPx`.
 * @returns ticks and their step, s
 */
export function ticksOf(
  fromS: number,
  toS: number,
  box: Pick<Rect, 'x' | 'w'>,
  leastPx: number,
): { readonly ticks: readonly Tick[]; readonly stepS: number } {
  const span = toS - fromS;
  if (!(span > 0)) return { ticks: [], stepS: 1 };
  const stepS = STEPS.find((s) => (s / span) * box.w >= leastPx) ?? 86_400 * Math.ceil(span / 86_400);
  const ticks: Tick[] = [];
  for (let i = Math.ceil(fromS / stepS - 1e-9); i * stepS <= toS + stepS * 1e-9; i++)
    ticks.push({ s: i * stepS, x: box.x + (box.w * (i * stepS - fromS)) / span });
  return { ticks, stepS };
}

/**
 * Labels under the axis; one that would run out of the box or into the label at its end is left out.
 * @param last stands at the right end, bold; none: only the ticks
 */
export function axisLabels(
  ticks: readonly (Tick & { readonly text: string })[],
  box: Pick<Rect, 'x' | 'w'>,
  baseY: number,
  small: boolean,
  measure: Measure,
  last: string | null,
): Shape[] {
  const size = small ? 11 : 13;
  const right = box.x + box.w;
  const out: Shape[] = [];
  let free = right;
  if (last !== null) {
    out.push({ k: 'text', x: right, y: baseY, text: last, size, bold: true, anchor: 'end', tone: 'ink' });
    free = right - measure(last, size, true) - size * 0.7;
  }
  for (const t of [...ticks].reverse()) {
    const half = measure(t.text, size, false) / 2;
    if (t.x - half < box.x - 2 || t.x + half > free) continue;
    out.push({ k: 'text', x: t.x, y: baseY, text: t.text, size, anchor: 'middle', tone: 'ink2' });
    free = t.x - half - size * 0.7;
  }
  return out;
}
