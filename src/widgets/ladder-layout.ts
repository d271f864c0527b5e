/** Geometry of the ladder, apart from its drawing: which span it shows and where its labels find room. */

export interface LadderLabel {
  readonly key: string;
  /** Where the mark is, px from the top. */
  readonly y: number;
}

/**
 * Top of the scale, bar: rated pressure and whatever is above it stay in view, in whole steps so that the scale
 * does not creep while the pointer moves.
 * @param ratedBar null where no limit is set
 * @param highestBar highest value that must be seen (reading, settle ghost)
 */
export function scaleTop(ratedBar: number | null, highestBar: number): number {
  const wanted =
    ratedBar === null ? Math.max(1, highestBar * 1.15) : Math.max(ratedBar * 1.18, highestBar * 1.06);
  const step = wanted <= 1 ? 0.1 : wanted <= 4 ? 0.25 : 0.5;
  return Math.ceil(wanted / step - 1e-9) * step;
}

/** A forecast moves the scale up to so many times the rated pressure. */
const FORECAST_MOST = 1.5;

/**
 * The part of a forecast that the scale makes room for, bar: what lies beyond is drawn at the top. Else the marks would fall
 * together at the very moment when they are looked at.
 */
export function forecastShown(ratedBar: number | null, forecastBar: number): number {
  return ratedBar === null ? forecastBar : Math.min(forecastBar, FORECAST_MOST * ratedBar);
}

/** Tick distance in display units: about one a 44-90 px, on 1-2-5 steps. */
export function tickStep(span: number, heightPx: number): number {
  const wanted = span / Math.max(2, heightPx / 64);
  const power = 10 ** Math.floor(Math.log10(wanted));
  for (const m of [1, 2, 5, 10]) if (m * power >= wanted - 1e-12) return m * power;
  return 10 * power;
}

/**
 * Pushes labels apart so that none overlaps, in their order, as little as needed, inside 0..height.
 * @returns y of each label's centre by key
 */
export function spreadLabels(
  labels: readonly LadderLabel[],
  gapPx: number,
  heightPx: number,
): Map<string, number> {
  const order = [...labels].sort((a, b) => a.y - b.y);
  const ys = order.map((l) => l.y);
  for (let i = 1; i < ys.length; i++) ys[i] = Math.max(ys[i]!, ys[i - 1]! + gapPx);
  // What was pushed past the lower end is pushed back up from there.
  let limit = heightPx - gapPx / 2;
  for (let i = ys.length - 1; i >= 0; i--) {
    ys[i] = Math.min(ys[i]!, limit);
    limit = ys[i]! - gapPx;
  }
  return new Map(order.map((l, i) => [l.key, ys[i]!]));
}
