/**
 * A sleeve curing in its pipe, without the air line: for thousands of simulated cures. Two columns of the same
 * make share the packer's air: the pipe at large, where probes sit, and the defect, where cold water may seep in
 * and where the least cured resin is.
 */
import type { Kinetics } from '../cure.ts';
import { CV_AIR, R_AIR } from '../flow.ts';
import { pipeLayers, type Spread } from '../layers.ts';
import { Column, type MATERIALS } from '../wall.ts';

export interface SleeveOptions {
  readonly kinetics: Kinetics;
  /** Inner diameter of the pipe, mm. 70-700. */
  readonly pipeMm?: number;
  /** Sleeve 2-12, packer wall 3-10, pipe wall 3-60, mm. */
  readonly sleeveMm?: number;
  readonly rubberMm?: number;
  readonly wallMm?: number;
  readonly material?: keyof typeof MATERIALS;
  readonly ground?: 'dry ground' | 'wet ground';
  readonly groundC?: number;
  /** The sleeve's temperature when it is seated, °C. */
  readonly sleeveC?: number;
  /** The packer's and its air's, °C. */
  readonly packerC?: number;
  /** Degree of cure when seated: it was mixed a while ago. 0-0.1. */
  readonly degree?: number;
  /** Share of the induction that is spent. */
  readonly induction?: number;
  /** Absolute pressure of the air in the packer, bar. */
  readonly barAbs?: number;
  readonly filmWm2K?: number;
  /** Packer's ends: W/K per metre of packer towards the air in the pipe, and its temperature. */
  readonly endsWmK?: number;
  readonly endsC?: number;
  readonly contactWm2K?: number;
  /** Water at the defect: W/(m²·K) between sleeve and pipe, and its temperature; null: dry. */
  readonly seep?: { readonly wm2K: number; readonly c: number } | null;
  /** Conductivities against the handbook's. */
  readonly spread?: Spread;
  /** Scales the steps, for convergence tests. */
  readonly stepScale?: number;
}

/** Temperatures in °C. Updated in place. */
export interface SleeveTruth {
  timeS: number;
  /** In the packer's air. */
  airC: number;
  /** Between packer and sleeve, in the pipe at large. */
  sleeveInnerC: number;
  /** Between sleeve and pipe, in the pipe at large. */
  sleeveOuterC: number;
  pipeC: number;
  groundC: number;
  /** Coldest resin anywhere. */
  coldestC: number;
  /** Least cured layer anywhere, and the mean in the pipe at large. */
  leastCured: number;
  meanCured: number;
  /** Of a closed packer: absolute pressure now, bar. */
  barAbs: number;
}

const ZERO_C = 273.15;

export class Sleeve {
  readonly truth: SleeveTruth;
  readonly main: Column;
  readonly defect: Column | null;
  private h = 0.5;
  private timeS = 0;
  private readonly startK: number;
  private readonly barAbs: number;
  private readonly scale: number;

  constructor(options: SleeveOptions) {
    const o = {
      pipeMm: 150,
      sleeveMm: 3.5,
      rubberMm: 5,
      wallMm: 15,
      material: 'clay' as const,
      ground: 'wet ground' as const,
      groundC: 10,
      degree: 0,
      induction: 0,
      barAbs: 2.5,
      filmWm2K: 6,
      endsWmK: 0.2,
      contactWm2K: 800,
      seep: null,
      stepScale: 1,
      ...options,
    };
    const { innerRadiusM, layers } = pipeLayers(o);
    const sleeveC = o.sleeveC ?? o.groundC;
    const packerC = o.packerC ?? o.groundC;
    this.startK = packerC + ZERO_C;
    this.barAbs = o.barAbs;
    this.scale = o.stepScale;
    const kgPerM = (o.barAbs * 1e5 * Math.PI * innerRadiusM * innerRadiusM) / (R_AIR * this.startK);
    const make = (seep: SleeveOptions['seep'], jPerKm: number) =>
      new Column({
        innerRadiusM,
        layers,
        startC: { rubber: packerC, sleeve: sleeveC },
        groundC: o.groundC,
        gas: {
          jPerKm,
          filmWm2K: o.filmWm2K,
          ...(jPerKm < 1e9 ? { ends: { wmK: o.endsWmK, c: o.endsC ?? o.groundC } } : {}),
        },
        gasStartC: packerC,
        seep: seep ?? null,
        kinetics: o.kinetics,
      });
    this.main = make(null, kgPerM * CV_AIR);
    // The defect is short: it does not cool the packer's air, which it only borrows.
    this.defect = o.seep === null ? null : make(o.seep, 1e12);
    for (const column of [this.main, this.defect]) {
      if (column === null) continue;
      for (let j = 0; j < column.cureCount; j++) {
        column.cure.degree[column.cureFrom + j] = o.degree;
        column.cure.induction[column.cureFrom + j] = o.induction;
      }
    }
    this.truth = {
      timeS: 0,
      airC: packerC,
      sleeveInnerC: sleeveC,
      sleeveOuterC: sleeveC,
      pipeC: o.groundC,
      groundC: o.groundC,
      coldestC: sleeveC,
      leastCured: o.degree,
      meanCured: o.degree,
      barAbs: o.barAbs,
    };
  }

  /** Lets dtS seconds go by, in steps as long as temperatures and reaction allow (0.2 to 60 s). */
  step(dtS: number): void {
    const end = this.timeS + dtS;
    while (end - this.timeS > 1e-9) {
      const left = end - this.timeS;
      const h = left / Math.ceil(left / (this.h * this.scale) - 1e-9);
      const { main, defect } = this;
      if (defect !== null) {
        defect.t[0] = main.t[0]!;
        defect.step(h);
      }
      main.step(h);
      const changeK = Math.max(main.lastChangeK, defect?.lastChangeK ?? 0);
      const gain = Math.max(main.lastGain, defect?.lastGain ?? 0);
      const ratio = Math.max(changeK / 0.3, gain / 0.01) / this.scale;
      this.h = Math.min(
        60,
        Math.max(0.2, (h / this.scale) * Math.min(1.4, Math.max(0.3, 0.9 / (ratio + 1e-9)))),
      );
      this.timeS += h;
    }
    this.timeS = end;
    this.show();
  }

  private show(): void {
    const { truth, main, defect } = this;
    const first = main.cureFrom;
    const last = first + main.cureCount - 1;
    truth.timeS = this.timeS;
    truth.airC = main.t[0]! - ZERO_C;
    truth.sleeveInnerC = main.t[first]! - ZERO_C;
    truth.sleeveOuterC = main.t[last]! - ZERO_C;
    truth.pipeC = main.t[last + 1]! - ZERO_C;
    truth.leastCured = Math.min(main.leastCured, defect?.leastCured ?? 1);
    truth.meanCured = main.meanCured;
    let coldest = Number.POSITIVE_INFINITY;
    for (let i = first; i <= last; i++)
      coldest = Math.min(coldest, main.t[i]!, defect === null ? Number.POSITIVE_INFINITY : defect.t[i]!);
    truth.coldestC = coldest - ZERO_C;
    truth.barAbs = (this.barAbs * main.t[0]!) / this.startK;
  }
}
