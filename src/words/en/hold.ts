import type { CannotTellReason, LeakFigure, LeakVerdict } from '../../watch/events.ts';
import type { CureView, HoldView } from '../../watch/view.ts';
import { type Format, METRIC } from '../create-format.ts';
import { boundUp } from '../said/figures.ts';

/** What the hold and the cure show. */

const LEAK_VERDICT: Record<LeakVerdict, string> = {
  leaking: 'Leaking',
  tight: 'No leak seen',
  'cannot-tell': 'Cannot tell',
  'cannot-be-seen': 'Cannot be seen',
};

const CANNOT_TELL: Record<CannotTellReason, string> = {
  tap: 'the sensor does not read the packer’s pressure',
  line: 'the line is supplied: the regulator makes up for a leak',
  'too-short': 'the line has not been shut and still for long enough',
  'temperature-trend': 'air temperature trend not known well enough',
  'sensor-warmth':
    'the pressure sensor’s own warmth may move its reading as much: keep it out of sun and wind',
  'not-gas': 'with water or steam in the packer the pressure does not go by the gas law',
  settling: 'air still cooling, rubber still stretching',
  'no-pressure': 'there is no usable pressure reading',
};

const CURE_SOURCE: Record<CureView['source'], string> = {
  sleeve: 'from the probe at the sleeve',
  'air-model': 'from the air in the packer and the ground, taken to the cold side',
  pipe: 'from the probe at the pipe wall',
  ground: 'from the planned ground temperature',
  none: 'no temperature to count by',
};

/** A figure and its interval, each as it reads. */
export interface Ends {
  readonly value: string;
  readonly low: string;
  readonly high: string;
}

/** Ends that read the same are no range. */
const ends = ({ low, high }: Ends): string => (low === high ? '' : ` (${low} to ${high})`);

/**
 * Words about the cure claim what can be known: the data sheet's time at the coldest likely spot, by a cautious
 * count. They never say that the resin is hard or that anything may be opened.
 */
const CURE = {
  name: 'Data-sheet cure time',
  met: 'Data-sheet cure time reached at the coldest likely spot (cautious count)',
  notMet: 'Data-sheet cure time not reached',
  notKnown: 'Cure time not known',
  notJudged: 'Cure is not judged: the resin cures by light',
  noResin: 'No resin on the job sheet: cure time is not followed',
  notStarted: 'Counts from seating on',
  notHeld: 'Counts since seating; when it will be reached is told from the hold on',
  willBeMetAt: (clock: Ends, inTime: string): string =>
    `Reached at about ${clock.value}${ends(clock)}, in ${inTime}`,
  willBeMetIn: (time: Ends): string => `Reached in about ${time.value}${ends(time)}`,
  exothermAt: (clock: Ends, inTime: string, warmest: Ends): string =>
    `Exotherm (forecast from a generic sketch of the resin): warmest at about ${clock.value}${ends(clock)}, in ${inTime}: ${warmest.value}${ends(warmest)}`,
  exothermIn: (time: Ends, warmest: Ends): string =>
    `Exotherm (forecast from a generic sketch of the resin): warmest in about ${time.value}${ends(time)}: ${warmest.value}${ends(warmest)}`,
  progress: ({ value, low, high }: Ends): string => `${value} (cautious count ${low}, at most ${high}).`,
  progressOver: (low: string): string =>
    `Not reached: by the cautious count ${low} of the cure time has passed. Only the likely count is over the end.`,
  between: (low: string, high: string): string => `${low} to ${high}`,
};

export function hold(f: Format) {
  return {
    CURE,

    /** The leak in one line: verdict, figure with its interval, or why there is none. */
    leakText(leak: LeakFigure, units = METRIC): string {
      const word = LEAK_VERDICT[leak.verdict];
      switch (leak.verdict) {
        case 'leaking': {
          const interval =
            leak.low === null || leak.high === null
              ? ''
              : ` (95 %: ${f.pressureRate(leak.low, units)} to ${f.pressureRate(leak.high, units)})`;
          return `${word} ${f.pressureRate(leak.mbarPerMin, units)}${interval}`;
        }
        case 'tight':
          return leak.high === null ? word : `No leak above ${f.pressureRate(boundUp(leak.high), units)}`;
        case 'cannot-tell':
        case 'cannot-be-seen':
          return leak.reason === null ? word : `${word}: ${CANNOT_TELL[leak.reason]}`;
      }
    },

    /** Warmth to come, with its advice; advice has a floor or says that the floor is unknown. */
    liftText(lift: NonNullable<HoldView['lift']>, units = METRIC): string {
      const { value, low, high } = lift.peakBar;
      const peak = `Cure heat will raise the pressure to ${f.pressure(value, units)} (${f.pressureNumber(low, units)} to ${f.pressureNumber(high, units)})`;
      const when = lift.ceilingInS === null ? '' : `, ceiling in ${f.duration(lift.ceilingInS.value)}`;
      if (lift.adviceHighBar === null) return `${peak}${when}`;
      const floor =
        lift.adviceLowBar === null
          ? 'the hold floor is not known'
          : f.pressureNumber(lift.adviceLowBar, units) === f.pressureNumber(lift.adviceHighBar, units)
            ? 'no further'
            : `not under ${f.pressureNumber(lift.adviceLowBar, units)}`;
      return `${peak}${when}: let out to ${f.pressure(lift.adviceHighBar, units)}, ${floor}`;
    },

    /** Names a leak as the cause only where a leak was found: a line that is tight falls as its gas cools. */
    bandExitText(exit: NonNullable<HoldView['bandExit']>, verdict: LeakVerdict): string {
      const { value, low, high } = exit.inS;
      const when = `in ${f.duration(value)} (${f.duration(low)} to ${f.duration(high)})`;
      if (exit.direction === 'up') return `Will leave the hold band upwards by cure heat ${when}`;
      if (verdict === 'leaking') return `Will leave the hold band downwards by leak ${when}`;
      const why = verdict === 'tight' ? 'as it cools' : 'like this';
      return `If the pressure goes on falling ${why}: under the hold floor ${when}`;
    },

    coldestText(cure: CureView, units = METRIC): string {
      if (cure.coldest === null) return `Coldest likely spot: ${CURE_SOURCE[cure.source]}`;
      return `Coldest likely spot ${f.temperature(cure.coldest.value, units)} (${CURE_SOURCE[cure.source]})`;
    },

    /** The same of a whole cure, beside its name. */
    coldestValue(spot: { readonly c: number; readonly source: CureView['source'] }, units = METRIC): string {
      return `${f.temperature(spot.c, units)} (${CURE_SOURCE[spot.source]})`;
    },
  };
}
