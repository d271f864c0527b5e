/**
 * The sleeves of the campaign, drawn from seeds: resins, pipes, water, probes and their errors. What is drawn here is
 * the simulated world's own knowledge; the judge of the cure gets the data sheet, what the job sheet says of the pipe
 * and the ground, and the probe's readings with the uncertainty that its class gives.
 */
import type {
  CureTimePoint,
  Heating,
  Infiltration,
  PipeSetup,
  Place,
  ResinSetup,
} from '../../src/job/setup.ts';
import type { Kinetics } from '../../src/rig/cure.ts';
import { createRandom, type Random } from '../../src/rig/random.ts';
import { isothermalS } from '../../src/rig/testing/isothermal.ts';
import type { SleeveOptions } from '../../src/rig/testing/sleeve.ts';
import type { BeforeSeat } from '../../src/watch/cure/before-seat.ts';

/** Where the probe sits; 'ground': there is none, and the typed ground temperature is all that is known. */
export const PROBES = ['sleeve', 'air', 'pipe', 'ground'] as const satisfies readonly Place[];
export type ProbePlace = (typeof PROBES)[number];

export interface SleeveScenario {
  readonly seed: number;
  readonly probe: ProbePlace;
  readonly options: SleeveOptions;
  /** Degree of cure that the sheet's times end with. */
  readonly criterion: number;
  readonly resin: ResinSetup;
  /** What the job sheet says. */
  readonly pipe: PipeSetup;
  /** What the pipe really is of. */
  readonly material: PipeSetup['material'];
  readonly ground: { readonly c: number; readonly uC: number };
  readonly headBar: number | null;
  /** What the crew saw at the defect on the camera. */
  readonly infiltration: Infiltration;
  /** What the job sheet says of what warms the packer. */
  readonly heating: Heating;
  /** Reading = inner share · further in + (1 − share) · its place + offset, with its expanded uncertainty. */
  readonly offsetK: number;
  readonly uC: number;
  readonly share: number;
  /** What was read between mixing and seating; none: not mixed under the watch. */
  readonly before?: BeforeSeat;
}

/** Half widths of the probes' tolerances, K (IEC 60584-1: K class 1 and 2, T class 1; and a calibrated one). */
const TOLERANCE_K = [1.5, 1.5, 2.5, 2.5, 0.5, 0.5, 0.3] as const;
/** Cold junction and electronics, 1 s, K. */
const JUNCTION_K = 0.3;

export function drawSleeve(probe: ProbePlace, seed: number): SleeveScenario {
  const base = createRandom(seed * 8 + PROBES.indexOf(probe)).fork('sleeve');
  const site = base.fork('site');
  const groundC = site.range(5, 16);
  const pipeMm = site.pick([100, 125, 150, 150, 200, 200, 250, 300, 400]);
  const sleeveMm = site.range(2.5, 6);
  const [material, wallMm] = drawWall(site);
  const water = drawWater(base.fork('water'), groundC);
  const ground = base.fork('ground');
  const groundU = ground.pick([1, 1, 2, 3]);
  const typedC = Math.round((groundC + (groundU / 2) * ground.normal()) * 2) / 2;
  const { kinetics, criterion, resin } = drawResin(base.fork('resin'), typedC - groundU);
  const sensor = base.fork('sensor');
  const tolerance = sensor.pick(TOLERANCE_K);
  const known = base.fork('known');
  return {
    seed,
    probe,
    criterion,
    resin,
    pipe: {
      innerMm: pipeMm,
      wallMm: known.chance(0.5) ? Math.round(wallMm) : null,
      material: known.chance(0.8) ? material : 'unknown',
      sleeveMm: known.chance(0.7) ? Math.round(sleeveMm * 2) / 2 : null,
    },
    material,
    ground: { c: typedC, uC: groundU },
    headBar: water.headBar,
    infiltration: drawCamera(base.fork('camera'), water.seep?.wm2K ?? 0),
    heating: 'none',
    offsetK: sensor.range(-tolerance, tolerance) + JUNCTION_K * sensor.normal(),
    uC: 2 * Math.hypot(tolerance / Math.sqrt(3), JUNCTION_K),
    // A probe on the wall touches the sleeve as well: it reads what lies between the two.
    share: probe === 'pipe' ? sensor.range(0.2, 0.8) : sensor.range(0, 0.25),
    options: {
      kinetics,
      pipeMm,
      sleeveMm,
      wallMm,
      material,
      rubberMm: site.range(3, 10),
      ground: site.chance(0.7) ? 'wet ground' : 'dry ground',
      groundC,
      sleeveC: groundC + site.range(-3, 12),
      packerC: groundC + site.range(-3, 12),
      degree: site.range(0, 0.02),
      barAbs: site.range(1.8, 3.5),
      filmWm2K: site.range(4, 10),
      endsWmK: site.range(0, 0.5),
      endsC: groundC + site.range(-2, 4),
      contactWm2K: site.logRange(200, 2000),
      seep: water.seep,
      spread: {
        rubber: site.logRange(0.8, 1.25),
        sleeve: site.logRange(0.7, 1.5),
        pipe: site.logRange(0.75, 1.33),
        ground: site.logRange(0.7, 1.4),
      },
    },
  };
}

function drawWall(r: Random): [PipeSetup['material'] & NonNullable<SleeveOptions['material']>, number] {
  const material = r.pick([
    'clay',
    'clay',
    'clay',
    'concrete',
    'concrete',
    'pvc',
    'pe',
    'iron',
    'grp',
  ] as const);
  const [lo, hi] = {
    clay: [12, 40],
    concrete: [25, 60],
    pvc: [4, 12],
    pe: [6, 20],
    iron: [7, 15],
    grp: [6, 20],
  }[material] as [number, number];
  return [material, r.range(lo, hi)];
}

/** Groundwater: under the invert and known to be so, above it, or not known; only above it may it seep in. */
function drawWater(
  r: Random,
  groundC: number,
): { headBar: number | null; seep: (SleeveOptions['seep'] & object) | null } {
  const kind = r.next();
  const above = kind < 0.25 || (kind < 0.4 && r.chance(0.5));
  return {
    headBar: kind < 0.25 ? r.range(0.03, 0.4) : kind < 0.4 ? null : 0,
    seep: above && r.chance(0.5) ? { wm2K: r.logRange(10, 150), c: groundC + 0.5 * r.normal() } : null,
  };
}

/**
 * What the camera showed some time before the sleeve was placed: nobody looked at one defect of four. A seep of
 * 10 W/(m²·K) is missed in 35 %, one of 150 in 5 % (behind roots and deposits, or the survey was made in a dry week); what
 * is seen is told by eye. A dry wall may be taken for a wet one: condensation, old stains.
 */
function drawCamera(r: Random, wm2K: number): Infiltration {
  const looked = r.chance(0.75);
  const miss = r.next();
  const eye = Math.exp(0.5 * r.normal());
  if (!looked) return 'not-looked';
  if (wm2K === 0) return miss < 0.02 ? 'dripping' : miss < 0.12 ? 'damp' : 'none';
  if (miss < 0.35 - (0.3 * Math.log(wm2K / 10)) / Math.log(15)) return 'none';
  const seen = wm2K * eye;
  return seen < 15 ? 'damp' : seen < 60 ? 'dripping' : 'running';
}

interface Resin {
  readonly kinetics: Kinetics;
  readonly criterion: number;
  readonly resin: ResinSetup;
}

const TABLES: readonly (readonly number[])[][] = [
  [[20], [20], [23], [15]],
  [
    [10, 20],
    [20, 30],
    [15, 25],
    [10, 25],
  ],
  [
    [10, 20, 30],
    [5, 15, 25],
    [10, 15, 20],
    [5, 10, 20],
  ],
  [
    [5, 10, 20, 30],
    [5, 10, 15, 20],
  ],
];

function drawResin(r: Random, coldestC: number): Resin {
  const e2 = r.range(42e3, 75e3);
  const e1 = Math.min(80e3, Math.max(40e3, e2 + r.range(-5e3, 10e3)));
  const criterion = r.range(0.75, 0.92);
  const minutes = r.logRange(35, 300);
  const lowest = [0, 5, 5, 8].filter((c) => c <= coldestC - 0.5);
  const lowestC = lowest.length === 0 ? Math.floor(coldestC - 1) : r.pick(lowest);
  const perK = r.range(0.001, 0.005);
  const shape = {
    k1Ref: r.logRange(0.005, 0.15),
    k2Ref: 1,
    e1,
    e2,
    m: r.range(0.4, 1.2),
    n: r.range(1, 1.9),
    heatJkg: r.range(80e3, 280e3),
    inductionS: 0,
    // Where it vitrifies the criterion is still within reach at the lowest temperature of the sheet.
    vitrify: r.chance(0.25) ? { full: criterion + r.range(0.04, 0.1) + perK * (20 - lowestC), perK } : null,
  };
  const induction = r.chance(0.4) ? r.range(0.05, 0.3) : 0;
  const unit = isothermalS(shape, 20, criterion);
  const f = unit / (60 * minutes * (1 - induction));
  const kinetics: Kinetics = {
    ...shape,
    k1Ref: shape.k1Ref * f,
    k2Ref: f,
    inductionS: 60 * minutes * induction,
  };
  const resin = drawSheet(r, kinetics, criterion, lowestC);
  // The job sheet names the exotherm's class in two of three.
  const { heatJkg } = kinetics;
  const exotherm = heatJkg < 120e3 ? 'low' : heatJkg < 190e3 ? 'medium' : 'high';
  return { kinetics, criterion, resin: r.chance(0.67) ? { ...resin, exotherm } : resin };
}

function drawSheet(r: Random, kinetics: Kinetics, criterion: number, lowestC: number): ResinSetup {
  const count = r.next();
  const table = r.pick(TABLES[count < 0.15 ? 0 : count < 0.45 ? 1 : count < 0.8 ? 2 : 3]!);
  return sheetAt(r, kinetics, criterion, lowestC, table);
}

/** The sheet that a maker would print for these kinetics, with its times at the temperatures of a table. */
export function sheetAt(
  r: Random,
  kinetics: Kinetics,
  criterion: number,
  lowestC: number | null,
  table: readonly number[],
): ResinSetup {
  const scatter = r.range(0.01, 0.05);
  const points: CureTimePoint[] = [];
  for (const c of table) {
    const m = (isothermalS(kinetics, c, criterion) / 60) * Math.exp(scatter * r.normal());
    if (!Number.isFinite(m)) continue;
    const step = m < 60 ? 5 : m < 180 ? 10 : m < 600 ? 15 : 30;
    points.push({ c, minutes: Math.max(step, Math.round(m / step) * step) });
  }
  return {
    name: 'drawn',
    criterion: 'let-down',
    points,
    lowestC,
    potLifeMin: null,
    exotherm: 'unknown',
    expectedRiseK: null,
  };
}
