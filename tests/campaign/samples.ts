/**
 * Sleeves of the campaign with a witness sample of their batch that is felt every twenty minutes, and whenever the count says that the
 * time is met. Batches at 0.7 to 2 times the usual time, no cup; and samples that are not what they are said to be.
 */

import { slowed } from '../../src/rig/cup.ts';
import { cureStep, type Kinetics, type CureState as Lump } from '../../src/rig/cure.ts';
import { createRandom } from '../../src/rig/random.ts';
import type { ProbeNow } from '../../src/watch/cure/coldest.ts';
import { AS_THE_SHEET } from '../../src/watch/cure/cup-speed.ts';
import type { CureState } from '../../src/watch/cure/cure.ts';
import { cureSample } from '../../src/watch/cure/sample.ts';
import { type Batch, CUP_PROBES, withKnown } from './cups.ts';
import { judgeSleeve, type SleeveResult } from './sleeves-judge.ts';
import { drawSleeve } from './sleeves-scenario.ts';

/** Reported seeds, drawn after the rules stood. */
export const SAMPLE_SEED = 660_001;
export const SAMPLE_EACH = 12;
export const SAMPLE_BATCHES = ['usual', 0.7, 1.3, 2] as const satisfies readonly Batch[];
/** As it should be; kept 6 K warmer than the pipe; of a batch that was mixed an hour before. */
export const SAMPLE_WAYS = ['sound', 'warm', 'earlier'] as const;
export type SampleWay = (typeof SAMPLE_WAYS)[number];
/** The usual batches scatter by this, 1 s. */
const BATCH = 0.05;
const FEEL_S = 1200;
/** Nobody feels it before half of the sheet's time. */
const FROM = 0.5;
/** The water it is kept in is as cold as the ground, to this, K. */
const WATER_K = 1;
const WARM_K = 6;
const EARLIER_S = 3600;

export interface SampleTask {
  readonly probe: (typeof CUP_PROBES)[number];
  readonly seed: number;
  readonly batch: Batch;
  readonly sample: boolean;
  readonly way: SampleWay;
}

export interface SampleResult extends SleeveResult {
  /** Contradictions that were asked about. */
  readonly asked: readonly string[];
}

export function sampleTasks(scale: number): SampleTask[] {
  const n = Math.max(1, Math.round(SAMPLE_EACH * scale));
  const out: SampleTask[] = [];
  const add = (more: Omit<SampleTask, 'probe' | 'seed'>) => {
    for (let i = 0; i < n; i++)
      for (const probe of CUP_PROBES) out.push({ probe, seed: SAMPLE_SEED + i, ...more });
  };
  for (const batch of SAMPLE_BATCHES)
    for (const sample of [false, true]) add({ batch, sample, way: 'sound' });
  for (const way of SAMPLE_WAYS) if (way !== 'sound') add({ batch: 'usual', sample: true, way });
  return out;
}

const STEP_S = 5;

/** A thin sample in water: at the water's temperature, so that its own heat does not count. */
class Sample {
  private readonly lump: Lump = { degree: new Float64Array(1), induction: new Float64Array(1) };
  private readonly kinetics: Kinetics;
  private readonly tK: number;
  private readonly criterion: number;
  constructor(kinetics: Kinetics, c: number, criterion: number) {
    this.kinetics = kinetics;
    this.tK = c + 273.15;
    this.criterion = criterion;
  }
  step(dtS: number): void {
    cureStep(this.kinetics, this.lump, 0, this.tK, dtS);
  }
  get hard(): boolean {
    return this.lump.degree[0]! >= this.criterion;
  }
}

export function workSample(task: SampleTask): SampleResult {
  const s = withKnown(drawSleeve(task.probe, task.seed));
  const r = createRandom(task.seed * 8 + 4).fork(`sample ${task.probe}`);
  const slow = task.batch === 'usual' ? Math.exp(BATCH * r.normal()) : task.batch;
  const kinetics = slowed(s.options.kinetics, slow);
  const groundC = s.options.groundC ?? s.ground.c;
  const keptC = groundC + r.range(-WATER_K, WATER_K) + (task.way === 'warm' ? WARM_K : 0);
  const sample = new Sample(kinetics, keptC, s.criterion);
  if (task.way === 'earlier') sample.step(EARLIER_S);
  const asked: string[] = [];
  let feelS = 0;
  let felt = false;
  const hear = (tS: number, probes: readonly ProbeNow[], cure: CureState) => {
    sample.step(STEP_S);
    const met = cure.metUs !== null;
    if (task.sample && !felt && (met || (cure.progress >= FROM && tS >= feelS))) {
      feelS = tS + FEEL_S;
      cureSample(cure, sample.hard, tS * 1e6, (e) => {
        if (e.e === 'sample') asked.push(e.doubt);
      });
      // Met, and not taken back by what was felt.
      felt = cure.metUs !== null;
    }
    return { batch: AS_THE_SHEET, probes };
  };
  const says = (cure: CureState) => cure.metUs !== null && (felt || !task.sample);
  const result = judgeSleeve({ ...s, options: { ...s.options, kinetics } }, undefined, hear, says);
  return { ...result, asked };
}
