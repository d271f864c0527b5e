import type { CannotTellReason, LeakFigure, LeakVerdict } from '../../watch/events.ts';
import type { CureView, HoldView } from '../../watch/view.ts';
import { type Format, METRIC } from '../create-format.ts';
import { boundUp } from './figures.ts';

/** What is said of a hold and its cure, case by case and with which figures: once for every language. */

export interface HoldWords {
  readonly verdict: Record<LeakVerdict, string>;
  readonly cannotTell: Record<CannotTellReason, string>;
  readonly source: Record<CureView['source'], string>;
  /** Between a thing and what is said of it. */
  readonly colon: string;
  range(low: string, high: string): string;
  noLeakAbove(rate: string): string;
  /** Cure heat raises the pressure to so much. */
  raisesTo(pressure: string): string;
  ceilingIn(time: string): string;
  letOutTo(pressure: string): string;
  /** Behind it: how far down. */
  readonly floorUnknown: string;
  readonly noFurther: string;
  notUnder(pressure: string): string;
  /** A time from now. */
  within(time: string): string;
  leavesUpwards(when: string): string;
  leavesByLeak(when: string): string;
  fallsOut(when: string, asItCools: boolean): string;
  readonly coldest: string;
}

/** A figure and its interval, each as it reads. */
export interface Ends {
  readonly value: string;
  readonly low: string;
  readonly high: string;
}

/** Ends that read the same are no range. */
export const endsIn =
  (range: HoldWords['range']) =>
  ({ low, high }: Ends): string =>
    low === high ? '' : ` (${range(low, high)})`;

export function holdTexts(f: Format, w: HoldWords) {
  const within = (range: string): string => ` (${range})`;
  return {
    /** The leak in one line: verdict, figure with its interval, or why there is none. */
    leakText(leak: LeakFigure, units = METRIC): string {
      const word = w.verdict[leak.verdict];
      const rate = (mbarPerMin: number | null) => f.pressureRate(mbarPerMin, units);
      switch (leak.verdict) {
        case 'leaking': {
          const interval =
            leak.low === null || leak.high === null
              ? ''
              : within(`95\u00a0%${w.colon}${w.range(rate(leak.low), rate(leak.high))}`);
          return `${word} ${rate(leak.mbarPerMin)}${interval}`;
        }
        case 'tight':
          return leak.high === null ? word : w.noLeakAbove(rate(boundUp(leak.high)));
        case 'cannot-tell':
        case 'cannot-be-seen':
          return leak.reason === null ? word : `${word}${w.colon}${w.cannotTell[leak.reason]}`;
      }
    },

    /** Warmth to come, with its advice; advice has a floor or says that the floor is unknown. */
    liftText(lift: NonNullable<HoldView['lift']>, units = METRIC): string {
      const { value, low, high } = lift.peakBar;
      const number = (bar: number) => f.pressureNumber(bar, units);
      const peak = `${w.raisesTo(f.pressure(value, units))}${within(w.range(number(low), number(high)))}`;
      const when = lift.ceilingInS === null ? '' : `, ${w.ceilingIn(f.duration(lift.ceilingInS.value))}`;
      if (lift.adviceHighBar === null) return `${peak}${when}`;
      const floor =
        lift.adviceLowBar === null
          ? w.floorUnknown
          : number(lift.adviceLowBar) === number(lift.adviceHighBar)
            ? w.noFurther
            : w.notUnder(number(lift.adviceLowBar));
      return `${peak}${when}${w.colon}${w.letOutTo(f.pressure(lift.adviceHighBar, units))}, ${floor}`;
    },

    /** Names a leak as the cause only where a leak was found: a line that is tight falls as its gas cools. */
    bandExitText(exit: NonNullable<HoldView['bandExit']>, verdict: LeakVerdict): string {
      const { value, low, high } = exit.inS;
      const when = `${w.within(f.duration(value))}${within(w.range(f.duration(low), f.duration(high)))}`;
      if (exit.direction === 'up') return w.leavesUpwards(when);
      return verdict === 'leaking' ? w.leavesByLeak(when) : w.fallsOut(when, verdict === 'tight');
    },

    coldestText(cure: CureView, units = METRIC): string {
      const source = w.source[cure.source];
      return cure.coldest === null
        ? `${w.coldest}${w.colon}${source}`
        : `${w.coldest} ${f.temperature(cure.coldest.value, units)}${within(source)}`;
    },

    /** The same of a whole cure, beside its name. */
    coldestValue: (
      spot: { readonly c: number; readonly source: CureView['source'] },
      units = METRIC,
    ): string => `${f.temperature(spot.c, units)}${within(w.source[spot.source])}`,
  };
}
