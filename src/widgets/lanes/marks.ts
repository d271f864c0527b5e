import type { Tone } from './shape.ts';

/**
 * The marks of the limits. Each keeps its line style wherever it is drawn: on the ladder, across the trace, in small
 * pictures and on the certificate.
 */
export const MARKS = ['rated', 'ceiling', 'working', 'floor', 'seat'] as const;
export type Mark = (typeof MARKS)[number];

export interface MarkStyle {
  /** Px drawn, left out, and again; none: solid. */
  readonly dash?: readonly number[];
  /** Width on the ladder, px: large and small drawings. */
  readonly ladder: readonly [large: number, small: number];
  /** Width across the trace, px. */
  readonly trace: readonly [large: number, small: number];
  readonly tone: Tone;
}

export const MARK_STYLE: Record<Mark, MarkStyle> = {
  rated: { ladder: [13, 9], trace: [4, 3], tone: 'ink' },
  ceiling: { dash: [7, 4], ladder: [3, 2], trace: [1.5, 1.5], tone: 'ink' },
  working: { ladder: [2.5, 2], trace: [1, 1], tone: 'ink2' },
  floor: { dash: [11, 3, 3, 3], ladder: [3, 2], trace: [1.5, 1.5], tone: 'ink' },
  seat: { dash: [3, 3], ladder: [2, 1.5], trace: [1, 1], tone: 'ink2' },
};

/** What is drawn of a job's limits, bar; null: not set. */
export interface MarkedLimits {
  readonly ratedBar: number;
  readonly ceilingBar: number;
  /** null where no working pressure was given. */
  readonly workingBar: number | null;
  readonly floorBar: number | null;
  readonly seatBar: number | null;
}
