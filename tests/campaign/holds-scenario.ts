/**
 * The holds of the campaign, drawn from seeds: packers, fills, resins, probes, sensors, leaks, lines. What is drawn
 * here is the simulated world's own knowledge; the watch gets the readings and what a job sheet would say.
 */
import type { Line, ResinSetup } from '../../src/job/setup.ts';
import { type Kinetics, QUICK_RESIN, SLOW_RESIN } from '../../src/rig/cure.ts';
import type { SiteOptions } from '../../src/rig/options.ts';
import { createRandom, type Random } from '../../src/rig/random.ts';
import { isothermalS } from '../../src/rig/testing/isothermal.ts';

export const WITNESSES = ['air', 'sleeve', 'none'] as const;
export type Witness = (typeof WITNESSES)[number];
export const HEATS = ['inert', 'mild', 'strong'] as const;
export type Heat = (typeof HEATS)[number];
export const GRADES = ['fine', 'common', 'coarse'] as const;
export type Grade = (typeof GRADES)[number];

export interface HoldSensor {
  readonly stepBar: number;
  readonly noiseBar: number;
  readonly wanderBar: number;
  readonly wanderTauS: number;
  /** Slow drift with the weather, bar. */
  readonly driftBar: number;
  readonly spanBar: number;
  /** Its own warmth: share of the span a kelvin, as the sheet states it (null: it does not) and as it truly is. */
  readonly sheetPerK: number | null;
  readonly perK: number;
  /** Its surroundings change now and then by so much (1 s), K, and it follows with that lag. */
  readonly gustK: number;
  readonly lagS: number;
  /** Once in the hold the sun comes to it, or leaves it; null: not. */
  readonly sun: { readonly fromS: number; readonly overS: number; readonly k: number } | null;
}

export interface HoldProbe {
  readonly lagS: number;
  /** Share of a temperature change that it sees. */
  readonly gain: number;
  readonly offsetK: number;
  /** What it does not know of the gas's mean: wanders by so much, with that time constant. */
  readonly wanderK: number;
  readonly wanderTauS: number;
  readonly noiseK: number;
}

export interface HoldScenario {
  readonly seed: number;
  readonly site: SiteOptions;
  readonly witness: Witness;
  readonly heat: Heat;
  readonly grade: Grade;
  /** How the line is fed, and what the sheet says. */
  readonly line: Exclude<Line, 'unknown'>;
  readonly declared: Line;
  readonly leakMbarMin: number;
  /** When the leak begins, s after the hold did; 0: it was there from the start. */
  readonly leakFromS: number;
  readonly workingBar: number;
  readonly ceilingBar: number;
  readonly floorBar: number;
  readonly holdS: number;
  /** Pressure loss under working at which the crew fills again, bar; null: never. */
  readonly topUpBar: number | null;
  readonly sensor: HoldSensor;
  readonly probe: HoldProbe;
  readonly resin: ResinSetup | null;
  readonly kinetics: Kinetics | null;
  readonly litres: number;
}

export interface HoldWishes {
  readonly witness?: Witness;
  readonly heat?: Heat;
  readonly grade?: Grade;
  readonly line?: HoldScenario['line'];
  readonly declared?: Line;
  readonly leakMbarMin?: number;
  readonly leakFromS?: number;
  readonly holdS?: number;
  readonly topUps?: boolean;
  /** A fill in seconds, through wide bores. */
  readonly fastFill?: boolean;
  /** The sun comes to the sensor, or leaves it, in the hold. */
  readonly sun?: boolean;
  /** Ceiling over working, bar. */
  readonly headroomBar?: number;
  /** The resin's expected rise is on the sheet. */
  readonly riseKnown?: boolean;
  /** Exotherm class on the sheet. */
  readonly exotherm?: ResinSetup['exotherm'];
  /** The sleeve goes in at ground temperature or little over it. */
  readonly coldSleeve?: boolean;
}

/** Strata run through with the seed, so that every slice of seeds holds each of them. */
function stratum<T>(items: readonly T[], seed: number, stride: number): T {
  return items[Math.floor(seed / stride) % items.length]!;
}

export function drawHold(seed: number, wish: HoldWishes = {}): HoldScenario {
  const base = createRandom(seed * 16 + 3);
  const r = base.fork('site');
  const witness = wish.witness ?? stratum(WITNESSES, seed, 1);
  const heat = wish.heat ?? stratum(HEATS, seed, 3);
  const grade = wish.grade ?? stratum(GRADES, seed, 9);
  const line = wish.line ?? 'closed';
  const pipeMm = r.pick([100, 125, 150, 200, 250, 300, 400]);
  const lengthM = r.range(0.4, 1.2);
  const workingBar = Math.min(2.5, Math.max(0.6, r.range(0.9, 1.4) * (1.8 - pipeMm / 400)));
  const fast = wish.fastFill ?? r.chance(0.4);
  const litres = Math.PI * (pipeMm / 2000) ** 2 * lengthM * 1000;
  const groundC = r.range(4, 16);
  const strong = heat === 'strong';
  const kinetics0 =
    heat === 'inert' ? null : strong || r.chance(0.5) ? vary(QUICK_RESIN, r) : vary(SLOW_RESIN, r);
  // So that a thick sleeve warms the gas by 10 to 35 K and not more.
  const kinetics =
    kinetics0 === null || !strong
      ? kinetics0
      : { ...kinetics0, heatJkg: kinetics0.heatJkg * r.range(0.3, 0.6) };
  const sleeveMm = strong ? r.range(8, 12) : r.range(2.5, 5);
  const leak = wish.leakMbarMin ?? (r.chance(0.35) ? 0 : r.logRange(0.3, 20));
  // Bores that fill it in seconds or in a minute or two.
  const c = ((litres * 1e-3) / (fast ? r.range(4, 10) : r.range(30, 90))) * 1.2e-5;
  return {
    seed,
    witness,
    heat,
    grade,
    line,
    declared: wish.declared ?? line,
    leakMbarMin: leak,
    leakFromS: wish.leakFromS ?? 0,
    workingBar,
    ceilingBar: workingBar + (wish.headroomBar ?? 1),
    floorBar: 0.4 * workingBar,
    holdS: wish.holdS ?? stratum([15, 30, 60, 60, 120], seed, 27) * 60,
    topUpBar: wish.topUps === true ? r.range(0.06, 0.15) : null,
    litres,
    kinetics,
    resin: resinOf(heat, kinetics, wish),
    site: {
      airBar: r.range(0.93, 1.03),
      airC: r.range(0, 30),
      compressor: { receiverL: r.range(50, 150), startBar: 8, cutInBar: 7, cutOutBar: 9, deliveryLMin: 400 },
      regulator: {
        setBar: workingBar,
        droopBar: r.range(0.05, 0.25),
        conductance: 3 * c,
        relieving: line === 'supplied-relieving',
        relieveOffsetBar: 0.03,
      },
      valve: { conductance: 1.5 * c, travelS: r.range(0.3, 0.7) },
      hose: { lengthM: r.range(5, 30), innerMm: Math.max(6, Math.sqrt(c * 1.6e9)) },
      packer: {
        pipeMm,
        lengthM,
        limpShare: r.range(0.08, 0.4),
        freeInflationBar: r.range(0.08, 0.3),
        stiffPerBar: r.range(0.005, 0.05),
        creepPerBar: r.range(0.001, 0.01),
        creepTauS: r.range(10, 60),
        slowCreepPerBar: r.range(0.001, 0.006),
        slowCreepTauS: r.logRange(250, 1000),
        squeezeShare: r.range(0.001, 0.008),
        squeezeTauS: r.logRange(80, 400),
      },
      leak: { mbarPerMin: wish.leakFromS === undefined ? leak : 0, atBar: workingBar },
      heat: { filmWm2K: r.range(3, 12), stir: r.range(1, 6) },
      pipe: {
        groundC,
        startC: strong && wish.coldSleeve !== true ? r.range(18, 27) : groundC + r.range(0, 8),
        sleeveMm,
        rubberMm: Math.min(r.range(3, 8), pipeMm / 8),
        wallMm: r.range(8, 30),
        kinetics,
      },
    },
    sensor: {
      ...drawSensor(base.fork('sensor'), grade),
      ...drawWarmth(base.fork('warmth'), grade, wish.sun === true),
    },
    probe: drawProbe(base.fork('probe'), witness),
  };
}

function vary(k: Kinetics, r: Random): Kinetics {
  const f = r.logRange(0.6, 1.7);
  return { ...k, k1Ref: k.k1Ref * f, k2Ref: k.k2Ref * f, inductionS: k.inductionS * r.range(0, 2) };
}

/** The sheet's times are the resin's own to 85 %, in steps of five minutes. */
function resinOf(heat: Heat, kinetics: Kinetics | null, wish: HoldWishes): ResinSetup | null {
  if (kinetics === null) return null;
  return {
    name: 'sketch',
    criterion: 'let-down',
    points: [5, 10, 20].map((c) => ({
      c,
      minutes: Math.max(5, Math.round(isothermalS(kinetics, c, 0.85) / 300) * 5),
    })),
    lowestC: 3,
    potLifeMin: null,
    exotherm: wish.exotherm ?? (heat === 'strong' ? 'high' : 'medium'),
    expectedRiseK: wish.riseKnown === true ? (heat === 'strong' ? 25 : 6) : null,
  };
}

type Warmth = Pick<HoldSensor, 'spanBar' | 'sheetPerK' | 'perK' | 'gustK' | 'lagS' | 'sun'>;

/** Compensated transducers: 0.02-0.05 % of the span a kelvin (common practice, no source); a good one half of it. */
function drawWarmth(r: Random, grade: Grade, sun: boolean): Warmth {
  const sheet = grade === 'fine' ? r.range(1e-4, 2e-4) : r.range(2e-4, 5e-4);
  return {
    spanBar: sun ? r.pick([6, 10, 10, 16]) : r.pick([4, 6, 6, 10]),
    sheetPerK: r.chance(0.5) ? sheet : null,
    perK: sheet * (sun ? r.pick([-1, 1]) * r.range(0.6, 1) : r.range(-1, 1)),
    gustK: 1,
    lagS: r.range(300, 1200),
    sun: sun
      ? { fromS: r.range(300, 1800), overS: r.range(600, 1500), k: (r.chance(0.5) ? 1 : -1) * r.range(2, 8) }
      : null,
  };
}

function drawSensor(r: Random, grade: Grade): Omit<HoldSensor, keyof Warmth> {
  switch (grade) {
    case 'fine':
      return {
        stepBar: r.pick([6 / 65536, 10 / 65536, 6 / 2 ** 20]),
        noiseBar: r.logRange(0.0002, 0.0008),
        wanderBar: r.range(0, 0.0003),
        wanderTauS: r.range(10, 60),
        driftBar: 0.0006,
      };
    case 'common':
      return {
        stepBar: r.pick([6 / 4095, 6 / 16383, 10 / 4095]),
        noiseBar: r.logRange(0.0008, 0.0025),
        wanderBar: r.range(0.0002, 0.001),
        wanderTauS: r.range(10, 60),
        driftBar: 0.001,
      };
    case 'coarse':
      return {
        stepBar: r.pick([6 / 1023, 10 / 1023]),
        noiseBar: r.logRange(0.003, 0.006),
        wanderBar: r.range(0.001, 0.003),
        wanderTauS: r.range(10, 60),
        driftBar: 0.0015,
      };
  }
}

function drawProbe(r: Random, witness: Witness): HoldProbe {
  const air = witness === 'air';
  return {
    lagS: air ? r.logRange(4, 45) : r.range(5, 40),
    gain: 1 + 0.04 * r.normal(),
    offsetK: 0.8 * r.normal(),
    // Trend over ten minutes known to 0.05 K/min (95 %).
    wanderK: 0.17,
    wanderTauS: 600,
    noiseK: r.range(0.03, 0.1),
  };
}
