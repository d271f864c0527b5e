/** What a simulated site is made of. Every member may be left out; the defaults make a DN150 packer on a 6 mm hose. */
import { type CupOptions, slowed } from './cup.ts';
import type { Kinetics } from './cure.ts';
import { hoseRestriction, type Restriction } from './flow.ts';
import type { PackerOptions } from './packer.ts';
import type { MATERIALS } from './wall.ts';

export interface CompressorOptions {
  /** Receiver, litres. 5-200. */
  readonly receiverL?: number;
  /** Gauge pressure at the start, bar. */
  readonly startBar?: number;
  /** The pressure switch: starts below the first, stops above the second, bar. */
  readonly cutInBar?: number;
  readonly cutOutBar?: number;
  /** Delivery in litres of free air a minute. 20-500. */
  readonly deliveryLMin?: number;
  /** Seconds from the start at which the fuel runs out; null: never. */
  readonly fuelOutS?: number | null;
}

export interface RegulatorOptions {
  /** Set point at no flow, bar gauge. */
  readonly setBar?: number;
  /** Fully open this far under the set point, bar: the droop at full flow. 0.05-0.6. */
  readonly droopBar?: number;
  /** Sonic conductance fully open, m³/(s·Pa). */
  readonly conductance?: number;
  readonly b?: number;
  /** Lets air out when the outlet stands above the set point by more than the offset. */
  readonly relieving?: boolean;
  readonly relieveOffsetBar?: number;
  /** Lag of the regulator's valve, s. 0: none. 0-1. */
  readonly lagS?: number;
  /** The set point moves up by itself, bar/min (a worn seat or a screw that turns). */
  readonly creepBarPerMin?: number;
  /** From this time on it creeps, s. */
  readonly creepFromS?: number;
  /** It passes full supply pressure, whatever it is set to. */
  readonly stuckOpen?: boolean;
}

export interface ValveOptions {
  readonly conductance?: number;
  readonly b?: number;
  /** Seconds a hand takes from shut to open or back. 0.2-1. */
  readonly travelS?: number;
  /** Conductance goes with opening to this power. 1-3. */
  readonly curve?: number;
  /** What passes when it is shut, m³/(s·Pa). */
  readonly seepage?: number;
}

export interface HoseOptions {
  readonly lengthM?: number;
  readonly innerMm?: number;
  /** Instead of the estimate from length and bore. */
  readonly restriction?: Restriction | null;
}

export interface LeakOptions {
  /** Fall of pressure by the leak alone at atBar in the closed, full packer with its hose, mbar/min. */
  readonly mbarPerMin?: number;
  readonly atBar?: number;
}

export interface HeatOptions {
  /** Film between gas and packer wall when still, at 2.5 bar absolute, W/(m²·K). 3-15. */
  readonly filmWm2K?: number;
  /** How much the incoming air stirs: the film's gain at 1 g/s. 0-8. */
  readonly stir?: number;
}

export interface PipeOptions {
  readonly sleeveMm?: number;
  readonly rubberMm?: number;
  readonly wallMm?: number;
  readonly material?: keyof typeof MATERIALS;
  readonly ground?: 'dry ground' | 'wet ground';
  readonly groundC?: number;
  /** Temperature of sleeve and packer wall when they go in, °C; null: ground temperature. */
  readonly startC?: number | null;
  /** null: no resin reacts. Degree of cure counts from the site's time 0. */
  readonly kinetics?: Kinetics | null;
  readonly seep?: { readonly wm2K: number; readonly c: number } | null;
  /** Contact between sleeve and pipe, W/(m²·K). */
  readonly contactWm2K?: number;
}

export interface SiteOptions {
  /** Air pressure, bar absolute. 0.7-1.08. */
  readonly airBar?: number;
  /** Temperature of air, hose and compressor, °C. */
  readonly airC?: number;
  readonly compressor?: CompressorOptions;
  readonly regulator?: RegulatorOptions;
  /** Gas between regulator and valve, litres. 0.05-5. */
  readonly supplyL?: number;
  readonly valve?: ValveOptions;
  readonly hose?: HoseOptions;
  /** A check valve: behind the hand valve, or in a self-sealing coupling at the packer. */
  readonly nonReturn?: 'none' | 'valve' | 'coupling';
  /** A relief valve on the hose, bar; null: none. */
  readonly reliefBar?: number | null;
  readonly vent?: { readonly conductance?: number; readonly b?: number };
  readonly packer?: PackerOptions;
  readonly leak?: LeakOptions;
  readonly heat?: HeatOptions;
  readonly pipe?: PipeOptions;
  /** A cup of the batch in the air; its resin is the pipe's. null: none. */
  readonly cup?: Pick<CupOptions, 'potC' | 'tauS' | 'heat'> | null;
  /** Times its usual time that the batch takes, in sleeve and cup. */
  readonly slowBatch?: number;
  /** Start coupled to the packer. */
  readonly coupled?: boolean;
  /** Scales the internal steps, for convergence tests. 0.1-2. */
  readonly stepScale?: number;
}

type Full<T> = { readonly [K in keyof T]-?: Exclude<T[K], undefined> };

export interface Site0 {
  readonly airPa: number;
  readonly airK: number;
  readonly compressor: Full<CompressorOptions>;
  readonly regulator: Full<RegulatorOptions>;
  readonly supplyM3: number;
  readonly valve: Full<ValveOptions>;
  readonly hose: Restriction;
  readonly hoseM3: number;
  readonly nonReturn: 'none' | 'valve' | 'coupling';
  readonly reliefBar: number | null;
  readonly vent: Restriction;
  readonly packer: PackerOptions;
  readonly leak: Full<LeakOptions>;
  readonly heat: Full<HeatOptions>;
  readonly pipe: Full<PipeOptions>;
  readonly cup: CupOptions | null;
  readonly coupled: boolean;
  readonly stepScale: number;
}

/** Options with their defaults, in SI. @throws RangeError naming the member that makes no sense */
export function resolveOptions(o: SiteOptions): Site0 {
  const hose = { lengthM: 20, innerMm: 6, restriction: null, ...o.hose };
  const whole: Site0 = {
    airPa: (o.airBar ?? 1.01325) * 1e5,
    airK: (o.airC ?? 15) + 273.15,
    compressor: {
      receiverL: 24,
      startBar: 7,
      cutInBar: 6,
      cutOutBar: 8,
      deliveryLMin: 120,
      fuelOutS: null,
      ...o.compressor,
    },
    regulator: {
      setBar: 1.5,
      droopBar: 0.2,
      conductance: 2e-8,
      b: 0.3,
      relieving: false,
      relieveOffsetBar: 0.05,
      lagS: 0,
      creepBarPerMin: 0,
      creepFromS: 0,
      stuckOpen: false,
      ...o.regulator,
    },
    supplyM3: (o.supplyL ?? 0.3) / 1000,
    valve: { conductance: 1.5e-8, b: 0.35, travelS: 0.4, curve: 1.5, seepage: 0, ...o.valve },
    hose: hose.restriction ?? hoseRestriction(hose.innerMm, hose.lengthM),
    hoseM3: Math.PI * (hose.innerMm / 2000) ** 2 * hose.lengthM,
    nonReturn: o.nonReturn ?? 'none',
    reliefBar: o.reliefBar ?? null,
    vent: { c: o.vent?.conductance ?? 2e-8, b: o.vent?.b ?? 0.3 },
    packer: o.packer ?? {},
    leak: { mbarPerMin: 0, atBar: 1.5, ...o.leak },
    heat: { filmWm2K: 6, stir: 3, ...o.heat },
    pipe: {
      sleeveMm: 3.5,
      rubberMm: 5,
      wallMm: 15,
      material: 'clay',
      ground: 'wet ground',
      groundC: 10,
      startC: null,
      kinetics: null,
      seep: null,
      contactWm2K: 800,
      ...o.pipe,
    },
    cup: null,
    coupled: o.coupled ?? true,
    stepScale: o.stepScale ?? 1,
  };
  const site = withBatch(whole, o);
  const positive: readonly [string, number][] = [
    ['airBar', site.airPa],
    ['compressor.receiverL', site.compressor.receiverL],
    ['regulator.droopBar', site.regulator.droopBar],
    ['supplyL', site.supplyM3],
    ['valve.travelS', site.valve.travelS],
    ['hose.lengthM', site.hoseM3],
    ['stepScale', site.stepScale],
  ];
  for (const [name, value] of positive)
    if (!(value > 0)) throw new RangeError(`site option ${name} must be above 0`);
  return site;
}

/** The batch's own speed, and its cup. */
function withBatch(site: Site0, o: SiteOptions): Site0 {
  const { kinetics } = site.pipe;
  if (kinetics === null) return site;
  const slow = o.slowBatch ?? 1;
  const cup = o.cup == null ? null : { kinetics, slow, airC: site.airK - 273.15, draught: null, ...o.cup };
  return { ...site, cup, pipe: { ...site.pipe, kinetics: slowed(kinetics, slow) } };
}
