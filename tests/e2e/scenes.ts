import {
  alarmOf,
  at,
  course,
  cure,
  fill,
  guardOf,
  held,
  hold,
  moment,
  outlet,
  rising,
  sceneOf,
  tested,
} from './moments.ts';
import type { Scene } from './staged.ts';

/** Moments of Live for the staged engine: every stage, and alarms of each kind. */
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
