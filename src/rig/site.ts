/**
 * The simulated site: compressor, regulator, hand valve, hose, packer in its pipe, with air, heat and resin as
 * they truly are. It knows what no sensor shows. Time is an argument; two sites with the same options and the
 * same hands give the same truth to the last bit, whatever the seed of their sensors.
 */
import { Cup } from './cup.ts';
import { CP_AIR, CV_AIR, R_AIR, RHO0, T0 } from './flow.ts';
import { pipeLayers } from './layers.ts';
import { Network } from './network.ts';
import { resolveOptions, type Site0, type SiteOptions } from './options.ts';
import { createPacker, type Packer } from './packer.ts';
import { Column } from './wall.ts';

/** What is so, whether or not a sensor sees it. Gauge pressures in bar, temperatures in °C. Updated in place. */
export interface SiteTruth {
  timeS: number;
  /** At the regulator's outlet. */
  supplyBar: number;
  /** Behind the last valve, at the hose's near end. */
  hoseBar: number;
  /** In the packer itself. */
  packerBar: number;
  receiverBar: number;
  /** Mean gas temperature in the packer. */
  gasC: number;
  /** Inside of the sleeve (towards the packer), its outside, inside of the pipe wall, ground at a metre. */
  sleeveInnerC: number;
  sleeveOuterC: number;
  pipeC: number;
  groundC: number;
  airC: number;
  /** Of the batch's resin in its cup; the air's where there is none. */
  cupC: number;
  /** Gas volume of the packer, litres. */
  volumeL: number;
  packerKg: number;
  /** Into the packer, kg/s (negative while venting). */
  flowKgS: number;
  leakKgS: number;
  valveOpen: number;
  ventOpen: number;
  regulatorBar: number;
  /** Through the relief valve, kg/s. */
  reliefKgS: number;
  /** Out of the open end of a hose that is off, kg/s. */
  blownKgS: number;
  burst: boolean;
  coupled: boolean;
  /** The end of a hose that is off the packer is shut. */
  endShut: boolean;
  leastCured: number;
  meanCured: number;
  /** Highest packerBar so far. */
  peakBar: number;
}

/** Books for the checks: joules and kilograms since the start, and what the gas holds. */
export interface SiteBooks {
  enthalpyInJ: number;
  workJ: number;
  heatToWallJ: number;
  gasJ: number;
  /** Delivered by the compressor, and lost to the air on every way. */
  deliveredKg: number;
  escapedKg: number;
  heldKg: number;
}

const BAR = 1e5;
const ZERO_C = 273.15;
/** Of what a burst tears open, m³/(s·Pa): a cut of some 12 cm², which empties 20 litres in half a second. */
const TORN_C = 5e-7;
/** How fast a hand turns the regulator's knob, bar/s. */
const KNOB_BAR_S = 0.8;
/** Degree of cure at which the resin no longer flows. */
const GEL = 0.3;

export class Site {
  readonly truth: SiteTruth;
  readonly options: Site0;
  readonly packer: Packer;
  readonly wall: Column;
  private readonly cup: Cup | null;
  private readonly net: Network;
  private timeS = 0;
  private h = 0.005;
  private valveTarget = 0;
  private ventTarget = 0;
  private knobBar: number;
  private knobTarget: number;
  private crept = 0;
  private creepBarPerMin: number;
  private compressorOn = false;
  private wallWaitS = 0;
  private wallWaitJ = 0;
  private bookedM3: number;
  private enthalpyInJ = 0;
  private workJ = 0;
  private heatJ = 0;
  private deliveredKg = 0;
  private escapedKg = 0;
  private readonly sleeveIn: number;
  private readonly sleeveOut: number;
  private readonly pipeIn: number;
  private readonly lengthM: number;
  private readonly gasAreaM2: number;

  constructor(options: SiteOptions = {}) {
    const site = resolveOptions(options);
    this.options = site;
    this.packer = createPacker(site.packer);
    this.lengthM = this.packer.options.lengthM;
    const pipe = site.pipe;
    const { innerRadiusM, layers } = pipeLayers({ ...pipe, pipeMm: this.packer.options.pipeMm });
    const start = pipe.startC ?? pipe.groundC;
    this.wall = new Column({
      innerRadiusM,
      layers,
      startC: { rubber: start, sleeve: start },
      groundC: pipe.groundC,
      gas: null,
      seep: pipe.seep,
      kinetics: pipe.kinetics,
    });
    this.gasAreaM2 = 2 * Math.PI * innerRadiusM * this.lengthM;
    this.sleeveIn = this.wall.first.sleeve!;
    this.sleeveOut = this.wall.last.sleeve!;
    this.pipeIn = this.wall.first.pipe!;
    this.cup = site.cup === null ? null : new Cup(site.cup);
    this.net = new Network(site, this.packer);
    this.net.leakC =
      site.leak.mbarPerMin > 0 ? this.net.leakConductance(site.leak.mbarPerMin, site.leak.atBar) : 0;
    this.knobBar = site.regulator.setBar;
    this.knobTarget = site.regulator.setBar;
    this.creepBarPerMin = site.regulator.creepBarPerMin;
    this.bookedM3 = this.net.volumeM3(site.airPa);
    this.truth = {
      timeS: 0,
      supplyBar: 0,
      hoseBar: 0,
      packerBar: 0,
      receiverBar: site.compressor.startBar,
      gasC: start,
      sleeveInnerC: start,
      sleeveOuterC: start,
      pipeC: pipe.groundC,
      groundC: pipe.groundC,
      airC: site.airK - ZERO_C,
      cupC: site.cup?.potC ?? site.airK - ZERO_C,
      volumeL: this.packer.volume(0) * 1000,
      packerKg: this.net.packerKg,
      flowKgS: 0,
      leakKgS: 0,
      valveOpen: 0,
      ventOpen: 0,
      regulatorBar: this.knobBar,
      reliefKgS: 0,
      blownKgS: 0,
      burst: false,
      coupled: site.coupled,
      endShut: false,
      leastCured: 0,
      meanCured: 0,
      peakBar: 0,
    };
  }

  /** Hand on the valve: 0 shut .. 1 open; it moves at the hand's speed. */
  valve(open: number): void {
    this.valveTarget = clamp01(open);
    this.wake();
  }

  /** Hand on the regulator's knob: new set point, bar gauge. */
  regulator(bar: number): void {
    this.knobTarget = Math.max(0, bar);
    this.wake();
  }

  /** Hand on the vent: 0 shut .. 1 open. */
  vent(open: number | boolean): void {
    this.ventTarget = clamp01(Number(open));
    this.wake();
  }

  /** Hose on the packer, or off. Off under pressure, the hose whips and the packer empties. */
  couple(coupled: boolean): void {
    this.net.coupled = coupled;
    this.wake();
  }

  /** End of the hose while it is off the packer: shut, or open to the air. */
  hoseEnd(shut: boolean): void {
    this.net.endShut = shut;
    this.wake();
  }

  /** Fault: the regulator's set point drifts upwards from now on. 0 stops it. */
  creep(barPerMin: number): void {
    this.creepBarPerMin = barPerMin;
    this.wake();
  }

  /** Fault: the regulator passes everything, or is mended. */
  stuckOpen(stuck: boolean): void {
    this.net.stuckOpen = stuck;
    this.wake();
  }

  /** Fault: the hose is kinked and keeps this share of its conductance; 1 mends it. */
  kink(open: number): void {
    this.net.hoseOpen = Math.min(1, Math.max(1e-4, open));
    this.wake();
  }

  /** Fault: a hole in the hose, litres of free air a minute at atBar. 0 mends it. */
  hoseLeak(lPerMin: number, atBar = 1.5): void {
    this.net.hoseLeakC = lPerMin > 0 ? this.net.holeConductance(lPerMin, atBar) : 0;
    this.wake();
  }

  /** Fault: the packer bursts. Nothing mends it. */
  burst(): void {
    this.net.tornC = TORN_C;
    this.wake();
  }

  /** Fault: the relief valve lifts from this pressure on, bar. */
  relief(bar: number): void {
    this.net.reliefBar = Math.max(0.05, bar);
    this.wake();
  }

  /** Fault: a leak that takes so many mbar a minute from the closed packer at atBar. 0 mends it. */
  leak(mbarPerMin: number, atBar = 1.5): void {
    this.net.leakC = mbarPerMin > 0 ? this.net.leakConductance(mbarPerMin, atBar) : 0;
    this.wake();
  }

  /** Fall by the leak alone at the present state, mbar/min at constant temperature: the judge's truth. */
  leakRateMbarPerMin(): number {
    const gauge = this.truth.packerBar;
    if (this.net.leakC <= 0 || gauge <= 0) return 0;
    const unit = this.net.leakConductance(1, gauge);
    return this.net.leakC / unit;
  }

  private wake(): void {
    this.h = Math.min(this.h, 0.004);
  }

  /** Lets dtS seconds go by. Any length: the site takes the inner steps that its state asks for. */
  step(dtS: number): void {
    this.stepTo(this.timeS + dtS);
  }

  /** The same up to a time in seconds since the start: sums of many steps do not drift. */
  stepTo(end: number): void {
    const { compressor, regulator, stepScale } = this.options;
    this.cup?.step(end - this.timeS);
    while (end - this.timeS > 1e-9) {
      let h = this.h * stepScale;
      if (this.valveTarget !== this.net.valveOpen || this.ventTarget !== this.net.ventOpen)
        h = Math.min(h, 0.02 * stepScale);
      if (this.knobTarget !== this.knobBar) h = Math.min(h, 0.05 * stepScale);
      if (this.compressorOn) h = Math.min(h, 1);
      if (regulator.creepFromS > this.timeS) h = Math.min(h, regulator.creepFromS - this.timeS + 1e-6);
      if (compressor.fuelOutS !== null && compressor.fuelOutS > this.timeS)
        h = Math.min(h, compressor.fuelOutS - this.timeS + 1e-6);
      const left = end - this.timeS;
      // Equal parts of what is left, so that no crumb of a step remains.
      h = left / Math.ceil(left / h - 1e-9);
      this.advance(h);
    }
    this.timeS = end;
    this.show();
  }

  private advance(wanted: number): void {
    const { net, options } = this;
    let h = wanted;
    const valve0 = net.valveOpen;
    const vent0 = net.ventOpen;
    const set0 = net.setBar;
    for (;;) {
      this.moveHands(h, valve0, vent0);
      const solved = net.trial(h);
      const change = solved
        ? Math.max(
            Math.abs(net.trialPackerPa - net.packerPa) / 150,
            Math.abs(net.trialHosePa - net.hosePa) / 800,
            Math.abs(net.trialSupplyPa - net.supplyPa) / 2500,
          ) / options.stepScale
        : 100;
      if (change <= 3 || h <= 4e-4 * options.stepScale) {
        if (!solved) throw new Error('site: the air network does not settle');
        this.h = Math.min(60, (h / options.stepScale) * Math.min(2.2, Math.max(0.25, 0.8 / (change + 1e-9))));
        break;
      }
      h *= solved ? Math.max(0.2, 1.5 / change) : 0.25;
      net.setBar = set0;
    }
    this.knobBar = this.nextKnob;
    this.crept = this.nextCrept;
    this.breathe(h);
    this.timeS += h;
  }

  private nextKnob = 0;
  private nextCrept = 0;

  private moveHands(h: number, valve0: number, vent0: number): void {
    const { net, options } = this;
    const reach = h / options.valve.travelS;
    net.valveOpen = toward(valve0, this.valveTarget, reach);
    net.ventOpen = toward(vent0, this.ventTarget, reach);
    this.nextKnob = toward(this.knobBar, this.knobTarget, KNOB_BAR_S * h);
    const creeps = this.timeS >= options.regulator.creepFromS;
    this.nextCrept = this.crept + (creeps ? (this.creepBarPerMin / 60) * h : 0);
    net.setBar = this.nextKnob + this.nextCrept;
  }

  /** Books mass, heat and volume of a solved step. */
  private breathe(h: number): void {
    const { net, packer, options, wall } = this;
    const f = net.flows;
    const before = net.packerKg;
    const paBefore = net.packerPa;
    net.take(h);
    // First law for the gas in the packer: enthalpy in and out, work on the wall, heat to the wall.
    const enters = Math.max(0, f.hose);
    const leaves = Math.max(0, -f.hose) + f.leak;
    const volume = net.volumeM3(net.packerPa);
    const work = 0.5 * (paBefore + net.packerPa) * (volume - this.bookedM3);
    this.bookedM3 = volume;
    const film =
      options.heat.filmWm2K *
      Math.sqrt(net.packerPa / 2.5e5) *
      (1 + options.heat.stir * 1000 * Math.abs(f.hose));
    const loss = film * this.gasAreaM2 * h;
    const surfaceK = wall.t[0]!;
    const inJ = h * enters * CP_AIR * options.airK;
    const old = before * CV_AIR * net.gasK;
    const gasK = (old + inJ - work + loss * surfaceK) / (net.packerKg * CV_AIR + loss + h * leaves * CP_AIR);
    const outJ = h * leaves * CP_AIR * gasK;
    const heat = loss * (gasK - surfaceK);
    const turned = Math.abs(gasK - net.gasK);
    net.gasK = gasK;
    this.enthalpyInJ += inJ - outJ;
    this.workJ += work;
    this.heatJ += heat;
    if (turned > 0.05) this.h = Math.min(this.h, (h * 0.15) / turned);
    // Wall: in steps of half a second at least, with exactly the heat that the gas gave.
    this.wallWaitS += h;
    this.wallWaitJ += heat;
    if (this.wallWaitS >= 0.5) {
      wall.addHeat(this.wallWaitJ / this.lengthM);
      wall.step(this.wallWaitS);
      const ratio = Math.max(wall.lastChangeK / 0.2, wall.lastGain / 0.01);
      if (ratio > 0.5) this.h = Math.min(this.h, (this.wallWaitS * 0.9) / ratio);
      this.wallWaitS = 0;
      this.wallWaitJ = 0;
      this.truth.leastCured = wall.leastCured;
      this.truth.meanCured = wall.meanCured;
    }
    packer.relax(h, net.packerPa - options.airPa, Math.max(0, 1 - this.truth.meanCured / GEL));
    net.settlePacker();
    if (net.packerPa - options.airPa > this.truth.peakBar * BAR)
      this.truth.peakBar = (net.packerPa - options.airPa) / BAR;
    this.runCompressor(h);
    this.escapedKg += h * (f.relieved + f.vent + f.relief + f.blown + f.leak);
  }

  private runCompressor(h: number): void {
    const { compressor, airPa, airK } = this.options;
    const gauge = (this.net.receiverPa - airPa) / BAR;
    const dry = compressor.fuelOutS !== null && this.timeS >= compressor.fuelOutS;
    if (dry || gauge >= compressor.cutOutBar) this.compressorOn = false;
    else if (gauge < compressor.cutInBar) this.compressorOn = true;
    const density = RHO0 * (airPa / BAR) * (T0 / airK);
    const made = this.compressorOn ? (compressor.deliveryLMin / 60000) * density * h : 0;
    const toPa = (R_AIR * airK) / (compressor.receiverL / 1000);
    this.net.receiverPa += (made - h * this.net.flows.regulator) * toPa;
    this.deliveredKg += made;
  }

  /** Books since the start, for conservation checks. */
  books(): SiteBooks {
    const { net, options } = this;
    const receiverKg = (net.receiverPa * (options.compressor.receiverL / 1000)) / (R_AIR * options.airK);
    return {
      enthalpyInJ: this.enthalpyInJ,
      workJ: this.workJ,
      heatToWallJ: this.heatJ,
      gasJ: net.packerKg * CV_AIR * net.gasK,
      deliveredKg: this.deliveredKg,
      escapedKg: this.escapedKg,
      heldKg: receiverKg + net.supplyKg + net.hoseKg + net.packerKg,
    };
  }

  private show(): void {
    const { truth, net, wall, options } = this;
    const air = options.airPa;
    truth.timeS = this.timeS;
    truth.supplyBar = (net.supplyPa - air) / BAR;
    truth.hoseBar = (net.hosePa - air) / BAR;
    truth.packerBar = (net.packerPa - air) / BAR;
    truth.receiverBar = (net.receiverPa - air) / BAR;
    truth.gasC = net.gasK - ZERO_C;
    truth.sleeveInnerC = wall.t[this.sleeveIn]! - ZERO_C;
    truth.sleeveOuterC = wall.t[this.sleeveOut]! - ZERO_C;
    truth.pipeC = wall.t[this.pipeIn]! - ZERO_C;
    if (this.cup !== null) truth.cupC = this.cup.c;
    truth.volumeL = (this.packer.volume(net.packerPa - air) + this.packer.slowM3) * 1000;
    truth.packerKg = net.packerKg;
    truth.flowKgS = net.flows.hose;
    truth.leakKgS = net.flows.leak;
    truth.valveOpen = net.valveOpen;
    truth.ventOpen = net.ventOpen;
    truth.regulatorBar = net.setBar;
    truth.reliefKgS = net.flows.relief;
    truth.blownKgS = net.coupled ? 0 : net.flows.blown;
    truth.burst = net.tornC > 0;
    truth.coupled = net.coupled;
    truth.endShut = net.endShut;
  }
}

export function createSite(options: SiteOptions = {}): Site {
  return new Site(options);
}

function clamp01(x: number): number {
  return Math.min(1, Math.max(0, x));
}

/** Moves from a towards b by at most reach; lands on b exactly. */
function toward(a: number, b: number, reach: number): number {
  return Math.abs(b - a) <= reach ? b : a + Math.sign(b - a) * reach;
}
