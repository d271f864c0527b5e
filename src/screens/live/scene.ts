import type { Setup } from '../../job/setup.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { WatchView } from '../../watch/view.ts';
import type { Trust } from '../../widgets/trust.ts';
import type { ChecksOpen } from './checks-open.ts';
import type { CueCount } from './cue-count.ts';
import { ownOf } from './stage-doubts.ts';
import type { StartStep } from './start.ts';

/** What instruction, key and slots are made of: the moment, and the little that the page itself remembers of it. */
export interface Scene {
  readonly step: StartStep;
  readonly view: WatchView;
  readonly trust: Trust;
  readonly events: readonly WatchEvent[];
  readonly setup: Setup | null;
  readonly cue: CueCount;
  /** Seconds of the seat pause that are left; null: it has not begun. */
  readonly pauseLeftS: number | null;
  /** A run on a real packer was not closed, and none goes on: what hangs on it is not seen. */
  readonly leftOpen: boolean;
  /** The packer of a run that is over was not seen empty. */
  readonly leftFull: boolean;
  /** The key goes on with a run that was left open. */
  readonly resumes: boolean;
  /** The crew has said today whether it hears the alarms. */
  readonly soundTested: boolean;
  /** The job's checklist as it stands. */
  readonly checks: ChecksOpen;
}

/** Before anything was heard. */
export const BLANK_VIEW: WatchView = {
  tUs: 0,
  firstUs: null,
  bar: null,
  ageS: null,
  overBar: null,
  stale: false,
  uBar: null,
  flags: 0,
  temps: [],
  setup: null,
  limits: null,
  tap: 'unknown',
  line: 'unknown',
  standing: [],
  stage: 'prepare',
  attempt: 1,
  stageSinceUs: 0,
  guard: {
    restBar: null,
    rateBarPerS: null,
    settleBar: null,
    ceilingInS: null,
    closeInS: null,
    tooFast: null,
  },
  hold: null,
  cure: null,
  alarms: [],
  airNotWanted: null,
  fillStands: false,
  ventOpen: false,
  question: null,
  rebound: null,
  supply: null,
  airTest: null,
  cup: null,
  second: null,
  mixedUs: null,
  potLifeLeftS: null,
  peakBar: null,
};

/** Over this a line is under pressure, bar (stage-doubts.ts). */
export const PRESSED_BAR = 0.05;
/** Slower than this nobody is filling, bar/s. */
export const STILL_BAR_S = 0.004;
/** Of the working pressure: from here on a fill is at its end. */
const NEAR_WORKING = 0.9;
/** A hold begins at most this far over the working pressure, bar (stage-doubts.ts). */
const OVER_WORKING_BAR = 0.05;

export const isKnown = ({ trust }: Scene): boolean => trust === 'good' || trust === 'stale';

/** A line counts as at zero up to this or its U, whichever is larger, bar: the screens' copy of watch/signal/zero.ts. */
const ZERO_BAR = 0.02;

export const zeroToBar = ({ uBar }: Pick<WatchView, 'uBar'>): number => Math.max(ZERO_BAR, uBar ?? 0);

/** The resin of the job is not mixed yet. */
export const mixingWaits = ({ view, setup }: Pick<Scene, 'view' | 'setup'>): boolean =>
  setup !== null && setup.resin !== null && view.mixedUs === null;

export function atZero({ view }: Scene): boolean {
  return view.bar !== null && !view.stale && view.bar <= zeroToBar(view);
}

export const isPressed = ({ view }: Scene): boolean => view.bar === null || view.bar > PRESSED_BAR;

export const isStill = ({ view }: Scene): boolean => Math.abs(view.guard.rateBarPerS ?? 0) <= STILL_BAR_S;

/** Near or at the working pressure and not over it. */
export function inWorkingBand({ view }: Scene): boolean {
  const { bar, limits } = view;
  if (bar === null || limits === null || view.stale) return false;
  const least = Math.max(limits.floorBar ?? 0, NEAR_WORKING * limits.workingBar);
  return bar >= least && bar <= limits.workingBar + Math.max(OVER_WORKING_BAR, view.uBar ?? 0);
}

export function overWorking({ view }: Scene): boolean {
  const { bar, limits } = view;
  return (
    bar !== null && limits !== null && bar > limits.workingBar + Math.max(OVER_WORKING_BAR, view.uBar ?? 0)
  );
}

export const cureMet = ({ view }: Scene): boolean =>
  view.cure !== null && (view.cure.metAtS !== null || view.cure.low >= 1);

/** At a smaller share of the seat pressure two gauges that differ by a tenth read the same. */
const COMPARED_SHARE = 0.5;

/** A dial gauge's value beside a reading that could be trusted, at a pressure that tells something. */
export interface Compared {
  readonly gaugeBar: number;
  readonly readingBar: number;
  readonly agrees: boolean;
}

/** The dial gauge as it was compared in this seat pause; null: not yet, or not with a reading, or with next to no air. */
export function gaugeOf({ view, events }: Scene): Compared | null {
  const least = COMPARED_SHARE * (view.limits?.seatBar ?? 0);
  for (const e of [...events].reverse()) {
    if (e.tUs < view.stageSinceUs) return null;
    if (e.e !== 'gauge' || e.readingBar === null || e.agrees === null) continue;
    if (Math.max(e.readingBar, e.gaugeBar) >= least)
      return { gaugeBar: e.gaugeBar, readingBar: e.readingBar, agrees: e.agrees };
  }
  return null;
}

/** What the last rebound test of this letting down said; null: none was made, or a new one runs or may be made. */
export function reboundOf({ view, events }: Scene): Extract<WatchEvent, { e: 'rebound' }> | null {
  const own = ownOf(events, view.attempt);
  const up = own.findLastIndex(
    (e) => e.e === 'stage' && (e.stage === 'seat' || e.stage === 'inflate' || e.stage === 'hold'),
  );
  const last = own.slice(up + 1).findLast((e) => e.e === 'rebound');
  return last?.e === 'rebound' && last.what !== 'started' ? last : null;
}
