/** Plays a hold on the simulated site into the watch, as the product would see it, and notes what is true beside it. */
import type { Setup } from '../../src/job/setup.ts';
import { LIMITS, PRESSURE_CHANNEL, setupOf } from '../../src/job/testing/givens.ts';
import { createCrew } from '../../src/rig/crew.ts';
import { createRandom, type Random } from '../../src/rig/random.ts';
import { createSite } from '../../src/rig/site.ts';
import type { TemperatureReading } from '../../src/sensing/reading.ts';
import { readingOf } from '../../src/sensing/testing/readings.ts';
import type { LeakFigure, WatchEvent } from '../../src/watch/events.ts';
import { createWatch, step } from '../../src/watch/step.ts';
import type { HoldView } from '../../src/watch/view.ts';
import type { HoldScenario } from './holds-scenario.ts';

/** One judgement of the hold, a minute after the one before. */
export interface Look {
  /** Seconds from entering the hold. */
  readonly atS: number;
  /** Seconds since the closed segment was opened; negative: none is open. */
  readonly inSegmentS: number;
  readonly figure: LeakFigure;
  readonly trueMbarMin: number;
  readonly trueBar: number;
  readonly gasC: number;
  readonly exit: HoldView['bandExit'];
  readonly lift: HoldView['lift'];
}

export interface HoldRun {
  readonly scenario: HoldScenario;
  readonly looks: readonly Look[];
  readonly events: readonly WatchEvent[];
  /** Run time at which the hold was entered, s; NaN if never. */
  readonly holdFromS: number;
  /** True pressure first at the ceiling, seconds of the hold; NaN: never. Peak, and gas temperatures. */
  readonly ceilingS: number;
  /** The same for the working ceiling drawn at any other height: true pressure each minute. */
  readonly peakBar: number;
  readonly gasMaxC: number;
  readonly gasMinC: number;
  readonly readings: number;
}

const DT = 0.5;
/** Surroundings of the transducer change so often on average, s. */
const GUST_S = 1800;

export function sheetSetup(s: HoldScenario): Setup {
  return setupOf({
    limits: {
      ...LIMITS,
      ratedBar: s.ceilingBar + 0.02,
      ceilingBar: s.ceilingBar,
      workingBar: s.workingBar,
      seatBar: null,
      floorBar: s.floorBar,
      headBar: 0.2,
      freeInflationBar: 0.2,
    },
    tap: 'hose',
    line: s.declared,
    air: { bar: Math.round((s.site.airBar ?? 1) * 100) / 100, uBar: 0.02, source: 'altitude' },
    ground: { c: s.site.pipe?.groundC ?? 10, uC: 1 },
    volume: { litres: s.litres, uLitres: 0.1 * s.litres },
    pipe: {
      innerMm: s.site.packer?.pipeMm ?? 200,
      wallMm: s.site.pipe?.wallMm ?? null,
      material: 'unknown',
      sleeveMm: s.site.pipe?.sleeveMm ?? null,
    },
    resin: s.resin,
    channels: [
      {
        ...PRESSURE_CHANNEL,
        rangeHi: s.sensor.spanBar,
        ...(s.sensor.sheetPerK === null ? {} : { perKelvin: s.sensor.sheetPerK }),
      },
    ],
    rateHz: 2,
  });
}

/** How warm the transducer is over its beginning, K: its surroundings change now and then, and the sun may come. */
function createSensorWarmth(s: HoldScenario, random: Random): (inHoldS: number) => number {
  const { gustK, lagS, sun } = s.sensor;
  const keep = 1 - Math.exp(-DT / lagS);
  let around = 0;
  let own = 0;
  return (inHoldS) => {
    if (random.chance(DT / GUST_S)) around = gustK * random.normal();
    own += (around - own) * keep;
    if (sun === null || !(inHoldS > sun.fromS)) return own;
    return own + sun.k * Math.min(1, (inHoldS - sun.fromS) / sun.overS);
  };
}

export function runHold(s: HoldScenario): HoldRun {
  const site = createSite(s.site);
  const { truth } = site;
  const random = createRandom(s.seed * 16 + 5);
  const noise = random.fork('noise');
  const heat = random.fork('heat');
  const crew = createCrew({
    seed: s.seed,
    workingBar: s.workingBar,
    seatBar: null,
    style: 'regulated',
    startS: 2,
    closes: s.line === 'closed',
    topUpBelowBar: s.topUpBar === null ? null : s.workingBar - s.topUpBar,
  });
  const watch = createWatch();
  const events: WatchEvent[] = [];
  const emit = (e: WatchEvent) => {
    events.push(e);
  };
  step(watch, { i: 'setup', tUs: 0, setup: sheetSetup(s) }, emit);
  step(watch, { i: 'command', tUs: 0, command: { c: 'stage', to: 'inflate' } }, emit);
  const looks: Look[] = [];
  let wander = s.sensor.wanderBar * noise.normal();
  let drift = s.sensor.driftBar * noise.normal();
  const sensorK = createSensorWarmth(s, random.fork('sensor warmth'));
  let probeWander = s.probe.wanderK * heat.normal();
  let tip = Number.NaN;
  let refC = Number.NaN;
  let holdFromS = Number.NaN;
  let judged: number | null = null;
  let segmentS = -1;
  let segmentSeen = 0;
  let ceilingS = Number.NaN;
  let peak = 0;
  let gasMax = -99;
  let gasMin = 99;
  let n = 0;
  const keepW = Math.exp(-DT / s.sensor.wanderTauS);
  const keepD = Math.exp(-DT / 7200);
  const keepP = Math.exp(-DT / s.probe.wanderTauS);
  for (let t = DT; ; t += DT) {
    // Hands are quick: while one is at work the site is led in tenths of a second.
    const busy = crew.phase !== 'holding' || truth.valveOpen > 0 ? 5 : 1;
    for (let i = 1; i <= busy; i++) {
      const at = t - DT + (i * DT) / busy;
      crew.step(site, at);
      site.stepTo(at);
    }
    if (Number.isNaN(holdFromS) && crew.phase === 'holding') {
      holdFromS = t;
      step(watch, { i: 'command', tUs: Math.round(t * 1e6), command: { c: 'stage', to: 'hold' } }, emit);
    }
    if (Number.isNaN(holdFromS) && t > 1500) break;
    const inHold = t - holdFromS;
    if (s.leakFromS > 0 && inHold >= s.leakFromS && inHold < s.leakFromS + DT)
      site.leak(s.leakMbarMin, s.workingBar);
    wander = wander * keepW + s.sensor.wanderBar * Math.sqrt(1 - keepW * keepW) * noise.normal();
    drift = drift * keepD + s.sensor.driftBar * Math.sqrt(1 - keepD * keepD) * noise.normal();
    probeWander = probeWander * keepP + s.probe.wanderK * Math.sqrt(1 - keepP * keepP) * heat.normal();
    const warmed = s.sensor.perK * s.sensor.spanBar * sensorK(inHold);
    const raw = truth.hoseBar + warmed + wander + drift + s.sensor.noiseBar * noise.normal();
    const bar = Math.round(raw / s.sensor.stepBar) * s.sensor.stepBar;
    const c = s.witness === 'air' ? truth.gasC : truth.sleeveInnerC;
    if (Number.isNaN(tip)) {
      tip = c;
      refC = c;
    }
    tip += (c - tip) * (1 - Math.exp(-DT / s.probe.lagS));
    const temps: TemperatureReading[] =
      s.witness === 'none'
        ? []
        : [
            {
              channel: 1,
              place: s.witness,
              c:
                refC +
                s.probe.offsetK +
                s.probe.gain * (tip - refC) +
                probeWander +
                s.probe.noiseK * heat.normal(),
              uC: 1.5,
              flags: 0,
            },
          ];
    const reading = readingOf(t, bar, { seq: n++, stepBar: s.sensor.stepBar, temps });
    const { tUs } = reading;
    step(watch, { i: 'reading', tUs, reading }, emit);
    for (; segmentSeen < events.length; segmentSeen++) {
      const e = events[segmentSeen]!;
      if (e.e === 'segment') segmentS = e.what === 'opened' ? e.tUs / 1e6 : -1;
    }
    const { hold } = watch;
    if (hold === null) continue;
    peak = Math.max(peak, truth.packerBar);
    gasMax = Math.max(gasMax, truth.gasC);
    gasMin = Math.min(gasMin, truth.gasC);
    if (Number.isNaN(ceilingS) && truth.packerBar >= s.ceilingBar) ceilingS = inHold;
    if (hold.judgedS !== judged) {
      judged = hold.judgedS;
      looks.push({
        atS: inHold,
        inSegmentS: segmentS < 0 ? -1 : t - segmentS,
        figure: hold.figure,
        trueMbarMin: site.leakRateMbarPerMin(),
        trueBar: truth.packerBar,
        gasC: truth.gasC,
        exit: hold.exit,
        lift: hold.forecast,
      });
    }
    if (inHold >= s.holdS || truth.packerBar < 0.15) break;
  }
  step(watch, { i: 'notice', tUs: watch.tUs, notice: { n: 'end' } }, emit);
  return {
    scenario: s,
    looks,
    events,
    holdFromS,
    ceilingS,
    peakBar: peak,
    gasMaxC: gasMax,
    gasMinC: gasMin,
    readings: n,
  };
}
