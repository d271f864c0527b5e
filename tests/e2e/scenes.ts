import type { LinkView } from '../../src/engine/messages.ts';
import type { Limits } from '../../src/job/setup.ts';
import { BLANK_VIEW } from '../../src/screens/live/scene.ts';
import type { WatchEvent } from '../../src/watch/events.ts';
import type { AlarmView, SecondView, WatchView } from '../../src/watch/view.ts';
import type { Course, Scene } from './staged.ts';

/** Moments of Live for the staged engine: every stage, and alarms of each kind. */

export const LIMITS: Limits = {
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

const at = (value: number, share = 0.02) => ({ value, low: value * (1 - share), high: value * (1 + share) });

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

const LINK: LinkView = {
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
          simulatedS: 10,
          speed: 1,
        }
      : null,
    events: more.events ?? [],
    course: drawn,
  };
}

const fill = (from: number, to: number, s: number) => (ago: number) =>
  ago > s + 40
    ? 0
    : ago > s + 20
      ? 0.4 * Math.min(1, (s + 40 - ago) / 15)
      : ago > s
        ? 0.4
        : from + (to - from) * ((s - ago) / s) ** 0.85;
const held = (seconds: number, bar: number) => (ago: number) =>
  ago > seconds - 30 ? (bar * Math.max(0, seconds - ago)) / 30 : bar + 0.004 * Math.sin(ago / 300);

const hold = (minutes: number, more: Partial<NonNullable<WatchView['hold']>> = {}): WatchView['hold'] => ({
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
const cure = (
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
const guardOf = (part: Partial<WatchView['guard']>): WatchView['guard'] => ({
  restBar: null,
  rateBarPerS: 0,
  settleBar: null,
  ceilingInS: null,
  closeInS: null,
  tooFast: null,
  ...part,
});
const rising = (s: number) => guardOf({ rateBarPerS: s, restBar: at(1.09) });
const outlet = (bar: number | null, path: SecondView['path']): SecondView => ({
  role: 'outlet-pressure',
  bar,
  lost: false,
  stoodBar: 1.65,
  path,
});
const tested = (tUs: number, what: 'stayed' | 'came-back', bar: number, seconds: number) => [
  { tUs: tUs - 30e6, e: 'stage', stage: 'let-down', attempt: 1, by: 'operator' } as WatchEvent,
  { tUs, e: 'rebound', what, bar, seconds } as WatchEvent,
];

/** Every stage, and alarms of each kind. */
export const SCENES: Readonly<Record<string, () => Scene>> = {
  prepare: () =>
    sceneOf(
      moment(370, 370, { mixedUs: 1e6, potLifeLeftS: 1690 }),
      course(120, 0.2, () => 0.002),
    ),
  seat: () =>
    sceneOf(
      moment(400, 31, { stage: 'seat', bar: 0.4, guard: guardOf({ rateBarPerS: 0.001 }) }),
      course(120, 0.2, (a) => (a > 38 ? 0 : Math.min(0.4, 0.02 * (38 - a)))),
    ),
  cue: () =>
    sceneOf(
      moment(440, 19, {
        stage: 'inflate',
        bar: 1.12,
        guard: { ...rising(0.047), settleBar: at(1.52), closeInS: at(8.4) },
      }),
      course(120, 0.2, fill(0.39, 1.12, 19)),
    ),
  hold: () =>
    sceneOf(
      moment(3900, 3860, {
        stage: 'hold',
        bar: 1.47,
        hold: hold(64),
        cure: cure(0.36, 0.42, 6100),
        peakBar: 1.51,
      }),
      course(3900, 2, held(3900, 1.47)),
    ),
  met: () =>
    sceneOf(
      moment(11000, 10940, {
        stage: 'hold',
        bar: 1.46,
        hold: hold(183),
        cure: cure(1.02, 1.1, null, 10100),
        peakBar: 1.51,
      }),
      course(11000, 5, held(11000, 1.46)),
    ),
  'let-down': () =>
    sceneOf(
      moment(11100, 72, {
        stage: 'let-down',
        bar: 0.62,
        cure: cure(1.04, 1.12, null, 10100),
        guard: guardOf({ rateBarPerS: -0.009 }),
        peakBar: 1.51,
      }),
      course(120, 0.2, (a) => 0.62 * Math.exp(a / 84)),
    ),
  test: () =>
    sceneOf(
      moment(11400, 302, {
        stage: 'let-down',
        bar: 0.004,
        cure: cure(1.04, 1.12, null, 10100),
        rebound: { sinceUs: 11386e6, needS: 25, startBar: 0 },
        peakBar: 1.51,
      }),
      course(120, 0.2, () => 0.003),
    ),
  done: () =>
    sceneOf(
      moment(11500, 20, { stage: 'done', bar: 0, cure: cure(1.04, 1.12, null, 10100), peakBar: 1.51 }),
      course(120, 0.2, () => 0),
      {
        events: tested(11470e6, 'stayed', 0, 25),
      },
    ),
  rising: () =>
    sceneOf(
      moment(445, 24, {
        stage: 'inflate',
        bar: 1.38,
        guard: { ...rising(0.06), settleBar: at(1.93), ceilingInS: at(6.4) },
        alarms: [
          alarmOf({
            alarm: 'rising',
            sinceUs: 442e6,
            values: {
              kind: 'settle',
              settleBar: 1.93,
              settleLowBar: 1.88,
              settleHighBar: 1.97,
              ceilingBar: 1.74,
              inS: 6.4,
            },
          }),
        ],
      }),
      course(120, 0.2, fill(0.39, 1.38, 24)),
    ),
  ceiling: () =>
    sceneOf(
      moment(450, 30, {
        stage: 'inflate',
        bar: 1.76,
        guard: rising(0.015),
        alarms: [alarmOf({ alarm: 'ceiling', sinceUs: 449e6, values: { bar: 1.76, ceilingBar: 1.74 } })],
      }),
      course(120, 0.2, fill(0.39, 1.76, 30)),
    ),
  'over-rated': () =>
    sceneOf(
      moment(470, 52, {
        stage: 'inflate',
        bar: 3.0,
        peakBar: 3.0,
        guard: rising(0.01),
        alarms: [
          alarmOf({ alarm: 'over-rated', sinceUs: 444e6, values: { bar: 3.0, ratedBar: 1.8, overBar: 1.2 } }),
        ],
      }),
      course(120, 0.2, (a) =>
        a < 40 ? 1.3 + 1.7 * (1 - Math.exp(-(40 - a) / 9)) : fill(0.39, 1.3, 20)(a - 40),
      ),
    ),
  'over-range': () =>
    sceneOf(
      moment(478, 58, {
        stage: 'inflate',
        bar: 4,
        overBar: 4,
        peakBar: 4,
        alarms: [alarmOf({ alarm: 'over-range', sinceUs: 440e6, values: { spanBar: 4 } })],
      }),
      course(120, 0.2, (a) =>
        Math.min(4, a < 46 ? 1.3 + 3 * (1 - Math.exp(-(46 - a) / 14)) : fill(0.39, 1.3, 20)(a - 46)),
      ),
    ),
  lost: () =>
    sceneOf(
      moment(2530, 2470, {
        stage: 'hold',
        bar: null,
        ageS: 6.2,
        stale: true,
        hold: hold(41),
        temps: [],
        cure: cure(0.2, 0.24, 8000),
        alarms: [
          alarmOf({
            alarm: 'pressure-lost',
            sinceUs: 2526e6,
            values: { bar: 1.46, cause: 'port', seconds: 6.2 },
          }),
        ],
      }),
      course(2530, 1, (a) => (a < 7 ? null : held(2530, 1.46)(a))),
    ),
  several: () =>
    sceneOf(
      moment(2550, 2490, {
        stage: 'hold',
        bar: null,
        ageS: 28,
        stale: true,
        hold: hold(41),
        temps: [],
        alarms: [
          alarmOf({
            alarm: 'pressure-lost',
            sinceUs: 2526e6,
            values: { bar: 1.46, cause: 'port', seconds: 28 },
          }),
          alarmOf({ alarm: 'store-fault', priority: 'high', sinceUs: 2500e6, values: { cause: 'full' } }),
          alarmOf({ alarm: 'clock-jump', priority: 'low', sinceUs: 2500e6, values: { seconds: 40 } }),
        ],
      }),
      course(2530, 1, (a) => (a < 28 ? null : held(2530, 1.46)(a))),
    ),
  lift: () =>
    sceneOf(
      moment(4960, 4900, {
        stage: 'hold',
        bar: 1.61,
        guard: guardOf({ settleBar: at(1.78, 0.01) }),
        hold: hold(82, {
          lift: { peakBar: at(1.78), ceilingInS: at(540), adviceLowBar: 0.9, adviceHighBar: 1.35 },
        }),
        cure: cure(0.61, 0.7, 3480),
        alarms: [
          alarmOf({
            alarm: 'lift',
            priority: 'high',
            shelvable: true,
            sinceUs: 4930e6,
            values: {
              bar: 1.61,
              settleBar: 1.78,
              adviceLowBar: 0.9,
              adviceHighBar: 1.35,
              ceilingBar: 1.74,
              inS: 540,
            },
          }),
        ],
      }),
      course(4960, 2, (a) => held(4960, 1.46)(a) + 0.15 * Math.exp(-a / 1100)),
    ),
  fall: () =>
    sceneOf(
      moment(3000, 2900, {
        stage: 'hold',
        bar: 1.1,
        hold: hold(50),
        question: 'let-down-or-loss',
        alarms: [
          alarmOf({
            alarm: 'fast-fall',
            priority: 'high',
            sinceUs: 2996e6,
            values: { bar: 1.1, floorBar: 0.77 },
          }),
        ],
      }),
      course(3000, 1, (a) => (a < 6 ? 1.1 + 0.06 * a : held(3000, 1.46)(a))),
    ),
  cold: () =>
    sceneOf(
      moment(1390, 1330, {
        stage: 'hold',
        bar: 1.47,
        hold: hold(22),
        cure: cure(0.06, 0.08, null),
        alarms: [
          alarmOf({ alarm: 'cold', priority: 'low', shelvable: true, sinceUs: 1300e6, values: { c: 4.6 } }),
          alarmOf({
            alarm: 'leaking',
            priority: 'high',
            state: 'shelved',
            sinceUs: 1200e6,
            shelvedUntilUs: 2830e6,
            values: { mbarPerMin: 3 },
          }),
        ],
      }),
      course(1390, 1, held(1390, 1.47)),
    ),
  rebound: () =>
    sceneOf(
      moment(11400, 302, {
        stage: 'let-down',
        bar: 0.06,
        cure: cure(1.04, 1.12, null, 10100),
        alarms: [alarmOf({ alarm: 'rebound', priority: 'high', sinceUs: 11398e6, values: { bar: 0.06 } })],
      }),
      course(120, 0.2, (a) => (a < 14 ? 0.0045 * (14 - a) : 0)),
      { events: tested(11398e6, 'came-back', 0.06, 14) },
    ),
  was: () =>
    sceneOf(
      moment(480, 60, {
        stage: 'inflate',
        bar: 1.5,
        alarms: [
          alarmOf({
            alarm: 'ceiling',
            state: 'returned',
            sinceUs: 460e6,
            values: { bar: 1.76, ceilingBar: 1.74 },
          }),
        ],
      }),
      course(120, 0.2, fill(0.39, 1.5, 60)),
    ),
  'supply-over': () =>
    sceneOf(
      moment(440, 19, {
        stage: 'inflate',
        bar: 1.12,
        guard: { ...rising(0.047), settleBar: at(1.52), closeInS: at(8.4) },
        second: outlet(2.6, 'flows'),
        alarms: [
          alarmOf({
            alarm: 'supply-over',
            sinceUs: 438e6,
            values: { bar: 1.12, secondBar: 2.6, ceilingBar: 1.74 },
          }),
        ],
      }),
      course(120, 0.2, fill(0.39, 1.12, 19)),
    ),
  'sensors-differ': () =>
    sceneOf(
      moment(440, 19, {
        stage: 'inflate',
        bar: 1.12,
        guard: rising(0.047),
        second: outlet(0.74, 'flows'),
        alarms: [
          alarmOf({
            alarm: 'sensors-differ',
            priority: 'high',
            sinceUs: 436e6,
            values: { bar: 1.12, secondBar: 0.74, cause: 'against-flow' },
          }),
        ],
      }),
      course(120, 0.2, fill(0.39, 1.12, 19)),
    ),
  'second-lost': () =>
    sceneOf(
      moment(3900, 3860, {
        stage: 'hold',
        bar: 1.47,
        hold: hold(64),
        cure: cure(0.36, 0.42, 6100),
        second: { ...outlet(null, null), lost: true },
        alarms: [
          alarmOf({
            alarm: 'second-lost',
            priority: 'low',
            sinceUs: 3890e6,
            values: { bar: 1.47, cause: 'outlet-pressure' },
          }),
        ],
      }),
      course(3900, 2, held(3900, 1.47)),
    ),
  'no-limit': () =>
    sceneOf(
      moment(120, 60, {
        stage: 'inflate',
        bar: 0.8,
        limits: null,
        standing: ['no-limit', 'not-zeroed', 'uncalibrated'],
        guard: rising(0.02),
      }),
      course(120, 0.2, fill(0.39, 0.8, 40)),
    ),
  connect: () =>
    sceneOf(
      moment(1, 1, { bar: null, ageS: null, limits: null, temps: [] }),
      course(1, 1, () => null),
      { noRun: true, link: { state: 'idle', kind: null } },
    ),
  packer: () =>
    sceneOf(
      moment(20, 20, { limits: null, standing: ['no-limit'] }),
      course(20, 0.2, () => 0.001),
      { noRun: true },
    ),
};
