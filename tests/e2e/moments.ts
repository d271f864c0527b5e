import type { LinkView } from '../../src/engine/messages.ts';
import type { Limits } from '../../src/job/setup.ts';
import { BLANK_VIEW } from '../../src/screens/live/scene.ts';
import type { WatchEvent } from '../../src/watch/events.ts';
import type { AlarmView, SecondView, WatchView } from '../../src/watch/view.ts';
import type { Course, Scene } from './staged.ts';

/** What moments of Live for the staged engine are made of. */

const LIMITS: Limits = {
  ratedBar: 1.8,
  uBar: 0.03,
  ceilingBar: 1.74,
  workingBar: 1.5,
  seatBar: 0.4,
  floorBar: 0.77,
  headBar: 0.2,
  freeInflationBar: 0.4,
  seatingMarginBar: 0.17,
  noMargin: null,
  cue: true,
};

export const at = (value: number, share = 0.02) => ({
  value,
  low: value * (1 - share),
  high: value * (1 + share),
});

export const alarmOf = (part: Partial<AlarmView> & Pick<AlarmView, 'alarm'>): AlarmView => ({
  priority: 'urgent',
  state: 'unacknowledged',
  occurrence: 1,
  sinceUs: 0,
  begunUs: part.sinceUs ?? 0,
  shelvable: false,
  values: {},
  ...part,
});

/** A run of that many seconds, its stage `inStage` seconds old, but for what a picture says. */
export function moment(seconds: number, inStage: number, part: Partial<WatchView> = {}): WatchView {
  return {
    ...BLANK_VIEW,
    tUs: seconds * 1e6,
    firstUs: 0,
    bar: 0,
    ageS: 0.02,
    uBar: 0.03,
    temps: [
      { channel: 1, place: 'sleeve', c: 10.1, uC: 0.5, flags: 0 },
      { channel: 2, place: 'air', c: 12.4, uC: 0.5, flags: 0 },
      { channel: 3, place: 'pipe', c: 10, uC: 0.5, flags: 0 },
    ],
    setup: 1,
    limits: LIMITS,
    tap: 'hose',
    line: 'closed',
    stageSinceUs: (seconds - inStage) * 1e6,
    guard: { ...BLANK_VIEW.guard, rateBarPerS: 0 },
    ...part,
  };
}

/** A course that rises and stands, seen from now backwards. */
export function course(
  seconds: number,
  stepS: number,
  bar: (ago: number) => number | null,
  now: readonly number[] = [10.1, 12.4, 10],
): Course {
  const n = Math.floor(seconds / stepS) + 1;
  const ago = Array.from({ length: n }, (_, i) => (n - 1 - i) * stepS);
  return {
    seconds,
    stepS,
    bar: ago.map(bar),
    temps: now.map((c, i) => ({
      channel: i + 1,
      c: ago.map((a) => c + 0.4 * (i + 1) * Math.sin(a / (seconds / 4)) * Math.min(1, a / 60)),
    })),
  };
}

export const LINK: LinkView = {
  state: 'streaming',
  error: null,
  kind: 'serial',
  hello: null,
  channels: [],
  other: null,
  deviceGuard: null,
  rateHz: 50,
  frames: 1000,
  strayBytes: 0,
  baudRate: null,
  strayLine: null,
  map: null,
  doubts: [],
  beside: null,
  port: null,
  mostHz: null,
};

export function sceneOf(
  view: WatchView,
  drawn: Course,
  more: {
    readonly events?: readonly WatchEvent[];
    readonly practice?: boolean;
    readonly link?: Partial<LinkView>;
    readonly noRun?: boolean;
  } = {},
): Scene {
  const practice = more.practice === true;
  return {
    view,
    link: { ...LINK, kind: practice ? 'rig' : 'serial', ...more.link },
    run:
      more.noRun === true
        ? null
        : {
            runId: `run-${view.tUs}-${view.stage}`,
            jobId: null,
            practice,
            resumed: false,
            savedUs: view.tUs,
            bytes: 5e5,
            storeFault: null,
          },
    rig: practice
      ? {
          truePackerBar: 1.4,
          trueLineBar: 1.4,
          valveOpen: 0.5,
          ventOpen: false,
          regulatorBar: 2,
          coupled: true,
          endShut: false,
          sensed: [],
          drill: null,
          simulatedS: 10,
          speed: 1,
        }
      : null,
    events: more.events ?? [],
    course: drawn,
  };
}

export const fill = (from: number, to: number, s: number) => (ago: number) =>
  ago > s + 40
    ? 0
    : ago > s + 20
      ? 0.4 * Math.min(1, (s + 40 - ago) / 15)
      : ago > s
        ? 0.4
        : from + (to - from) * ((s - ago) / s) ** 0.85;
export const held = (seconds: number, bar: number) => (ago: number) =>
  ago > seconds - 30 ? (bar * Math.max(0, seconds - ago)) / 30 : bar + 0.004 * Math.sin(ago / 300);

export const hold = (
  minutes: number,
  more: Partial<NonNullable<WatchView['hold']>> = {},
): WatchView['hold'] => ({
  sinceS: 60,
  minutesInBand: minutes,
  minBar: 1.45,
  maxBar: 1.51,
  still: true,
  leak: { verdict: 'tight', mbarPerMin: 0.05, low: 0, high: 0.2, paM3PerS: null, reason: null },
  bandExit: null,
  lift: null,
  ...more,
});
export const cure = (
  low: number,
  high: number,
  metInS: number | null,
  metAtS: number | null = null,
): WatchView['cure'] => ({
  sinceS: 60,
  progress: (low + high) / 2,
  low,
  high,
  equivalentAgeMin: 60,
  coldest: at(10),
  source: 'sleeve',
  metInS: metInS === null ? null : { value: metInS, low: metInS * 0.93, high: metInS * 1.07 },
  metAtS,
  exotherm: null,
});
export const guardOf = (part: Partial<WatchView['guard']>): WatchView['guard'] => ({
  restBar: null,
  rateBarPerS: 0,
  settleBar: null,
  ceilingInS: null,
  closeInS: null,
  tooFast: null,
  ...part,
});
export const rising = (s: number) => guardOf({ rateBarPerS: s, restBar: at(1.09) });
export const outlet = (bar: number | null, path: SecondView['path']): SecondView => ({
  role: 'outlet-pressure',
  bar,
  lost: false,
  zeroed: true,
  stoodBar: 1.65,
  path,
});
export const tested = (tUs: number, what: 'stayed' | 'came-back', bar: number, seconds: number) => [
  { tUs: tUs - 30e6, e: 'stage', stage: 'let-down', attempt: 1, by: 'operator' } as WatchEvent,
  { tUs, e: 'rebound', what, bar, seconds } as WatchEvent,
];
