/** A run in small, for the rows of the lists: its course, its limits and the numbers beside them. */

import type { RunDetail, TraceWindow } from '../engine/messages.ts';
import { sensorEndBar } from '../job/gauge-kind.ts';
import { accountOf } from './account.ts';
import type { Sketch } from './messages.ts';
import { floorOfRecord, lastLimited, numbersOf } from './numbers.ts';

/** Steps of the course: a row's picture is about so many px wide. */
export const SKETCH_STEPS = 160;

/** Millibars are more than a picture of 40 px shows. */
const rounded = (column: ArrayLike<number>, most: number | null = null): number[] =>
  Array.from(column, (v) =>
    Number.isFinite(v) ? Math.round(Math.min(v, most ?? v) * 1000) / 1000 : Number.NaN,
  );

/** @param endBar of the sensor's span: what stood over it nobody knows; null: not known */
function courseOf(window: TraceWindow, endBar: number | null): Sketch['course'] {
  const bar = window.series.find((s) => s.name === 'bar');
  if (bar === undefined || window.s.length === 0) return null;
  return {
    fromS: window.fromS,
    toS: window.toS,
    s: rounded(window.s),
    min: rounded(bar.min, endBar),
    max: rounded(bar.max, endBar),
  };
}

/**
 * @param window of the whole run, in about SKETCH_STEPS steps
 * @param peakBar of the whole run; null: not known
 */
export function sketchOf(
  detail: Pick<RunDetail, 'events' | 'setups' | 'firstUs' | 'lastS'>,
  window: TraceWindow,
  peakBar: number | null,
): Sketch {
  const { events, firstUs } = detail;
  const endUs = firstUs + detail.lastS * 1e6;
  const setup = lastLimited(detail.setups);
  const limits = setup?.limits ?? null;
  return {
    course: courseOf(window, sensorEndBar(detail.setups)),
    limits:
      limits === null
        ? null
        : {
            ratedBar: limits.ratedBar,
            ceilingBar: limits.ceilingBar,
            floorBar: floorOfRecord(events, setup).bar,
          },
    numbers: { ...numbersOf(events, firstUs, endUs, null, setup), peakBar },
    account: accountOf(events, firstUs, endUs, peakBar, setup),
  };
}
