/**
 * The campaign of fills: which scenarios, in which order, and the records that the score is made of. Reported seeds
 * are 1 070 001 … for each kind, run for the first time when the thresholds stood; these were tuned on seeds from 500 001 on.
 * Seeds 1 … 2400, 30 001 … and 60 001 … served earlier states of the guard and are not reported.
 */

import type { Tap } from '../../src/job/setup.ts';
import { judge, type Verdict } from './fills-judge.ts';
import { drawScenario, KINDS, type Kind, type Scenario } from './fills-scenario.ts';
import { runScenario } from './fills-world.ts';

export const SETS = ['main', 'quick', 'supply', 'unknown', 'bias'] as const;
export type FillSet = (typeof SETS)[number];

export interface FillTask {
  readonly set: FillSet;
  readonly kind: Kind;
  readonly seed: number;
  /** Reading's error at rated, multiples of U; null: drawn inside U. */
  readonly biasU: number | null;
  /** Judged once more as if only the rated pressure were known. */
  readonly again: boolean;
}

/** Full counts of the main set, by kind. */
export const COUNTS: Readonly<Record<Kind, number>> = {
  normal: 2000,
  hand: 2000,
  high: 400,
  creep: 400,
  stuck: 400,
};
/** And of the quick world: small packers, wide-open valves. */
export const QUICK_COUNTS: Readonly<Record<Kind, number>> = {
  normal: 400,
  hand: 1200,
  high: 400,
  creep: 200,
  stuck: 400,
};
const SIDE = 100;
export const BIASES = [-2, -1, 1, 2] as const;

/** Where the seeds of each set begin. Those of the side sets lie apart from those of the main one. */
export const FILL_SEEDS = { main: 2_070_000, quick: 2_170_000, side: 2_220_000, bias: 2_340_000 } as const;

export function tasks(scale: number): FillTask[] {
  const out: FillTask[] = [];
  const count = (n: number) => Math.max(1, Math.round(n * scale));
  for (const kind of KINDS)
    for (let i = 1; i <= count(COUNTS[kind]); i++)
      out.push({ set: 'main', kind, seed: FILL_SEEDS.main + i, biasU: null, again: i % 4 === 0 });
  for (const kind of KINDS)
    for (let i = 1; i <= count(QUICK_COUNTS[kind]); i++)
      out.push({ set: 'quick', kind, seed: FILL_SEEDS.quick + i, biasU: null, again: i % 4 === 0 });
  for (const set of ['supply', 'unknown'] as const)
    for (const kind of KINDS)
      for (let i = 1; i <= count(SIDE); i++)
        out.push({ set, kind, seed: FILL_SEEDS.side + i, biasU: null, again: false });
  for (const biasU of BIASES)
    for (const kind of KINDS)
      for (let i = 1; i <= count(SIDE); i++)
        out.push({ set: 'bias', kind, seed: FILL_SEEDS.bias + i, biasU, again: false });
  return out;
}

export interface FillRecord extends FillTask {
  readonly tap: Tap;
  readonly rateHz: number;
  readonly bits: number;
  readonly litres: number;
  readonly ratedBar: number;
  readonly uBar: number;
  readonly ceilingBar: number;
  readonly setBar: number;
  readonly samples: number;
  readonly verdict: Verdict;
  /** With the rated pressure alone. */
  readonly ratedOnly: Verdict | null;
  readonly freeInflationBar: number;
  /** True slope over the third of a second before the packer passes working; 0 where it does not. */
  readonly slopeBarPerS: number;
  /** From the reading's passing the target to a shut valve, s. */
  readonly handS: number;
  readonly workingBar: number;
}

/** The slope at the working pressure is that over this time before it, s: a valve may have been opened just then. */
const SLOPE_S = 0.3;

export function scenarioOf(task: FillTask): Scenario {
  return drawScenario(task.kind, task.seed, {
    // An unknown tap is one of the two places, only the guard is not told which.
    ...(task.set === 'supply' ? { tap: 'supply' as const } : {}),
    ...(task.set === 'quick' ? { world: 'quick' as const } : {}),
    ...(task.biasU === null ? {} : { biasU: task.biasU }),
  });
}

export function workTask(task: FillTask): FillRecord {
  const scenario = scenarioOf(task);
  const trace = runScenario(scenario);
  const tap: Tap = task.set === 'unknown' ? 'unknown' : scenario.tap;
  const pipe = scenario.site.packer!;
  const verdict = judge(trace, true, tap);
  let slope = 0;
  if (!Number.isNaN(verdict.workS)) {
    const i = trace.t.findIndex((t) => t >= verdict.workS);
    const j = Math.max(0, i - Math.ceil(SLOPE_S * scenario.sensor.rateHz));
    if (i > j) slope = (trace.packer[i]! - trace.packer[j]!) / (trace.t[i]! - trace.t[j]!);
  }
  return {
    ...task,
    tap,
    rateHz: scenario.sensor.rateHz,
    bits: scenario.sensor.bits,
    litres: Math.PI * (pipe.pipeMm! / 2000) ** 2 * pipe.lengthM! * 1000,
    ratedBar: scenario.ratedBar,
    uBar: scenario.uBar,
    ceilingBar: scenario.ceilingBar,
    setBar: scenario.setBar,
    samples: trace.n,
    verdict,
    ratedOnly: task.again ? judge(trace, false, tap) : null,
    freeInflationBar: pipe.freeInflationBar!,
    slopeBarPerS: slope,
    handS: scenario.hand.noticeS + scenario.site.valve!.travelS!,
    workingBar: scenario.workingBar,
  };
}
