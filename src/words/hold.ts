import type { CannotTellReason, LeakFigure, LeakVerdict } from '../watch/events.ts';
import type { CureView, HoldView } from '../watch/view.ts';
import { duration, METRIC, pressure, pressureNumber, pressureRate, temperature } from './format.ts';

export const LEAK_VERDICT: Record<LeakVerdict, string> = {
  leaking: 'Leaking',
  tight: 'Tight',
  'cannot-tell': 'Cannot tell yet',
  'cannot-be-seen': 'Cannot be seen',
};

export const CANNOT_TELL: Record<CannotTellReason, string> = {
  tap: 'the sensor does not read the packer’s pressure',
  line: 'the line is supplied: the regulator makes up for a leak',
  'too-short': 'the line has not been closed and still for long enough',
  'temperature-trend': 'the trend of the gas temperature is not known well enough',
  settling: 'the heat of the fill fades and the rubber settles',
  'no-pressure': 'there is no usable pressure reading',
};

/** An upper bound is rounded up, and never to nothing: no line is tight to 0.0 mbar/min. */
const boundUp = (mbarPerMin: number): number => Math.max(0.1, Math.ceil(mbarPerMin * 10 - 1e-9) / 10);

/** The leak in one line: verdict, figure with its interval, or why there is none. */
export function leakText(leak: LeakFigure, units = METRIC): string {
  const word = LEAK_VERDICT[leak.verdict];
  switch (leak.verdict) {
    case 'leaking': {
      const interval =
        leak.low === null || leak.high === null
          ? ''
          : ` (95 %: ${pressureRate(leak.low, units)} to ${pressureRate(leak.high, units)})`;
      return `${word} ${pressureRate(leak.mbarPerMin, units)}${interval}`;
    }
    case 'tight':
      return leak.high === null ? word : `${word} to ${pressureRate(boundUp(leak.high), units)}`;
    default:
      return leak.reason === null ? word : `${word}: ${CANNOT_TELL[leak.reason]}`;
  }
}

/** Warmth to come, with its advice; advice has a floor or says that the floor is unknown. */
export function liftText(lift: NonNullable<HoldView['lift']>, units = METRIC): string {
  const peak = `Warmth will lift the pressure to ${pressure(lift.peakBar.value, units)} (${pressureNumber(lift.peakBar.low, units)} to ${pressureNumber(lift.peakBar.high, units)})`;
  const when = lift.ceilingInS === null ? '' : `, ceiling in ${duration(lift.ceilingInS.value)}`;
  if (lift.adviceHighBar === null) return `${peak}${when}`;
  const floor =
    lift.adviceLowBar === null
      ? 'the hold floor is not known'
      : `not under ${pressureNumber(lift.adviceLowBar, units)}`;
  return `${peak}${when}: let out to ${pressure(lift.adviceHighBar, units)}, ${floor}`;
}

/** A rise that reaches the ceiling sooner than this is shown whatever the forecast of the lift says, s. */
const RISE_SHOWN_S = 900;

/**
 * The band exit, where it agrees with what else is known. The exit carries the pressure's course on in a straight
 * line: where the forecast of the lift knows that the warmth ends under the ceiling, a far exit upwards is
 * not shown.
 */
export function bandExitShown(hold: HoldView, ceilingBar: number | null): HoldView['bandExit'] {
  const { bandExit: exit, lift } = hold;
  if (exit === null || exit.direction === 'down' || exit.inS.value <= RISE_SHOWN_S) return exit;
  return lift !== null && ceilingBar !== null && lift.peakBar.high < ceilingBar ? null : exit;
}

/** Warmth that ends under the ceiling is not spoken of while the pressure is surely falling. */
export function liftShown(hold: HoldView): HoldView['lift'] {
  const { lift, bandExit } = hold;
  if (lift === null || bandExit?.direction !== 'down') return lift;
  return lift.adviceHighBar === null && lift.ceilingInS === null ? null : lift;
}

/** Names a leak as the cause only where a leak was found: a line that is tight falls as its gas cools. */
export function bandExitText(exit: NonNullable<HoldView['bandExit']>, verdict: LeakVerdict): string {
  const when = `in ${duration(exit.inS.value)} (${duration(exit.inS.low)} to ${duration(exit.inS.high)})`;
  if (exit.direction === 'up') return `Will leave the hold band upwards by warmth ${when}`;
  if (verdict === 'leaking') return `Will leave the hold band downwards by leak ${when}`;
  const why = verdict === 'tight' ? 'as it cools' : 'like this';
  return `If the pressure goes on falling ${why}: under the hold floor ${when}`;
}

export const CURE_SOURCE: Record<CureView['source'], string> = {
  sleeve: 'from the probe at the sleeve',
  'air-model': 'from the air in the packer and the ground, taken to the cold side',
  pipe: 'from the probe at the pipe wall',
  ground: 'from the planned ground temperature',
  none: 'no temperature to count by',
};

/**
 * Words about the cure claim what can be known: the data sheet's time at the coldest credible place, as a
 * lower bound. They never say that the resin is hard or that anything may be opened.
 */
export const CURE = {
  name: 'Cure time by the data sheet',
  met: 'Cure time by the data sheet met at the coldest credible place (lower bound)',
  notMet: 'Cure time by the data sheet not met',
  notKnown: 'Cure time cannot be told',
  noResin: 'No resin on the job sheet: cure time is not followed',
  notStarted: 'Counts from seating on',
  notHeld: 'Counts since seating; when it will be met is told from the hold on',
  willBeMet: 'Lower bound met',
  exotherm: 'Exotherm (forecast from a generic sketch of the resin): warmest',
  bounds: 'lower and upper bound',
  askWitness: 'Feel the witness sample kept at pipe temperature before let-down',
} as const;

export function coldestText(cure: CureView, units = METRIC): string {
  if (cure.coldest === null) return `Coldest credible place: ${CURE_SOURCE[cure.source]}`;
  return `Coldest credible place ${temperature(cure.coldest.value, units)} (${CURE_SOURCE[cure.source]})`;
}
