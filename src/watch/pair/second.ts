/** The signal of a second pressure: its level now, and whether it still tells one. Plain data. */
import type { SecondPressure } from '../../job/codes.ts';
import { isSecondPressure } from '../../job/pressure-roles.ts';
import type { Setup } from '../../job/setup.ts';
import { FLAG, type Reading, type SecondReading } from '../../sensing/reading.ts';
import {
  createRecent,
  LEAST_MEAN,
  median3,
  type Recent,
  recentAdd,
  recentClear,
  recentStats,
} from '../signal/recent.ts';
import { usability } from '../signal/signal.ts';

export interface SecondSignal {
  /** As the Setup names it, or where there is none as the readings come; null: there is no second pressure. */
  role: SecondPressure | null;
  /** Run clock, µs; null: never. */
  lastUsableUs: number | null;
  /** Since when the readings that come hold no value of it, µs; null: they do. */
  badSinceUs: number | null;
  /** Readings in a row over its sensor's span, with those that followed beyond what its signal can say. */
  overReadings: number;
  /** It stands still by itself: a level, and no witness. */
  stuck: boolean;
  /** Its zero was taken. */
  zeroed: boolean;
  bar: number | null;
  /** Median of the last three; null: fewer. */
  median: number | null;
  uBar: number;
  recent: Recent;
}

export const createSecond = (role: SecondPressure | null): SecondSignal => ({
  role,
  lastUsableUs: null,
  badSinceUs: null,
  overReadings: 0,
  stuck: false,
  zeroed: false,
  bar: null,
  median: null,
  uBar: 0,
  recent: createRecent(),
});

/** The role that a Setup gives to a second pressure; null: it names none. */
export function secondRole(setup: Setup | null): SecondPressure | null {
  for (const { role } of setup?.channels ?? []) if (isSecondPressure(role)) return role;
  return null;
}

/** The sample as it were if the second pressure were the only one. @param bar its level, bar */
export const asReading = (
  reading: Reading,
  { uBar, flags, stepBar }: SecondReading,
  bar: number | null,
): Reading => ({ ...reading, bar, uBar, flags, stepBar });

/** A signal that rises through the span and on leaves what it can say as a fault: it is still over. */
const WENT_OVER = 2;

/**
 * What a sample says of the level, bar; null: nothing. Over the span it is at least so high, which a guard must know. At the outlet a
 * signal beyond its upper end is taken for one even where nobody saw it pass: a regulator that opens is quicker than a sample, and
 * to shut the valve for a broken sensor costs nothing; to vent a packer for one would.
 */
function levelOf(
  s: SecondSignal,
  second: SecondReading,
  use: ReturnType<typeof usability>,
  spanEndBar: number | null,
): number | null {
  if (use === 'usable') {
    s.overReadings = 0;
    return second.bar;
  }
  const beyondEnd = (second.flags & FLAG.fault) !== 0 && (second.flags & FLAG.outOfRange) !== 0;
  const goesOn = (use === 'fault' || use === 'range') && s.overReadings >= WENT_OVER;
  if (use !== 'over' && !goesOn && !(beyondEnd && s.role === 'outlet-pressure')) return null;
  s.overReadings++;
  return Math.max(second.bar ?? s.bar ?? 0, second.bar === null ? (spanEndBar ?? 0) : 0);
}

/**
 * Takes what a sample holds of the second pressure. True where it holds a new level.
 * @param spanEndBar upper end of its sensor's span, bar; null: not known
 */
export function secondReading(s: SecondSignal, reading: Reading, spanEndBar: number | null): boolean {
  const { second } = reading;
  s.role = second?.role ?? s.role;
  const use = second === undefined ? 'fault' : usability(asReading(reading, second, second.bar));
  if (use === 'held') return false;
  const level = second === undefined ? null : levelOf(s, second, use, spanEndBar);
  if (second === undefined || level === null) {
    s.badSinceUs ??= reading.tUs;
    return false;
  }
  s.badSinceUs = null;
  s.stuck = (second.flags & FLAG.stuck) !== 0;
  s.zeroed = (second.flags & FLAG.notZeroed) === 0;
  s.lastUsableUs = reading.tUs;
  s.bar = level;
  s.uBar = second.uBar;
  recentAdd(s.recent, reading.tUs, level);
  s.median = median3(s.recent);
  return true;
}

export function secondBreak(s: SecondSignal): void {
  recentClear(s.recent);
  s.median = null;
}

/** No value for so long, while samples come, is a lost sensor, s; the pressure that the guard goes by has as long in a fill. */
const LOST_S = 1;

export const isSecondLost = (s: SecondSignal, tUs: number): boolean =>
  s.badSinceUs !== null && tUs - s.badSinceUs >= LOST_S * 1e6;

/** Neither lost nor standing still by itself: what it shows is seen now. */
export const isSecondSeen = (s: SecondSignal, tUs: number): boolean => !s.stuck && !isSecondLost(s, tUs);

/** A level this old says nothing of now, µs, however slow the device. */
const OLD_US = 2e6;

/** Its level now, bar, that no spike moves; null: it is old, or lost. */
export function secondNow(s: SecondSignal, tUs: number): number | null {
  if (s.lastUsableUs === null || tUs - s.lastUsableUs > OLD_US || isSecondLost(s, tUs)) return null;
  return s.median;
}

/** Mean of its last second, bar; null: too few readings. */
export function secondMean(s: SecondSignal, tUs: number): number | null {
  if (secondNow(s, tUs) === null) return null;
  const stats = recentStats(s.recent, tUs, tUs - 5 * OLD_US);
  return stats === null || stats.n < LEAST_MEAN ? null : stats.mean;
}
