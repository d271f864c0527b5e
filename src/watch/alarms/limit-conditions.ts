/** What the rated pressure and the ceiling go by: the pressure of the guard, and the second one where it counts. */
import { PLUGS_MOST_BAR } from '../../job/air-test.ts';
import { specOf } from '../airtest/airtest.ts';
import type { AlarmCode } from '../codes.ts';
import { besideNow, type WatchState } from '../state.ts';
import { over } from './bounds.ts';
import type { Condition } from './machine.ts';
import { rowOf } from './table.ts';

/** Those of the table's rows. */
const DEADBAND = {
  overRated: rowOf('over-rated').deadband,
  overTest: rowOf('over-test').deadband,
  ceiling: rowOf('ceiling').deadband,
} as const;

/** The level that they go by, bar; null: there is none. Of two at the packer it is the higher. */
export function highest(w: WatchState): number | null {
  const { median } = w.signal;
  const beside = besideNow(w);
  if (median === null || beside === null) return median ?? beside;
  return Math.max(median, beside);
}

/** An outlet under a limit takes nothing back: the packer may be shut off from it, and full. */
const takesBack = (w: WatchState): boolean =>
  w.pair.signal.role !== 'outlet-pressure' || besideNow(w) === null;

export function overRated(w: WatchState): Condition {
  const limits = w.setup?.limits ?? null;
  const level = highest(w);
  if (limits === null) return 'off';
  if (level === null) return 'between';
  // At the rated value itself the packer is within its rating.
  if (level > limits.ratedBar) return 'on';
  return level > limits.ratedBar - DEADBAND.overRated || !takesBack(w) ? 'between' : 'off';
}

/** Between plugs no more than the test allows; where none is planned, no more than plugs ever get. */
export const testMostBar = ({ airTest, setup }: WatchState): number =>
  (airTest.run?.spec ?? specOf(setup))?.mostBar ?? PLUGS_MOST_BAR;

export function overTest(w: WatchState): Condition {
  if (w.stages.stage !== 'air-test') return 'off';
  const { median } = w.signal;
  return median === null ? 'between' : over(median, testMostBar(w), DEADBAND.overTest);
}

export function ceiling(w: WatchState): Condition {
  const limits = w.setup?.limits ?? null;
  const level = highest(w);
  if (limits === null) return 'off';
  if (w.verdict !== null && w.verdict.ceiling !== null) return 'on';
  if (level === null) return 'between';
  const is = over(level, limits.ceilingBar, DEADBAND.ceiling);
  return is === 'off' && !takesBack(w) ? 'between' : is;
}

/**
 * How many signs there are that an alarm is true: a sensor over the limit is one, and a rise of the guard's own pressure towards it is
 * another. So a second sensor that is wrong and high, and acknowledged, does not keep silent what the first one sees.
 */
export function voicesOf(w: WatchState, alarm: AlarmCode): number {
  const limits = w.setup?.limits ?? null;
  if (limits === null || (alarm !== 'over-rated' && alarm !== 'ceiling')) return 1;
  const limit = alarm === 'over-rated' ? limits.ratedBar : limits.ceilingBar;
  const { median } = w.signal;
  const own = median === null ? 0 : Number(median >= limit);
  const beside = Number((besideNow(w) ?? 0) >= limit);
  // What has passed the limit has risen to it.
  const rises = beside === 1 ? Math.max(own, Number((w.verdict?.rising ?? null) !== null)) : 0;
  return own + beside + rises;
}
