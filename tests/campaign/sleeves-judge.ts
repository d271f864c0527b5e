/** Cures a drawn sleeve, lets the judge and the four baselines follow its probe, and scores them by the truth. */
import type { CureTimePoint, Heating, Infiltration, PipeSetup, Setup } from '../../src/job/setup.ts';
import { PLATE_LIMITS, setupOf } from '../../src/job/testing/givens.ts';
import { createRandom } from '../../src/rig/random.ts';
import { Sleeve, type SleeveTruth } from '../../src/rig/testing/sleeve.ts';
import type { ProbeNow } from '../../src/watch/cure/coldest.ts';
import type { Batch } from '../../src/watch/cure/cup-speed.ts';
import { type CureState, createCure, cureTick, cureView } from '../../src/watch/cure/cure.ts';
import type { ProbePlace, SleeveScenario } from './sleeves-scenario.ts';

export const METHODS = ['program', 'line20', 'probe', 'ground', 'midway'] as const;
export type Method = (typeof METHODS)[number];

/** What is kept of a sleeve: plain numbers, so that it goes between processes as it is. */
export interface SleeveResult {
  readonly probe: ProbePlace;
  readonly seed: number;
  /** What the job sheet knew of groundwater, and whether it really seeped in. */
  readonly water: 'below' | 'above' | 'unknown';
  readonly seeps: boolean;
  readonly infiltration: Infiltration;
  /** What the job sheet said of what warms the packer, and what the pipe is of. */
  readonly heating: Heating;
  readonly material: PipeSetup['material'];
  readonly points: number;
  /** Expanded uncertainty of the probe, K. */
  readonly uC: number;
  /** Least cured layer reaches the criterion, s; null: never within the simulated time. */
  readonly trueS: number | null;
  /** When each method said that the time was met, s; null: not by the end. */
  readonly declaredS: Readonly<Record<Method, number | null>>;
  /** Program's progress, middle and lower bound, when the criterion was truly reached. */
  readonly progress: number | null;
  readonly low: number | null;
  /** What the clock said once, when the lower bound was at a quarter; s from seating. */
  readonly clock: {
    readonly atS: number;
    readonly valueS: number;
    readonly lowS: number;
    readonly highS: number;
  } | null;
}

/** What happens at a step, for figures. */
export interface SleeveStep {
  readonly tS: number;
  readonly truth: Readonly<SleeveTruth>;
  readonly probeC: number;
  readonly cure: CureState;
}

/** The watch is given a reading each so many seconds: the longest way that is no gap to it. */
const STEP_S = 5;
/** The clock is asked when the lower bound is there. */
const ASK_AT = 0.25;
/** Noise of a reading, 1 s, K. */
const NOISE_K = 0.1;
const LONGEST_S = 60 * 3600;
/** A method that has not spoken by then is as good as silent, times the true time. */
const FACTOR = 12;

export function sheetSetup(s: SleeveScenario): Setup {
  return setupOf({
    limits: {
      ...PLATE_LIMITS,
      ratedBar: 2.5,
      uBar: 0.02,
      ceilingBar: 2.48,
      workingBar: 1.5,
      headBar: s.headBar,
    },
    ground: s.ground,
    infiltration: s.infiltration,
    heating: s.heating,
    pipe: s.pipe,
    resin: s.resin,
    rateHz: 10,
  });
}

/** Said before the least cured layer was there. */
export function isEarly(r: SleeveResult, method: Method): boolean {
  const said = r.declaredS[method];
  return said !== null && (r.trueS === null || said < r.trueS);
}

/** Declared over true time; Infinity: not said in twelve times the true time. */
export function ratioOf(r: SleeveResult, method: Method): number {
  const said = r.declaredS[method];
  return said === null || r.trueS === null ? Number.POSITIVE_INFINITY : said / r.trueS;
}

const isMet = (cure: CureState): boolean => cure.metUs !== null;

/** What a witness cup makes of the count and of the probes at a time, s from seating. */
export type OfBatch = (
  tS: number,
  probes: readonly ProbeNow[],
  cure: CureState,
) => { readonly batch: Batch; readonly probes: readonly ProbeNow[] };

export function judgeSleeve(
  s: SleeveScenario,
  onStep?: (step: SleeveStep) => void,
  batch?: OfBatch,
  says: (cure: CureState) => boolean = isMet,
): SleeveResult {
  const sleeve = new Sleeve(s.options);
  const { truth } = sleeve;
  const setup = sheetSetup(s);
  let metUs = Number.NaN;
  const cure = createCure(0, 1, 'seat', () => {}, s.before ?? null, setup);
  const baseline = new Baselines(s);
  let trueS = Number.NaN;
  let progress = Number.NaN;
  let low = Number.NaN;
  let clock: SleeveResult['clock'] = null;
  const noise = createRandom(s.seed * 8 + 7).fork(`noise ${s.probe}`);
  // A batch of its own is held against no baseline.
  const end = () =>
    Number.isFinite(metUs) && Number.isFinite(trueS) && (batch !== undefined || baseline.done);
  for (
    let t = STEP_S;
    (t <= LONGEST_S && t <= FACTOR * trueS) || (Number.isNaN(trueS) && t <= LONGEST_S);
    t += STEP_S
  ) {
    if (Number.isNaN(trueS) || s.probe !== 'ground') sleeve.step(STEP_S);
    if (Number.isNaN(trueS) && truth.leastCured >= s.criterion) {
      trueS = t;
      progress = cure.progress;
      low = cure.low;
    }
    const inner =
      s.probe === 'air' ? truth.sleeveInnerC : s.probe === 'sleeve' ? truth.airC : truth.sleeveOuterC;
    const own = s.probe === 'air' ? truth.airC : s.probe === 'sleeve' ? truth.sleeveInnerC : truth.pipeC;
    const c =
      Math.round((s.share * inner + (1 - s.share) * own + s.offsetK + NOISE_K * noise.normal()) * 10) / 10;
    const probes: ProbeNow[] = s.probe === 'ground' ? [] : [{ place: s.probe, c, uC: s.uC, checked: true }];
    if (Number.isNaN(metUs) || Number.isNaN(trueS)) {
      cureTick(cure, t * 1e6, { setup, ...(batch?.(t, probes, cure) ?? { probes }) }, () => {});
      // Said once is said, whatever is taken back later.
      if (Number.isNaN(metUs) && says(cure)) metUs = t * 1e6;
    }
    if (clock === null && cure.low >= ASK_AT && cure.metUs === null) {
      const inS = cureView(cure, t * 1e6, 0)?.metInS;
      if (inS) clock = { atS: t, valueS: t + inS.value, lowS: t + inS.low, highS: t + inS.high };
    }
    baseline.step(t, s.probe === 'ground' ? s.ground.c : c);
    onStep?.({ tS: t, truth, probeC: c, cure });
    if (end()) break;
  }
  const or = (x: number): number | null => (Number.isFinite(x) ? x : null);
  const { line20, probe, ground, midway } = baseline.times;
  return {
    probe: s.probe,
    seed: s.seed,
    water: s.headBar === 0 ? 'below' : s.headBar === null ? 'unknown' : 'above',
    seeps: s.options.seep !== null,
    infiltration: s.infiltration,
    heating: s.heating,
    material: s.material,
    points: s.resin.points.length,
    uC: s.uC,
    trueS: or(trueS),
    declaredS: {
      program: or(metUs / 1e6),
      line20: or(line20),
      probe: or(probe),
      ground: or(ground),
      midway: or(midway),
    },
    progress: or(progress),
    low: or(low),
    clock,
  };
}

/** What one would write in a hurry: the sheet's table read off between its points, and no bounds at all. */
class Baselines {
  readonly times = {
    line20: Number.POSITIVE_INFINITY,
    probe: Number.POSITIVE_INFINITY,
    ground: Number.POSITIVE_INFINITY,
    midway: Number.POSITIVE_INFINITY,
  };
  private readonly x = { line20: 0, probe: 0, ground: 0, midway: 0 };
  private readonly read: (c: number) => number;
  private readonly groundC: number;
  constructor(s: SleeveScenario) {
    this.read = readSheet(s.resin.points);
    this.groundC = s.ground.c;
  }
  get done(): boolean {
    return Object.values(this.times).every(Number.isFinite);
  }
  step(t: number, probeC: number): void {
    const c = { line20: 20, probe: probeC, ground: this.groundC, midway: (probeC + this.groundC) / 2 };
    for (const m of ['line20', 'probe', 'ground', 'midway'] as const) {
      this.x[m] += STEP_S / 60 / this.read(c[m]);
      if (this.x[m] >= 1) this.times[m] = Math.min(this.times[m], t);
    }
  }
}

/** Minutes at a temperature: logarithm straight between the points in 1/T, on beyond them; one point: doubling per 10 °C. */
export function readSheet(points: readonly CureTimePoint[]): (c: number) => number {
  const p = [...points].sort((a, b) => a.c - b.c);
  const first = p[0]!;
  if (p.length === 1) return (c) => first.minutes * 2 ** ((first.c - c) / 10);
  return (c) => {
    let i = 0;
    while (i < p.length - 2 && c > p[i + 1]!.c) i++;
    const a = p[i]!;
    const b = p[i + 1]!;
    const x = (v: number) => 1 / (v + 273.15);
    const f = (x(c) - x(a.c)) / (x(b.c) - x(a.c));
    return Math.exp(Math.log(a.minutes) + f * Math.log(b.minutes / a.minutes));
  };
}
