/** The numbers that a reviewer asks for, from a record's events and values. */

import { coldestOver } from '../engine/coldest-course.ts';
import type { Setup } from '../job/setup.ts';
import type { WatchEvent } from '../watch/events.ts';
import { isOverride } from './checklist-told.ts';
import { cureTold } from './cure-told.ts';
import type { Numbers } from './messages.ts';
import type { Values } from './open.ts';

type Hold = Extract<WatchEvent, { e: 'hold' }>;
type Span = { readonly fromUs: number; readonly toUs: number };

const POINTS = 4000;

export const holdsOf = (events: readonly WatchEvent[]): readonly Hold[] =>
  events.filter((e): e is Hold => e.e === 'hold');

/**
 * Lower edge of the hold band as the watch took it: the planned floor, or head, margin and the free inflation that
 * the fill showed. null: a part is not known, and the band has no lower edge.
 */
export function floorOfRecord(
  events: readonly WatchEvent[],
  setup: Setup | null,
): { readonly bar: number | null; readonly seen: boolean } {
  const limits = setup?.limits ?? null;
  if (limits === null) return { bar: null, seen: false };
  if (limits.floorBar !== null) return { bar: limits.floorBar, seen: false };
  const knee = events.findLast((e) => e.e === 'knee');
  const free = limits.freeInflationBar ?? (knee?.e === 'knee' ? knee.high : null);
  if (limits.headBar === null || free === null) return { bar: null, seen: false };
  return { bar: limits.headBar + free + limits.seatingMarginBar, seen: limits.freeInflationBar === null };
}

/** The setup whose limits were in force last. */
export const lastLimited = (setups: readonly Setup[]): Setup | null =>
  setups.findLast((s) => s.limits !== null) ?? setups.at(-1) ?? null;

const extreme = (values: readonly (number | null)[], pick: (...v: number[]) => number): number | null => {
  const known = values.filter((v): v is number => v !== null);
  return known.length === 0 ? null : pick(...known);
};

/** From the start of the cure (or of the first hold) to the end of the last hold; null without either. */
export function cureSpan(events: readonly WatchEvent[], endUs: number): Span | null {
  const holds = holdsOf(events);
  const start = cureTold(events).start?.tUs ?? holds[0]?.fromUs ?? null;
  if (start === null) return null;
  return { fromUs: start, toUs: holds.at(-1)?.tUs ?? endUs };
}

export function alarmCounts(events: readonly WatchEvent[]): Numbers['alarms'] {
  const count = { urgent: 0, high: 0, low: 0 };
  for (const e of events)
    if (e.e === 'alarm' && e.why === 'condition' && e.to === 'unacknowledged') count[e.priority]++;
  return count;
}

export function numbersOf(
  events: readonly WatchEvent[],
  firstUs: number,
  lastUs: number,
  values: Values | null,
  setup: Setup | null = null,
): Numbers {
  const holds = holdsOf(events);
  const gaps = events.filter((e) => e.e === 'gap');
  const { met } = cureTold(events);
  const span = cureSpan(events, lastUs);
  const s = (us: number): number => (us - firstUs) / 1e6;
  let coldest: Numbers['coldest'] = null;
  if (span !== null && values !== null) {
    const [from, to] = [s(span.fromUs), s(span.toUs)];
    coldest = coldestOver(values.window(from, to, POINTS), firstUs, events, setup);
  }
  return {
    holdS: holds.length === 0 ? null : holds.reduce((t, h) => t + (h.tUs - h.fromUs) / 1e6, 0),
    inBandS: holds.length === 0 ? null : holds.reduce((t, h) => t + h.minutesInBand * 60, 0),
    floorKnown: floorOfRecord(events, setup).bar !== null,
    lowestHoldBar: extreme(
      holds.map((h) => h.minBar),
      Math.min,
    ),
    highestHoldBar: extreme(
      holds.map((h) => h.maxBar),
      Math.max,
    ),
    heldFromS: holds[0] === undefined ? null : s(holds[0].fromUs),
    leak: holds.at(-1)?.leak ?? null,
    peakBar: values?.peakBar ?? null,
    cureMetS: met === null ? null : s(met.tUs),
    coldest,
    gaps: gaps.length,
    gapS: gaps.reduce((t, g) => t + (g.e === 'gap' ? (g.toUs - g.fromUs) / 1e6 : 0), 0),
    alarms: alarmCounts(events),
    overrides: events.filter(isOverride).length,
  };
}
