import type { BenchPoint, ReasonOf, Verdict } from '../job/bench-codes.ts';
import { verdictOf } from '../job/bench-codes.ts';

/**
 * What was found at a point of the bench, with its numbers:
 *
 * | point    | value                       | against                          | more                            |
 * | -------- | --------------------------- | -------------------------------- | ------------------------------- |
 * | lines    | lines refused               | lines that came                  |                                 |
 * | rate     | samples a second            | the rate that the device keeps   |                                 |
 * | lost     | samples missing             | samples sent                     | lines that say that some were dropped |
 * | clock    | ppm that it runs fast       | its uncertainty (k = 2), ppm     | listened, s                     |
 * | restarts | restarts                    | listened, s                      |                                 |
 * | step     | mbar of the smallest step   | bits                             |                                 |
 * | noise    | s.d. of a reading, mbar     | the same in counts               | lowest to highest of a second, counts |
 * | drift    | mbar/min                    | its uncertainty (k = 2)          | rested, s                       |
 * | zero     | bar of the open line        | bar that a zero may be off       |                                 |
 * | span     | bar, reading less reference | bar that they may differ         | the reference, bar              |
 * | supply   | share below nominal         | lowest, V                        | nominal, V                      |
 * | warm     | K risen in the hand         | °C before                        | held, s                         |
 * | guard    | bar at the trip             | bar of the limit                 | highest without a trip, bar     |
 */
export interface FindingOf<P extends BenchPoint> {
  readonly point: P;
  readonly reason: ReasonOf<P>;
  /** Of the device; null: the point is about none. */
  readonly channel: number | null;
  readonly value: number | null;
  readonly against: number | null;
  readonly more: number | null;
}

export type Finding = { [P in BenchPoint]: FindingOf<P> }[BenchPoint];

export function found<P extends BenchPoint>(
  point: P,
  reason: ReasonOf<P>,
  value: number | null = null,
  against: number | null = null,
  more: number | null = null,
  channel: number | null = null,
): FindingOf<P> {
  return { point, reason, channel, value, against, more };
}

export const verdict = ({
  point,
  reason,
}: {
  readonly point: BenchPoint;
  readonly reason: string;
}): Verdict => verdictOf(point, reason) ?? 'not-tried';
