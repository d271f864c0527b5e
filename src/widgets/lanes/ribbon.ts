import type { Stage } from '../../watch/codes.ts';

/** A stage's stretch on the trace's time axis; toS null: still going on. */
export interface StageSpan {
  readonly stage: Stage;
  readonly attempt: number;
  readonly fromS: number;
  readonly toS: number | null;
}

export interface PlacedSpan extends StageSpan {
  /** Px inside the ribbon. */
  readonly x: number;
  readonly w: number;
  readonly isNow: boolean;
}

/** Between two stages, px. */
const SEAM = 3;

/**
 * Stages as they lie over the trace, in whole px; those outside the window are dropped.
 * @param left where the window begins, px; it ends at `plotRight`
 * @param right end of the ribbon: a stage that goes on runs to there
 */
export function placeSpans(
  spans: readonly StageSpan[],
  fromS: number,
  toS: number,
  left: number,
  plotRight: number,
  right: number,
): readonly PlacedSpan[] {
  const span = toS - fromS;
  if (!(span > 0)) return [];
  const x = (s: number) => Math.round(left + ((plotRight - left) * (s - fromS)) / span);
  return spans.flatMap((s) => {
    const isNow = s.toS === null;
    const a = x(Math.max(fromS, s.fromS));
    // The current stage has room for its name however short it is as yet.
    const b = isNow ? right : Math.min(plotRight, x(Math.min(toS, s.toS ?? toS)));
    const w = b - a - (isNow || b >= plotRight ? 0 : SEAM);
    return w > 0 && s.fromS < toS + 1e-9 && (s.toS === null || s.toS > fromS)
      ? [{ ...s, x: a, w, isNow }]
      : [];
  });
}
