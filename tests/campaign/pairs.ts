/**
 * The campaign of pairs: the fills' own sites, hands and sensors, with a second transducer at the regulator's outlet, judged by the
 * whole watch with it and without it. The supply stands for some seconds before the valve is opened. Seeds are 610 001 …, drawn when
 * the thresholds stood, and played again after the first time had shown that an outlet which droops under the ceiling while air flows
 * had been taken for one that stood there.
 */
import type { Setup } from '../../src/job/setup.ts';
import { PRESSURE_CHANNEL, setupOf } from '../../src/job/testing/givens.ts';
import { createRandom } from '../../src/rig/random.ts';
import type { SecondReading } from '../../src/sensing/reading.ts';
import { readingOf } from '../../src/sensing/testing/readings.ts';
import type { AlarmCode, Priority } from '../../src/watch/codes.ts';
import type { WatchEvent } from '../../src/watch/events.ts';
import { createWatch, step } from '../../src/watch/step.ts';
import { limitsOf } from './fills-judge.ts';
import { drawScenario, type Kind, type Scenario, type WorldName } from './fills-scenario.ts';
import { createSensor } from './fills-sensor.ts';
import { runScenario, type Trace } from './fills-world.ts';

/** As it should be; each sensor on the other's channel; the second one off by more than its uncertainty. */
export const PAIR_WAYS = ['sound', 'swapped', 'off'] as const;
export type PairWay = (typeof PAIR_WAYS)[number];

export interface PairTask {
  readonly world: WorldName;
  readonly kind: Kind;
  readonly way: PairWay;
  readonly seed: number;
}

/** Where the seeds of common lines begin; those of quick ones 10 000 later. */
export const PAIR_SEED = 1_610_000;

export const PAIR_COUNTS: readonly { readonly kind: Kind; readonly way: PairWay; readonly count: number }[] =
  [
    { kind: 'normal', way: 'sound', count: 80 },
    { kind: 'hand', way: 'sound', count: 40 },
    { kind: 'high', way: 'sound', count: 40 },
    { kind: 'creep', way: 'sound', count: 40 },
    { kind: 'stuck', way: 'sound', count: 40 },
    { kind: 'normal', way: 'swapped', count: 20 },
    { kind: 'normal', way: 'off', count: 20 },
  ];

export function pairTasks(scale: number): PairTask[] {
  const out: PairTask[] = [];
  for (const world of ['common', 'quick'] as const)
    for (const { kind, way, count } of PAIR_COUNTS) {
      const n = Math.max(1, Math.round(count * scale * (world === 'quick' ? 0.5 : 1)));
      for (let i = 1; i <= n; i++)
        out.push({ world, kind, way, seed: PAIR_SEED + (world === 'quick' ? 10_000 : 0) + i });
    }
  return out;
}

/** When something was told for the first time, s of the trace; null: never. */
export interface Told {
  readonly urgentS: number | null;
  /** The first word of the supply, at any priority. */
  readonly supplyS: number | null;
  readonly differS: number | null;
  readonly cause: string | null;
}

export interface PairRecord extends PairTask {
  readonly without: Told;
  readonly with_: Told;
  /** The valve is opened, the regulator fails, its outlet passes where it stood by 2 U, the packer passes rated: s of the trace, null: never. */
  readonly openedS: number;
  readonly failedS: number | null;
  readonly creptS: number | null;
  readonly ratedS: number | null;
  /** Peak under rated − 2 U: whatever is urgent is false. */
  readonly under: boolean;
  /** True level of the outlet before the valve is opened, bar over rated. */
  readonly overRatedBar: number;
}

/** The supply stands so long before the valve is opened, s; the crew says so half a second before. */
const WAIT_S = 8;
/** Before that both lines are empty for so long, s: times of a trace count from where the supply is opened. */
const EMPTY_S = 2;

/** Standard span of a transducer that bears the compressor. */
const SECOND_SPAN_BAR = 10;
/** What a second sensor that reads off is off by, in its own U. */
const OFF_U = [5, 20] as const;

function secondOf(s: Scenario, trace: Trace, way: PairWay): Float32Array {
  const r = createRandom(s.seed * 8 + 7).fork(`second ${s.kind}`);
  const inside = () => Math.max(-0.5, Math.min(0.5, 0.25 * r.normal())) * s.uBar;
  const offsetBar = way === 'off' ? -r.range(...OFF_U) * s.uBar : inside();
  const sensor = {
    ...s.sensor,
    spanBar: SECOND_SPAN_BAR,
    bits: Math.max(12, s.sensor.bits),
    offsetBar,
    gain: 1 + inside() / s.ratedBar,
  };
  const sense = createSensor(sensor, r.fork('noise'));
  const empty = emptyOf(s);
  return Float32Array.from({ length: empty + trace.n }, (_, n) =>
    sense(n, n < empty ? 0 : trace.outlet[n - empty]!),
  );
}

const emptyOf = (s: Scenario): number => Math.round(EMPTY_S * s.sensor.rateHz);

/** The packer's sensor, from the empty line on. */
function firstOf(s: Scenario, trace: Trace): Float32Array {
  const empty = emptyOf(s);
  // While the valve is shut it reads an empty line, too.
  return Float32Array.from({ length: empty + trace.n }, (_, n) => trace.x[n < empty ? n : n - empty]!);
}

const CHANNELS: Setup['channels'] = [
  PRESSURE_CHANNEL,
  { ...PRESSURE_CHANNEL, index: 1, role: 'outlet-pressure', rangeHi: SECOND_SPAN_BAR },
];

const BEGINS_S = 0.01;

const SUPPLY: readonly AlarmCode[] = ['supply-over', 'supply-moved'];

function judge(s: Scenario, main: Float32Array, second: Float32Array | null): Told {
  const w = createWatch();
  const events: WatchEvent[] = [];
  const emit = (e: WatchEvent) => events.push(e);
  const hz = s.sensor.rateHz;
  const channels = second === null ? CHANNELS.slice(0, 1) : CHANNELS;
  const setup = setupOf({ limits: limitsOf(s), tap: s.tap, line: 'unknown', rateHz: hz, channels });
  step(w, { i: 'setup', tUs: 0, setup }, emit);
  const stepBar = s.sensor.spanBar / (2 ** s.sensor.bits - 1);
  const secondStep = SECOND_SPAN_BAR / (2 ** Math.max(12, s.sensor.bits) - 1);
  const tickN = Math.max(1, Math.round(hz / 10));
  let filling = false;
  for (let n = 0; n < main.length; n++) {
    // Times of a run begin after its opening.
    const t = n / hz + BEGINS_S;
    if (!filling && t >= EMPTY_S + WAIT_S - 0.5) {
      filling = true;
      step(w, { i: 'command', tUs: Math.round(t * 1e6), command: { c: 'stage', to: 'inflate' } }, emit);
    }
    const pair: { second?: SecondReading } =
      second === null
        ? {}
        : {
            second: {
              channel: 1,
              role: 'outlet-pressure',
              bar: second[n]!,
              uBar: s.uBar,
              flags: 0,
              stepBar: secondStep,
            },
          };
    const reading = readingOf(t, main[n]!, { seq: n, uBar: s.uBar, stepBar, ...pair });
    step(w, { i: 'reading', tUs: reading.tUs, reading }, emit);
    if (n % tickN === 0) step(w, { i: 'tick', tUs: reading.tUs }, emit);
  }
  const first = (is: (alarm: AlarmCode, priority: Priority) => boolean): number | null => {
    const e = events.find(
      (one) => one.e === 'alarm' && one.to === 'unacknowledged' && is(one.alarm, one.priority),
    );
    return e === undefined ? null : e.tUs / 1e6 - BEGINS_S - EMPTY_S;
  };
  const differ = events.find(
    (e) => e.e === 'alarm' && e.alarm === 'sensors-differ' && e.to === 'unacknowledged',
  );
  return {
    urgentS: first((_, priority) => priority === 'urgent'),
    supplyS: first((alarm) => SUPPLY.includes(alarm)),
    differS: first((alarm) => alarm === 'sensors-differ'),
    cause: differ?.e === 'alarm' ? (differ.values.cause ?? null) : null,
  };
}

export function workPair(task: PairTask): PairRecord {
  const s = drawScenario(task.kind, task.seed, { world: task.world });
  const trace = runScenario(s, WAIT_S);
  const second = secondOf(s, trace, task.way);
  const main = firstOf(s, trace);
  const swapped = task.way === 'swapped';
  const index = (is: (n: number) => boolean): number | null => {
    for (let n = 0; n < trace.n; n++) if (is(n)) return trace.t[n]!;
    return null;
  };
  const stood = trace.outlet[Math.min(trace.n - 1, Math.round((WAIT_S - 1) * s.sensor.rateHz))]!;
  return {
    ...task,
    without: judge(s, main, null),
    with_: swapped ? judge(s, second, main) : judge(s, main, second),
    openedS: WAIT_S,
    failedS: Number.isNaN(trace.failedS) ? null : trace.failedS,
    creptS:
      task.kind === 'creep'
        ? index((n) => trace.t[n]! > WAIT_S && trace.outlet[n]! > stood + 2 * s.uBar)
        : null,
    ratedS: index((n) => trace.packer[n]! >= s.ratedBar),
    under: trace.peakBar < s.ratedBar - 2 * s.uBar,
    overRatedBar: stood - s.ratedBar,
  };
}
