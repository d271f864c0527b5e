/**
 * The air between regulator and packer: three volumes (supply, hose, packer) and the restrictions between them.
 * Small stiff volumes beside a large one, so each step is implicit (backward Euler, Newton on a 3 × 3
 * tridiagonal system) and may be as long as the packer allows. Masses are the state and every flow is booked
 * once out and once in, so that air is conserved to rounding.
 */
import { isoFlow, R_AIR, type Restriction } from './flow.ts';
import type { Site0 } from './options.ts';
import type { Packer } from './packer.ts';

const BAR = 1e5;
/** So near the solution no kink is left in between, Pa. */
const NEAR_PA = 50;

/** Flows of the last accepted step, kg/s, positive in the direction of the name. */
export interface Flows {
  regulator: number;
  relieved: number;
  valve: number;
  vent: number;
  relief: number;
  /** Hose to packer. */
  hose: number;
  /** Open hose end to the air, when not coupled, and a hole in the hose. */
  blown: number;
  leak: number;
}

export class Network {
  /** Masses, kg. */
  supplyKg: number;
  hoseKg: number;
  packerKg: number;
  /** Gas temperature in the packer, K. */
  gasK: number;
  /** Absolute pressures, Pa. */
  supplyPa: number;
  hosePa: number;
  packerPa: number;
  /** Receiver, absolute Pa. */
  receiverPa: number;
  /** Share 0..1 of the regulator's valve, where it has a lag. */
  private lift = 0;
  private nextLift = 0;
  /** Conductance of the hand valve at the opening valveAt. */
  private valveC = 0;
  private valveAt = Number.NaN;
  /** What hands and faults have set: 0..1 and bar. */
  valveOpen = 0;
  ventOpen = 0;
  setBar: number;
  stuckOpen: boolean;
  coupled: boolean;
  /** Share of its conductance that a kink leaves to the hose, over 0 .. 1. */
  hoseOpen = 1;
  /** Of a hose that is not coupled. */
  endShut = false;
  /** Sonic conductance of a hole in the hose, m³/(s·Pa). */
  hoseLeakC = 0;
  leakC: number;
  /** What a burst has torn open, beside the leak. */
  tornC = 0;
  /** At which the relief valve lifts, gauge, bar; null: there is none. */
  reliefBar: number | null;
  readonly flows: Flows = {
    regulator: 0,
    relieved: 0,
    valve: 0,
    vent: 0,
    relief: 0,
    hose: 0,
    blown: 0,
    leak: 0,
  };
  /** Where a trial step would lead. */
  trialSupplyPa = 0;
  trialHosePa = 0;
  trialPackerPa = 0;
  private readonly r = { q: 0, da: 0, db: 0 };
  private readonly relief: Restriction;
  readonly site: Site0;
  readonly packer: Packer;
  /** Half of the hose's volume stands at either end of its restriction. */
  private readonly hoseHalfM3: number;

  constructor(site: Site0, packer: Packer) {
    this.site = site;
    this.packer = packer;
    this.hoseHalfM3 = site.hoseM3 / 2;
    this.relief = { c: 3e-8, b: 0.3 };
    this.gasK = site.pipe.groundC + 273.15;
    this.supplyPa = site.airPa;
    this.hosePa = site.airPa;
    this.packerPa = site.airPa;
    this.receiverPa = site.airPa + site.compressor.startBar * BAR;
    this.supplyKg = (site.airPa * site.supplyM3) / (R_AIR * site.airK);
    this.hoseKg = (site.airPa * this.hoseHalfM3) / (R_AIR * site.airK);
    this.packerKg = (site.airPa * this.volumeM3(site.airPa)) / (R_AIR * this.gasK);
    this.setBar = site.regulator.setBar;
    this.stuckOpen = site.regulator.stuckOpen;
    this.coupled = site.coupled;
    this.reliefBar = site.reliefBar;
    this.leakC = 0;
  }

  /** Gas behind the packer's end of the hose at an absolute pressure, m³. */
  volumeM3(pa: number): number {
    return this.packer.volume(pa - this.site.airPa) + this.packer.slowM3 + this.hoseHalfM3;
  }

  /** Slope of the packer's air mass against pressure at constant temperature, kg/Pa. */
  private massSlope(pa: number): number {
    return (this.volumeM3(pa) + pa * this.packer.slope(pa - this.site.airPa)) / (R_AIR * this.gasK);
  }

  /** Litres of free air a minute out of a hole in the hose at that gauge pressure → its sonic conductance. */
  holeConductance(lPerMin: number, atBar: number): number {
    const { airPa, airK } = this.site;
    const kgPerS = ((lPerMin / 60_000) * airPa) / (R_AIR * airK);
    isoFlow(1, 0.3, airPa + atBar * BAR, airPa, airK, airK, this.r);
    return kgPerS / this.r.q;
  }

  /** Fall of the closed, full packer and hose at that gauge pressure → sonic conductance of the leak. */
  leakConductance(mbarPerMin: number, atBar: number): number {
    const pa = this.site.airPa + atBar * BAR;
    const hose = this.hoseHalfM3 / (R_AIR * this.site.airK);
    const kgPerS = (this.massSlope(pa) + hose) * ((mbarPerMin * 100) / 60);
    isoFlow(1, 0.3, pa, this.site.airPa, this.gasK, this.site.airK, this.r);
    return kgPerS / this.r.q;
  }

  /**
   * Solves a step of h seconds without taking it.
   * @returns false where Newton does not settle (take a shorter step)
   */
  trial(h: number): boolean {
    const { site, r } = this;
    const air = site.airPa;
    const airK = site.airK;
    const reg = site.regulator;
    const capSupply = site.supplyM3 / (R_AIR * airK);
    const capHose = this.hoseHalfM3 / (R_AIR * airK);
    const massScale = 1 / (R_AIR * this.gasK);
    const droop = reg.droopBar * BAR;
    const setPa = air + this.setBar * BAR;
    const lagShare = reg.lagS > 0 ? h / (h + reg.lagS) : 1;
    const open = this.valveOpen;
    if (open !== this.valveAt) {
      this.valveAt = open;
      this.valveC = (open <= 0 ? 0 : site.valve.conductance * open ** site.valve.curve) + site.valve.seepage;
    }
    const valveC = this.valveC;
    const ventC = this.ventOpen <= 0 ? 0 : site.vent.c * this.ventOpen;
    const f = this.flows;
    let ps = this.supplyPa;
    let ph = this.hosePa;
    let pp = this.packerPa;

    for (let round = 0; round < 40; round++) {
      // Regulator, and its relieving port.
      let share = 1;
      let shareSlope = 0;
      if (!this.stuckOpen) {
        const want = (setPa - ps) / droop;
        const target = Math.min(1, Math.max(0, want));
        share = this.lift + lagShare * (target - this.lift);
        shareSlope = want > 0 && want < 1 ? -lagShare / droop : 0;
      }
      this.nextLift = share;
      isoFlow(reg.conductance, reg.b, this.receiverPa, ps, airK, airK, r);
      // A regulator's own check: air does not flow back through it.
      const full = Math.max(0, r.q);
      f.regulator = share * full;
      const dReg = shareSlope * full + (r.q > 0 ? share * r.db : 0);
      f.relieved = 0;
      let dRel = 0;
      if (reg.relieving && !this.stuckOpen) {
        const over = (ps - setPa - reg.relieveOffsetBar * BAR) / (0.1 * BAR);
        if (over > 0) {
          const x = Math.min(1, over);
          isoFlow(reg.conductance * 0.15, reg.b, ps, air, airK, airK, r);
          f.relieved = x * r.q;
          dRel = x * r.da + (over < 1 ? r.q / (0.1 * BAR) : 0);
        }
      }
      // Hand valve.
      isoFlow(valveC, site.valve.b, ps, ph, airK, airK, r);
      const shutV = site.nonReturn === 'valve' && r.q < 0;
      f.valve = shutV ? 0 : r.q;
      const dvS = shutV ? 0 : r.da;
      const dvH = shutV ? 0 : r.db;
      // Vent and relief valve on the hose.
      isoFlow(ventC, site.vent.b, ph, air, airK, airK, r);
      f.vent = r.q;
      let dOut = r.da;
      f.relief = 0;
      if (this.reliefBar !== null) {
        const band = 0.05 * this.reliefBar * BAR;
        const over = (ph - air - this.reliefBar * BAR) / band;
        if (over > 0) {
          const x = Math.min(1, over);
          isoFlow(this.relief.c, this.relief.b, ph, air, airK, airK, r);
          f.relief = x * r.q;
          dOut += x * r.da + (over < 1 ? r.q / band : 0);
        }
      }
      // Hose to packer, or to the open air.
      let dhH = 0;
      let dhP = 0;
      f.hose = 0;
      f.blown = 0;
      let dLeak = 0;
      if (this.coupled) {
        isoFlow(this.hoseOpen * site.hose.c, site.hose.b, ph, pp, airK, this.gasK, r);
        if (!(site.nonReturn === 'coupling' && r.q < 0)) {
          f.hose = r.q;
          dhH = r.da;
          dhP = r.db;
        }
      } else {
        if (!this.endShut) {
          isoFlow(this.hoseOpen * site.hose.c, site.hose.b, ph, air, airK, airK, r);
          f.blown = r.q;
          dOut += r.da;
        }
        if (site.nonReturn !== 'coupling') {
          // The packer's open inlet: a short bore, three times as wide as the hose.
          isoFlow(3 * site.hose.c, 0.3, pp, air, this.gasK, airK, r);
          f.leak = r.q;
          dLeak = r.da;
        } else f.leak = 0;
      }
      if (this.hoseLeakC > 0) {
        isoFlow(this.hoseLeakC, 0.3, ph, air, airK, airK, r);
        f.blown += r.q;
        dOut += r.da;
      }
      isoFlow(this.leakC + this.tornC, 0.3, pp, air, this.gasK, airK, r);
      f.leak = (this.coupled ? 0 : f.leak) + r.q;
      dLeak += r.da;

      // Residuals (kg/s) and Jacobian.
      const gauge = pp - air;
      const vol = this.packer.volume(gauge) + this.packer.slowM3 + this.hoseHalfM3;
      const fs = (capSupply * ps - this.supplyKg) / h - f.regulator + f.relieved + f.valve;
      const fh = (capHose * ph - this.hoseKg) / h - f.valve + f.vent + f.relief + f.hose + f.blown;
      const fp = (massScale * pp * vol - this.packerKg) / h - f.hose + f.leak;
      const a11 = capSupply / h - dReg + dRel + dvS;
      const a12 = dvH;
      const a21 = -dvS;
      const a22 = capHose / h - dvH + dOut + dhH;
      const a23 = dhP;
      const a32 = -dhH;
      const a33 = (massScale * (vol + pp * this.packer.slope(gauge))) / h - dhP + dLeak;
      const m22 = a22 - (a21 * a12) / a11;
      const g2 = -fh + (a21 * fs) / a11;
      const m33 = a33 - (a32 * a23) / m22;
      const dp = (-fp - (a32 * g2) / m22) / m33;
      const dh = (g2 - a23 * dp) / m22;
      const ds = (-fs - a12 * dh) / a11;
      const big = Math.max(Math.abs(ds), Math.abs(dh), Math.abs(dp));
      if (big < 0.02) {
        this.trialSupplyPa = ps;
        this.trialHosePa = ph;
        this.trialPackerPa = pp;
        // What Newton left over is given to the large neighbours, so that the small volumes' masses fit their
        // pressures exactly however long the step is.
        f.regulator += fs;
        if (this.coupled) f.hose -= fh;
        else f.blown -= fh;
        return true;
      }
      // Kinks (a check valve, the regulator's band) can make Newton swing: damp it after a few rounds.
      // What no longer swings then goes its last way undamped, or the rounds end a few tenths of a pascal from the goal.
      const damp = round < 10 || (round >= 30 && big < NEAR_PA) ? 1 : round < 20 ? 0.5 : 0.2;
      ps = Math.max(0.2 * ps, ps + damp * ds);
      ph = Math.max(0.2 * ph, ph + damp * dh);
      pp = Math.max(0.2 * pp, pp + damp * dp);
    }
    return false;
  }

  /** Takes the step that trial() solved: masses by the booked flows, pressures from the masses. */
  take(h: number): void {
    const { site, flows: f } = this;
    this.supplyKg += h * (f.regulator - f.relieved - f.valve);
    this.hoseKg += h * (f.valve - f.vent - f.relief - f.hose - f.blown);
    this.packerKg += h * (f.hose - f.leak);
    this.lift = this.nextLift;
    this.supplyPa = (this.supplyKg * R_AIR * site.airK) / site.supplyM3;
    this.hosePa = (this.hoseKg * R_AIR * site.airK) / this.hoseHalfM3;
    this.packerPa = this.trialPackerPa;
  }

  /** Pressure of the packer from its mass and temperature: p·V(p) = m·R·T, by Newton from where it is. */
  settlePacker(): void {
    const target = this.packerKg * R_AIR * this.gasK;
    let p = this.packerPa;
    for (let i = 0; i < 30; i++) {
      const v = this.volumeM3(p);
      const step = (target - p * v) / (v + p * this.packer.slope(p - this.site.airPa));
      p = Math.max(0.3 * p, p + step);
      // Newton doubles the digits: the next step would be far below a micropascal.
      if (Math.abs(step) < 0.05) break;
    }
    this.packerPa = p;
  }
}
