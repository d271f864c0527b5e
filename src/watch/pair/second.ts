/** The signal of a second pressure: its level now, and whether it still tells one. Plain data. */
import type { SecondPressure } from '../../job/codes.ts';
import { isSecondPressure } from '../../job/pressure-roles.ts';
import type { Setup } from '../../job/setup.ts';
import type { Reading, SecondReading } from '../../sensing/reading.ts';
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

/** The sample as it were if the second pressure were the only one. */
export const asReading = (reading: Reading, { bar, uBar, flags, stepBar }: SecondReading): Reading => ({
  ...reading,
  bar,
  uBar,
  flags,
  stepBar,
});

/**
 * Takes what a sample holds of the second pressure. True where it holds a new level. Over the span of its sensor it is at
 * least so high, which a guard must know.
 */
export function secondReading(s: SecondSignal, reading: Reading): boolean {
  const { second } = reading;
  s.role = second?.role ?? s.role;
  const use = second === undefined ? 'fault' : usability(asReading(reading, second));
  if (use === 'held') return false;
  if (second === undefined || second.bar === null || (use !== 'usable' && use !== 'over')) {
    s.badSinceUs ??= reading.tUs;
    return false;
  }
  s.badSinceUs = null;
  s.lastUsableUs = reading.tUs;
  s.bar = second.bar;
  s.uBar = second.uBar;
  recentAdd(s.recent, reading.tUs, second.bar);
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
