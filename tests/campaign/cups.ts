/**
 * Sleeves of the campaign with a witness cup of their batch. The resin's document has learnt its mark, by the program itself,
 * from four earlier cups of batches that were accepted; then comes a batch at 0.7 to 2 times the usual time. Judged with the cup
 * and without it.
 */
import type { CupMark, Setup } from '../../src/job/setup.ts';
import { PRESSURE_CHANNEL } from '../../src/job/testing/givens.ts';
import { markOf } from '../../src/plan/cup.ts';
import { Cup, type CupOptions, slowed } from '../../src/rig/cup.ts';
import { createRandom, type Random } from '../../src/rig/random.ts';
import type { ProbeNow } from '../../src/watch/cure/coldest.ts';
import { believedBeside, type Cup as CupWatch, createCup, cupTick } from '../../src/watch/cure/cup.ts';
import { AS_THE_SHEET } from '../../src/watch/cure/cup-speed.ts';
import type { CureState } from '../../src/watch/cure/cure.ts';
import type { WatchEvent } from '../../src/watch/events.ts';
import { drawCup, drawUsual, type Poured, type Usual } from './cups-world.ts';
import { judgeSleeve, type SleeveResult, sheetSetup } from './sleeves-judge.ts';
import { drawSleeve, type SleeveScenario } from './sleeves-scenario.ts';
import { knowing } from './sleeves-waiting.ts';

/** Reported seeds; the cup's rules were chosen on seeds from 970 001 and 1 640 001 on, and those from 640 001 on were reported of an earlier state. */
export const CUP_SEED = 8_840_001;
/** So many at each place of the probe: of usual and slow batches that are known best, and of all others. */
export const CUP_EACH = 50;
const FEW_EACH = 20;
export const CUP_PROBES = ['sleeve', 'air', 'pipe'] as const;
/** Batches: usual ones scatter by BATCH (1 s); others take so many times the usual time. */
export const BATCHES = ['usual', 0.7, 0.85, 1.15, 1.3, 1.5, 2] as const;
export type Batch = (typeof BATCHES)[number];
/** Judged without a cup too, with all known and as jobs are. */
const WITHOUT: readonly Batch[] = ['usual', 1.5];
const AS_JOBS_ARE: readonly Batch[] = ['usual', 1.5];
const BATCH = 0.05;
const LEARNT = 4;

/** What is wrong with the cup itself. 'swapped': its probe and the sleeve's are in each other's place. */
export const CUP_FAULTS = ['none', 'in-the-air', 'lost', 'other-batch', 'swapped'] as const;
export type CupFault = (typeof CUP_FAULTS)[number];

export interface CupTask {
  readonly probe: (typeof CUP_PROBES)[number];
  readonly seed: number;
  readonly batch: Batch;
  readonly cup: boolean;
  /** Probes compared (0.3 K) and water known. */
  readonly known: boolean;
  readonly fault: CupFault;
}

export function cupTasks(scale: number): CupTask[] {
  const n = Math.max(1, Math.round(CUP_EACH * scale));
  const few = Math.max(1, Math.round(FEW_EACH * scale));
  const out: CupTask[] = [];
  const add = (probe: CupTask['probe'], i: number, more: Omit<CupTask, 'probe' | 'seed'>) =>
    out.push({ probe, seed: CUP_SEED + i, ...more });
  for (const known of [false, true])
    for (const batch of known ? BATCHES : AS_JOBS_ARE)
      for (const cup of [false, true]) {
        if (!cup && known && !WITHOUT.includes(batch)) continue;
        const isMany = cup && known && (batch === 'usual' || batch > 1);
        for (let i = 0; i < (isMany ? n : few); i++)
          for (const probe of CUP_PROBES) add(probe, i, { batch, cup, known, fault: 'none' });
      }
  for (const fault of CUP_FAULTS)
    if (fault !== 'none')
      for (let i = 0; i < few; i++) add('sleeve', i, { batch: 'usual', cup: true, known: true, fault });
  return out;
}

export interface CupResult extends SleeveResult {
  readonly slow: number;
  /** When 'slow' or 'no reaction' was first said, and half of the sheet's time was counted, s from seating; null: never. */
  readonly foundS: number | null;
  readonly halfS: number | null;
  /** All that the cup said, in order. */
  readonly said: readonly string[];
  /** Last middle of the batch's time against the usual. */
  readonly times: number | null;
  readonly learnt: number;
}

const STEP_S = 5;
/** A reading every second, its noise and the device's rounding in the mean of five, 1 s, K. */
const NOISE_K = 0.05;

/** A cup that is followed from mixing to the end of `lastS`, as the program hears it. */
class Heard {
  readonly watch: CupWatch = createCup(0);
  readonly events: (WatchEvent & { e: 'cup' })[] = [];
  private readonly cup: Cup;
  private readonly options: CupOptions;
  private readonly setup: Setup;
  private readonly noise: Random;
  private readonly offsetK: number;
  constructor(options: CupOptions, setup: Setup, offsetK: number, noise: Random) {
    this.cup = new Cup(options);
    this.options = options;
    this.setup = setup;
    this.offsetK = offsetK;
    this.noise = noise;
  }
  /** The cup was mixed so long before the batch. */
  ahead(seconds: number): void {
    this.cup.step(seconds);
  }
  /** `tS` from mixing. `others` as they read where they are; gives all probes as the program hears them. */
  step(tS: number, others: readonly ProbeNow[], seated: boolean, fault: CupFault): readonly ProbeNow[] {
    this.cup.step(STEP_S);
    const truly = fault === 'in-the-air' ? this.options.airC : this.cup.c;
    const c = Math.round((truly + this.offsetK + NOISE_K * this.noise.normal()) * 100) / 100;
    const own: ProbeNow = { place: 'cup', c, uC: 1, checked: true };
    const heard =
      fault === 'lost' && tS > 1200 ? others : fault === 'swapped' ? swapped(others, own) : [...others, own];
    cupTick(this.watch, tS * 1e6, heard, this.setup, seated, (e) => {
      if (e.e === 'cup') this.events.push(e);
    });
    return heard;
  }
}

/** Each says it is where the other is; before seating the sleeve's probe hangs in the air. */
const swapped = (others: readonly ProbeNow[], cup: ProbeNow): readonly ProbeNow[] => {
  const sleeve = others.find((p) => p.place === 'sleeve');
  return [
    { ...cup, place: 'sleeve' },
    { ...(sleeve ?? cup), place: 'cup' },
  ];
};

const EARLIER_S = 2400;
const LONGEST_S = 14 * 3600;

/** The marks of earlier batches, as the program told them. */
function learn(s: SleeveScenario, usual: Usual, offsetK: number, r: Random): CupMark | null {
  const marks: { mark: number; riseK: number }[] = [];
  for (let i = 0; i < LEARNT; i++) {
    const options = drawCup(r, usual, s.options.kinetics, Math.exp(BATCH * r.normal()), r.range(12, 22));
    const heard = new Heard(options, cupSetup(s, options, null), offsetK, r.fork(`learn ${i}`));
    for (let t = STEP_S; t <= LONGEST_S; t += STEP_S) {
      heard.step(t, [], false, 'none');
      const last = heard.events.at(-1);
      if (last?.heatAge != null) {
        marks.push({ mark: last.heatAge, riseK: last.riseK });
        break;
      }
    }
  }
  return markOf(marks);
}

function cupSetup(s: SleeveScenario, o: Poured, mark: CupMark | null): Setup {
  const setup = sheetSetup(s);
  return {
    ...setup,
    channels: [{ ...CUP_CHANNEL }],
    resin: { ...s.resin, potC: Math.round(o.potC), cup: { massG: Math.round(o.massG), mark } },
  };
}

const CUP_CHANNEL: Setup['channels'][number] = {
  ...PRESSURE_CHANNEL,
  index: 3,
  role: 'temperature',
  place: 'cup',
  gaugeKind: null,
};

export function workCup(task: CupTask): CupResult {
  const drawn = drawSleeve(task.probe, task.seed);
  const s = task.known ? withKnown(drawn) : drawn;
  const r = createRandom(task.seed * 8 + 5).fork(`cup ${task.probe}`);
  const usual = drawUsual(r);
  const offsetK = task.known ? r.range(-0.3, 0.3) : r.range(-1.5, 1.5);
  const mark = learn(s, usual, offsetK, r.fork('earlier'));
  const batch = r.fork('batch');
  const slow = task.batch === 'usual' ? Math.exp(BATCH * batch.normal()) : task.batch;
  const options = drawCup(batch, usual, s.options.kinetics, slow, batch.range(12, 22));
  const inCup =
    task.fault === 'other-batch' && batch.chance(0.5) ? { ...options, potC: options.potC - 9 } : options;
  const setup = cupSetup(s, options, mark);
  const heard = new Heard(inCup, setup, offsetK, batch.fork('noise'));
  if (task.fault === 'other-batch' && inCup === options) heard.ahead(EARLIER_S);
  const wayS = STEP_S * Math.round((60 * batch.range(8, 25)) / STEP_S);
  for (let t = STEP_S; t <= wayS; t += STEP_S) heard.step(t, [], false, task.fault);
  let foundS: number | null = null;
  let halfS: number | null = null;
  const isFound = () => heard.events.some((e) => e.verdict === 'slow' || e.verdict === 'no-reaction');
  const speed = (tS: number, probes: readonly ProbeNow[], cure: CureState) => {
    const read = heard.step(wayS + tS, probes, true, task.fault);
    if (foundS === null && isFound()) foundS = tS;
    if (halfS === null && cure.progress >= 0.5) halfS = tS;
    return task.cup
      ? { batch: heard.watch.batch, probes: believedBeside(heard.watch, read) }
      : { batch: AS_THE_SHEET, probes };
  };
  const result = judgeSleeve(
    { ...s, options: { ...s.options, kinetics: slowed(s.options.kinetics, slow) } },
    undefined,
    speed,
  );
  return {
    ...result,
    slow,
    foundS,
    halfS,
    said: heard.events.map((e) => (e.doubt === null ? e.verdict : e.doubt)),
    times: heard.watch.said.times?.value ?? null,
    learnt: mark?.batches ?? 0,
  };
}

/** Water known where none seeps in, and a probe that was compared: 0.3 K. */
export function withKnown(drawn: SleeveScenario): SleeveScenario {
  const s = knowing(drawn, 1);
  return { ...s, offsetK: Math.max(-0.3, Math.min(0.3, s.offsetK)), uC: 0.35 };
}
