/** What a reviewer is told first: the run as a few facts, and what is still open. From events alone, codes and numbers. */

import type { Setup } from '../job/setup.ts';
import type { Account, OpenPoint } from '../record/account.ts';
import type { WatchEvent } from '../watch/events.ts';
import { airTestTold } from './air-test-told.ts';
import { passedChecks } from './checklist-told.ts';
import { cureTold } from './cure-told.ts';
import { holdsOf } from './numbers.ts';

type Of<K extends WatchEvent['e']> = Extract<WatchEvent, { e: K }>;

/** A hold that leaves the band for less is a reading's own grain, s. */
export const OUTSIDE_S = 5;

/** Behind the closed end of a proof of the supply no packer was under that pressure. */
const isOfHose = (e: Of<'alarm'>): boolean => e.values?.cause === 'hose';

const isTooHigh = (e: WatchEvent): e is Of<'alarm'> =>
  e.e === 'alarm' && e.why === 'condition' && (e.alarm === 'ceiling' || e.alarm === 'over-rated');

/** The highest pressure that a packer was under, bar: what was too high in a hose alone is none, as its alarms tell. null: not known. */
export function packerPeak(events: readonly WatchEvent[], peakBar: number | null): number | null {
  const high = events.filter(isTooHigh);
  return high.length > 0 && high.every(isOfHose) ? null : peakBar;
}

/** How long an alarm's condition stood, all its occurrences together, s; null: it never came. */
function stoodS(events: readonly WatchEvent[], alarm: Of<'alarm'>['alarm'], endUs: number): number | null {
  let sinceUs: number | null = null;
  let us: number | null = null;
  for (const e of events) {
    if (e.e !== 'alarm' || e.alarm !== alarm || isOfHose(e)) continue;
    if (e.why === 'condition') {
      sinceUs ??= e.tUs;
      us ??= 0;
    } else if (e.why === 'returned' && sinceUs !== null) {
      us = (us ?? 0) + e.tUs - sinceUs;
      sinceUs = null;
    }
  }
  if (sinceUs !== null) us = (us ?? 0) + Math.max(0, endUs - sinceUs);
  return us === null ? null : us / 1e6;
}

/** When the hold stood under its floor, as its alarm came and went; what the let-down crosses is none of it. */
function underFloorOf(
  events: readonly WatchEvent[],
  firstUs: number,
  endUs: number,
  cure: Account['cure'],
): Account['underFloor'] {
  const holds = holdsOf(events);
  const spans: { fromS: number; toS: number }[] = [];
  let sinceUs: number | null = null;
  const close = (us: number) => {
    if (sinceUs === null) return;
    const hold = holds.find((h) => sinceUs! >= h.fromUs && sinceUs! <= h.tUs);
    const toUs = Math.min(us, hold?.tUs ?? us);
    spans.push({ fromS: (sinceUs - firstUs) / 1e6, toS: (toUs - firstUs) / 1e6 });
    sinceUs = null;
  };
  for (const e of events) {
    if (e.e !== 'alarm' || e.alarm !== 'below-floor') continue;
    if (e.why === 'condition') sinceUs ??= e.tUs;
    else if (e.why === 'returned') close(e.tUs);
  }
  close(endUs);
  const [first] = spans;
  if (first === undefined) return null;
  const metUs = cureTold(events).met?.tUs ?? null;
  const isFollowed = cure.state === 'met' || cure.state === 'not-met';
  const isBefore = metUs === null || firstUs + first.fromS * 1e6 < metUs;
  return { spans, when: isFollowed ? (isBefore ? 'before-cure' : 'after-cure') : null };
}

/** The proof of the supply that was made last, and what made it void. */
export function supplyOf(events: readonly WatchEvent[]): Account['supply'] {
  const at = events.findLastIndex((e) => e.e === 'supply' && e.what === 'proved');
  const proved = events[at];
  if (proved?.e !== 'supply') return null;
  const { verdict, lockUpBar, creepMbarPerMin, ceilingInS } = proved;
  const spoilt = events.slice(at).find((e) => e.e === 'supply' && e.what === 'void');
  return {
    proved: { verdict, lockUpBar, creepMbarPerMin, ceilingInS },
    voidBy: spoilt?.e === 'supply' ? spoilt.reason : null,
  };
}

/** The packer was filled from a supply that the proof had shown to stand over the ceiling, or to creep up to it. */
export function wentOn(
  { proved, voidBy }: NonNullable<Account['supply']>,
  events: readonly WatchEvent[],
): boolean {
  const bad = proved.verdict === 'over-ceiling' || proved.verdict === 'creeps';
  return bad && voidBy === null && events.some((e) => e.e === 'stage' && e.stage === 'inflate');
}

/** The comparison with the dial gauge at the seat; without one there, the first that was made. */
function gaugeOf(events: readonly WatchEvent[]): Of<'gauge'> | null {
  let stage: Of<'stage'>['stage'] = 'prepare';
  let first: Of<'gauge'> | null = null;
  for (const e of events) {
    if (e.e === 'stage') stage = e.stage;
    if (e.e !== 'gauge') continue;
    if (stage === 'seat') return e;
    first ??= e;
  }
  return first;
}

/** What the witness cup said in the end. */
export const lastCup = (events: readonly WatchEvent[]): Of<'cup'> | null =>
  events.findLast((e) => e.e === 'cup') ?? null;

/** It said something that somebody had to look into. */
export const cupAsks = ({ verdict, doubt }: Of<'cup'>): boolean =>
  verdict === 'slow' || verdict === 'no-reaction' || doubt !== null;

function cureOf(events: readonly WatchEvent[], endUs: number, setup: Setup | null): Account['cure'] {
  const resin = setup?.resin ?? null;
  if (resin?.curedBy === 'light') return { state: 'not-judged' };
  const { start, met } = cureTold(events);
  if (met !== null) return { state: 'met', afterS: start === null ? null : (met.tUs - start.tUs) / 1e6 };
  if (resin === null) return { state: 'not-followed' };
  if (start === null) return { state: 'not-started' };
  return { state: 'not-met', countedS: Math.max(0, endUs - start.tUs) / 1e6 };
}

/**
 * @param firstUs the run's first sample: seconds count from here
 * @param peakBar of the whole run
 * @param setup whose limits were in force last
 */
export function accountOf(
  events: readonly WatchEvent[],
  firstUs: number,
  endUs: number,
  peakBar: number | null,
  setup: Setup | null,
): Account {
  const limits = setup?.limits ?? null;
  const overS = stoodS(events, 'over-rated', endUs) ?? stoodS(events, 'over-range', endUs);
  const highestBar = packerPeak(events, peakBar);
  const byBar = limits !== null && highestBar !== null ? highestBar - limits.ratedBar : 0;
  const ceilingSeen = events.some((e) => isTooHigh(e) && !isOfHose(e));
  const holds = holdsOf(events);
  const outsideS = holds.reduce((t, h) => t + (h.tUs - h.fromUs) / 1e6 - h.minutesInBand * 60, 0);
  const gauge = gaugeOf(events);
  const supply = supplyOf(events);
  const cup = lastCup(events);
  const witness = events.findLast((e) => e.e === 'witness') ?? null;
  const rebound = events.findLast((e) => e.e === 'rebound') ?? null;
  const cure = cureOf(events, endUs, setup);
  const air = airTestTold(events, setup);
  const letDown = events.some((e) => e.e === 'stage' && (e.stage === 'let-down' || e.stage === 'done'));
  const open: readonly (OpenPoint | false)[] = [
    limits === null && 'no-limit',
    limits !== null && holds.length === 0 && 'no-hold',
    outsideS > OUTSIDE_S && 'not-held',
    !events.some((e) => e.e === 'zero' && e.taken) && 'zero-none',
    supply !== null && wentOn(supply, events) && 'supply-went-on',
    stoodS(events, 'supply-moved', endUs) !== null && 'supply-moved',
    // In 'prepare' it was told in time; while air was let in it is urgent.
    events.some((e) => e.e === 'alarm' && e.alarm === 'supply-over' && e.priority === 'urgent') &&
      'supply-over',
    stoodS(events, 'sensors-differ', endUs) !== null && 'sensors-differ',
    gauge === null && 'gauge-none',
    events.some((e) => e.e === 'gauge' && e.agrees === false) && 'gauge-differs',
    cup !== null && cupAsks(cup) && (cup.doubt === null ? 'batch-slow' : 'cup-doubted'),
    witness === null && 'witness-none',
    witness?.hard === false && 'witness-soft',
    witness?.atPipeTemperature === false && 'witness-warm',
    letDown && rebound?.what !== 'stayed' && rebound?.what !== 'came-back' && 'rebound-none',
    rebound?.what === 'came-back' && 'rebound-back',
    passedChecks(events).length > 0 && 'checks-passed',
    air.last?.verdict === 'failed' && 'air-test-failed',
    air.last !== null && air.last.verdict !== 'passed' && air.last.verdict !== 'failed' && 'air-test-unsaid',
    air.planned && air.last === null && 'air-test-none',
  ];
  return {
    overRated: byBar > 0 || overS !== null ? { byBar: Math.max(0, byBar), forS: overS } : null,
    atCeiling:
      limits === null
        ? null
        : ceilingSeen || overS !== null || (highestBar !== null && highestBar >= limits.ceilingBar),
    cure,
    supply,
    gauge:
      gauge === null
        ? null
        : { gaugeBar: gauge.gaugeBar, readingBar: gauge.readingBar, agrees: gauge.agrees },
    witness:
      witness === null
        ? null
        : {
            hard: witness.hard,
            atPipeTemperature: witness.atPipeTemperature,
            atS: (witness.tUs - firstUs) / 1e6,
          },
    underFloor: underFloorOf(events, firstUs, endUs, cure),
    outsideS,
    open: open.filter((p): p is OpenPoint => p !== false),
  };
}
