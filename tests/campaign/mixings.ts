/**
 * Sleeves of the campaign from the mixing on: a pot that is warmer or colder than the ground, wet-out, and the way to the
 * defect in the air around it, with the resin reacting all along by its own kinetics. Judged twice: by a sheet that
 * does not say what its time counts from, and by one that counts from mixing.
 */
import { type CureState, cureStep } from '../../src/rig/cure.ts';
import { createRandom } from '../../src/rig/random.ts';
import type { BeforeSeat } from '../../src/watch/cure/before-seat.ts';
import { beforeTick, createBefore } from '../../src/watch/cure/before-seat.ts';
import { judgeSleeve, type SleeveResult } from './sleeves-judge.ts';
import { drawSleeve, type SleeveScenario } from './sleeves-scenario.ts';

/** Drawn after the rule stood. */
export const MIXING_SEED = 520_001;
export const MIXING_EACH = 200;
export const MIXING_PROBES = ['sleeve', 'air', 'pipe'] as const;

export interface MixingTask {
  readonly probe: (typeof MIXING_PROBES)[number];
  readonly seed: number;
  readonly counted: boolean;
}

export function mixingTasks(scale: number): MixingTask[] {
  const n = Math.max(1, Math.round(MIXING_EACH * scale));
  const out: MixingTask[] = [];
  for (const counted of [false, true])
    for (let i = 0; i < n; i++)
      for (const probe of MIXING_PROBES) out.push({ probe, seed: MIXING_SEED + i, counted });
  return out;
}

const STEP_S = 10;
const READ_S = 1;

/** The sleeve with its time before seating lived through: its cure, and what the watch has read meanwhile. */
export function drawMixing(probe: MixingTask['probe'], seed: number, counted: boolean): SleeveScenario {
  const drawn = drawSleeve(probe, seed);
  const r = createRandom(seed * 8 + 6).fork(`mixing ${probe}`);
  const groundC = drawn.options.groundC ?? drawn.ground.c;
  const potC = groundC + r.range(-6, 14);
  const airC = groundC + r.range(-12, 15);
  const inPotS = 60 * r.range(4, 12);
  const onWayS = 60 * r.range(4, 15);
  // A wet sleeve takes to the air around it within minutes, not at once.
  const takesS = 60 * r.range(1, 6);
  const state: CureState = { degree: new Float64Array(1), induction: new Float64Array(1) };
  const before: BeforeSeat = createBefore(0);
  let c = potC;
  for (let t = 0; t < inPotS + onWayS; t += STEP_S) {
    if (t >= inPotS) c += (airC - c) * (1 - Math.exp(-STEP_S / takesS));
    cureStep(drawn.options.kinetics, state, 0, c + 273.15, STEP_S);
    for (let s = READ_S; s <= STEP_S; s += READ_S)
      beforeTick(before, (t + s) * 1e6, [
        { place: probe, c: airC + drawn.offsetK, uC: drawn.uC, checked: true },
      ]);
  }
  const typedC = Math.round(potC + r.range(-1.5, 1.5));
  const options = {
    ...drawn.options,
    degree: state.degree[0]!,
    induction: state.induction[0]!,
    sleeveC: c,
  };
  const resin = {
    ...drawn.resin,
    countsFrom: counted ? ('mixing' as const) : ('unstated' as const),
    potC: typedC,
    potLifeMin: 45,
  };
  return { ...drawn, options, resin, before };
}

export const workMixing = (task: MixingTask): SleeveResult =>
  judgeSleeve(drawMixing(task.probe, task.seed, task.counted));
