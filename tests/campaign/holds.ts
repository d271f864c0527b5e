/** The campaign of holds: its tasks by number, and what is kept of each. Reported seeds are none of the tuning's. */
import { createRandom } from '../../src/rig/random.ts';
import type { LeakVerdict, WatchEvent } from '../../src/watch/events.ts';
import {
  drawHold,
  GRADES,
  type Grade,
  type Heat,
  type HoldWishes,
  WITNESSES,
  type Witness,
} from './holds-scenario.ts';
import { type HoldRun, runHold } from './holds-world.ts';

export const HOLD_SETS = [
  'cover', // leaks and none, everything drawn
  'topup', // leaks that are filled up again and again
  'start2', // 2 mbar/min from the fill on, a probe in the air
  'later2', // 2 mbar/min that begin in a settled hold, a probe in the air
  'fast', // tight, after a fill of seconds
  'exotherm', // tight, through 10 to 35 K of warmth and back
  'fed', // declared closed, in truth fed by a regulator
  'shut', // declared supplied, in truth closed and leaking
  'supplied', // declared and truly supplied, with a leak
  'lift', // a closed or feeding line that warmth lifts over a near ceiling
  'sun', // tight, the sun comes to the sensor or leaves it
] as const;
export type HoldSet = (typeof HOLD_SETS)[number];

const COUNTS: Readonly<Record<HoldSet, number>> = {
  cover: 540,
  topup: 90,
  start2: 100,
  later2: 150,
  fast: 210,
  sun: 150,
  exotherm: 210,
  fed: 60,
  shut: 45,
  supplied: 45,
  lift: 150,
};

/** Minutes of a segment at which its interval is scored. */
export const MARKS = [5, 8, 10, 15, 20, 30, 45, 60, 90, 115] as const;

export interface HoldTask {
  readonly set: HoldSet;
  readonly seed: number;
}

export interface Scored {
  readonly minute: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly truth: number;
}

export interface HoldRecord {
  readonly set: HoldSet;
  readonly seed: number;
  readonly witness: Witness;
  readonly heat: Heat;
  readonly grade: Grade;
  readonly leakMbarMin: number;
  readonly scored: readonly Scored[];
  /** First 'leaking', s after the segment was opened, and after the leak began; null: never. */
  readonly calledS: number | null;
  readonly afterLeakS: number | null;
  /** 'Leaking' was said before the leak began. */
  readonly early: boolean;
  readonly last: LeakVerdict;
  readonly claimed: boolean;
  /** 'line-contradicted' was raised. */
  readonly contradicted: boolean;
  /** 'fast-fall' raised, s of the hold (negative: in the fill before it); no packer bursts here. null: never. */
  readonly fallS: number | null;
  /** Lift alarm raised and true ceiling passed, s of the hold; null: never. */
  readonly liftS: number | null;
  readonly ceilingS: number | null;
  /** Ceiling less the highest true pressure from the alarm on (of the whole hold without one), bar. */
  readonly shortBar: number;
  /** The interval that the alarm named as the peak, and the true peak from then on, bar; null: no alarm. */
  readonly named: { readonly low: number; readonly high: number; readonly truth: number } | null;
  /** Time that the pressure took from its low to the ceiling, s. */
  readonly riseS: number | null;
  readonly gasRiseK: number;
  readonly readings: number;
  /** The rise was on the resin's entry. */
  readonly riseKnown: boolean;
  /** The site got as far as a hold of some minutes. */
  readonly played: boolean;
}

/** Where the seeds of the first set begin; each further set's begin 5000 later. */
export const HOLD_SEED = 2_450_000;

export function holdTasks(scale: number): HoldTask[] {
  return HOLD_SETS.flatMap((set, k) =>
    Array.from({ length: Math.max(2, Math.round(COUNTS[set] * scale)) }, (_, i) => ({
      set,
      seed: HOLD_SEED + 5_000 * k + i,
    })),
  );
}

function wishes({ set, seed }: HoldTask): HoldWishes {
  const r = createRandom(seed * 16 + 11);
  switch (set) {
    case 'cover':
      return {};
    case 'topup':
      return { topUps: true, leakMbarMin: r.logRange(4, 20), holdS: 5400 };
    case 'start2':
      return { witness: 'air', leakMbarMin: 2, holdS: 2400 };
    case 'later2': {
      const leakFromS = r.range(1500, 4500);
      return { witness: 'air', leakMbarMin: 2, leakFromS, holdS: leakFromS + 1500 };
    }
    case 'fast':
      return { fastFill: true, leakMbarMin: 0, holdS: 2700 };
    case 'sun':
      return { witness: 'air', heat: 'inert', leakMbarMin: 0, sun: true, holdS: 5400 };
    case 'exotherm':
      return { heat: 'strong', leakMbarMin: 0, holdS: 7200 };
    case 'fed':
      return {
        witness: 'air',
        line: r.chance(0.5) ? 'supplied-relieving' : 'supplied-nonrelieving',
        declared: 'closed',
        holdS: 5400,
      };
    case 'shut':
      return {
        line: 'closed',
        declared: r.chance(0.5) ? 'supplied-relieving' : 'supplied-nonrelieving',
        leakMbarMin: r.logRange(3, 20),
        holdS: 3600,
      };
    case 'supplied': {
      const line = r.chance(0.5) ? 'supplied-relieving' : 'supplied-nonrelieving';
      return { line, declared: line, leakMbarMin: r.logRange(1, 20), holdS: 3600 };
    }
    case 'lift':
      return {
        heat: r.chance(0.7) ? 'strong' : 'mild',
        coldSleeve: true,
        leakMbarMin: 0,
        line: r.chance(0.75) ? 'closed' : 'supplied-nonrelieving',
        headroomBar: r.range(0.01, 0.06),
        riseKnown: r.chance(0.5),
        exotherm: 'unknown',
        holdS: 3 * 3600,
      };
  }
}

export function playTask(task: HoldTask): HoldRun {
  return runHold(drawHold(task.seed, wishes(task)));
}

/** Raised; or held back under a stronger alarm that stood already (lift under ceiling). */
const alarmOf = (run: HoldRun, alarm: string) =>
  run.events.find(
    (x): x is Extract<WatchEvent, { e: 'alarm' }> =>
      x.e === 'alarm' && x.alarm === alarm && (x.to === 'unacknowledged' || x.to === 'suppressed'),
  );

const alarmS = (run: HoldRun, alarm: string): number | null => {
  const e = alarmOf(run, alarm);
  return e === undefined ? null : e.tUs / 1e6 - run.holdFromS;
};

const peakFrom = (run: HoldRun, fromS: number): number =>
  Math.max(...run.looks.filter((l) => l.atS >= fromS).map((l) => l.trueBar));

function namedBy(run: HoldRun): HoldRecord['named'] {
  const e = alarmOf(run, 'lift');
  const { settleLowBar: low, settleHighBar: high } = e?.values ?? {};
  if (e === undefined || typeof low !== 'number' || typeof high !== 'number') return null;
  return { low, high, truth: peakFrom(run, e.tUs / 1e6 - run.holdFromS) };
}

/** From the last minute at the pressure's low (10 mbar over it) before the ceiling was passed. */
function riseOf(run: HoldRun): number | null {
  if (Number.isNaN(run.ceilingS)) return null;
  const before = run.looks.filter((l) => l.atS < run.ceilingS);
  const low = Math.min(...before.map((l) => l.trueBar));
  const start = before.filter((l) => l.trueBar <= low + 0.01).at(-1);
  return start === undefined ? null : run.ceilingS - start.atS;
}

export function recordOf(task: HoldTask, run: HoldRun): HoldRecord {
  const s = run.scenario;
  const scored: Scored[] = [];
  // Each closed segment anew: a mark is met at the first look past it.
  let done = -1;
  let before = -1;
  for (const l of run.looks) {
    if (l.inSegmentS < before) done = -1;
    before = l.inSegmentS;
    const { mbarPerMin: value, low, high } = l.figure;
    const mark = MARKS.findLastIndex((m) => l.inSegmentS >= m * 60);
    if (mark <= done || value === null || low === null || high === null) continue;
    done = mark;
    // A figure that looks back over a leak's beginning is judged by when it was called.
    if (s.leakFromS > 0 && l.atS >= s.leakFromS) continue;
    scored.push({ minute: MARKS[mark]!, value, low, high, truth: l.trueMbarMin });
  }
  const called = run.looks.find((l) => l.figure.verdict === 'leaking');
  const after = run.looks.find((l) => l.figure.verdict === 'leaking' && l.atS >= s.leakFromS);
  return {
    set: task.set,
    seed: task.seed,
    witness: s.witness,
    heat: s.heat,
    grade: s.grade,
    leakMbarMin: s.leakMbarMin,
    scored,
    calledS: called === undefined ? null : called.atS,
    afterLeakS: after === undefined ? null : after.atS - s.leakFromS,
    early: called !== undefined && called.atS < s.leakFromS,
    last: run.looks.at(-1)?.figure.verdict ?? 'cannot-tell',
    claimed: run.looks.some((l) => l.figure.mbarPerMin !== null),
    contradicted: alarmS(run, 'line-contradicted') !== null,
    fallS: alarmS(run, 'fast-fall'),
    liftS: alarmS(run, 'lift'),
    ceilingS: Number.isNaN(run.ceilingS) ? null : run.ceilingS,
    shortBar: s.ceilingBar - peakFrom(run, alarmS(run, 'lift') ?? 0),
    named: namedBy(run),
    riseS: riseOf(run),
    gasRiseK: run.gasMaxC - run.gasMinC,
    readings: run.readings,
    riseKnown: (s.resin?.expectedRiseK ?? null) !== null,
    played: run.looks.length >= 5,
  };
}

export function workHold(task: HoldTask): HoldRecord {
  return recordOf(task, playTask(task));
}

export { GRADES, WITNESSES };
