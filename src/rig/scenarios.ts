/**
 * The practice scenarios by code: a whole site each, with its sensors, its crew where hands work by themselves,
 * and what goes wrong when. Words for them come from the catalogue; all of it is invented.
 */
import type { ChannelOptions } from './channels.ts';
import type { CrewOptions } from './crew.ts';
import { QUICK_RESIN, SLOW_RESIN } from './cure.ts';
import { createRigDevice, type RigDevice, type RigDeviceOptions } from './device.ts';
import type { Happening } from './faults.ts';
import type { SiteOptions } from './options.ts';

/** What a job sheet of the scenario would say: for filling in the practice job. */
export interface ScenarioSheet {
  readonly ratedBar: number;
  readonly workingBar: number;
  readonly seatBar: number;
  readonly pipeMm: number;
  readonly sleeveMm: number;
  readonly groundC: number;
  readonly line: 'closed' | 'supplied-relieving' | 'supplied-nonrelieving';
  readonly tap: 'hose' | 'packer' | 'supply';
}

export interface Scenario {
  readonly code: ScenarioCode;
  readonly site: SiteOptions;
  readonly channels: Omit<ChannelOptions, 'seed'>;
  /** Hands that work by themselves; null: the trainee's hands only. */
  readonly crew: Omit<CrewOptions, 'seed'> | null;
  readonly script: readonly Happening[];
  readonly sheet: ScenarioSheet;
}

export const SCENARIO_CODES = [
  'normal', // the whole job, all well
  'hands', // all well, every valve is the trainee's
  'hand-valved', // high supply, the hand doses
  'high-regulator', // set above the packer's rating
  'creep', // the regulator's set point wanders up in the hold
  'stuck-open', // the regulator fails open during the fill
  'regulator-moved', // a second transducer at the regulator: it moves after it was seen to stand
  'supply-high', // the same: it is set over the ceiling before the valve is opened
  'kinked-hose', // the same: the hose is kinked in the fill
  'sensors-disagree', // the same: it reads off
  'sensors-swapped', // the same: the device names each for the other
  'leak', // a slow leak in the hold
  'burst-hose', // the hose comes off its coupling
  'fuel-out', // the compressor dies: a supplied line sinks
  'cold-pipe', // 5 °C ground, cold water at the defect
  'exotherm', // a quick thick sleeve lifts a closed packer
  'thin-hose', // big packer behind a thin hose: what the gauge shows is not what is in it
  'check-valve', // a self-sealing coupling: the line reads zero, the packer is full
  'open-probe', // the sleeve's thermocouple breaks
  'reversed-probe', // wired the wrong way round
  'manhole-probe', // lies in the air of the manhole and says it is at the sleeve
  'low-supply', // the sensor's supply sags
  'pulled-plug', // the cable comes out in the hold, and goes back in
  'device-reset', // the device starts anew in the hold
  'noisy-line', // garbage on the line, a pause now and then
  'spikes', // a sensor with spikes, coarse and noisy
] as const;

export type ScenarioCode = (typeof SCENARIO_CODES)[number];

const SITE: SiteOptions = {
  airBar: 1.005,
  airC: 16,
  regulator: { setBar: 1.3, relieving: false },
  hose: { lengthM: 25, innerMm: 6 },
  packer: { pipeMm: 200, lengthM: 0.7, freeInflationBar: 0.22 },
  pipe: { groundC: 10, sleeveMm: 3.5, startC: 17, kinetics: QUICK_RESIN },
};
const CHANNELS: Scenario['channels'] = {
  tap: 'hose',
  transducer: {
    signal: 'ratio',
    rangeHiBar: 6,
    bits: 14,
    noiseBar: 0.0015,
    wanderBar: 0.0008,
    offsetBar: 0.004,
  },
  probes: [{ at: 'sleeve' }, { at: 'air' }],
};
/** A second transducer at the regulator's outlet, of a wider span. */
const PAIR: Scenario['channels'] = {
  ...CHANNELS,
  second: { tap: 'supply', transducer: { signal: 'ratio', rangeHiBar: 10, bits: 14, noiseBar: 0.002 } },
};
const SHEET: ScenarioSheet = {
  ratedBar: 1.5,
  workingBar: 1.3,
  seatBar: 0.4,
  pipeMm: 200,
  sleeveMm: 3.5,
  groundC: 10,
  line: 'closed',
  tap: 'hose',
};
/** Three hours of hold: longer than the quick sketch needs at 10 °C. */
const CREW: Omit<CrewOptions, 'seed'> = { workingBar: 1.3, seatBar: 0.4, startS: 20, holdS: 3 * 3600 };

type Change = {
  readonly site?: SiteOptions;
  readonly channels?: Scenario['channels'];
  readonly crew?: Scenario['crew'];
  readonly script?: readonly Happening[];
  readonly sheet?: Partial<ScenarioSheet>;
};

const CHANGES: Readonly<Record<ScenarioCode, Change>> = {
  normal: {},
  hands: { crew: null },
  'hand-valved': {
    site: { regulator: { setBar: 6 }, valve: { conductance: 6e-9 } },
    crew: { ...CREW, style: 'steps' },
  },
  'high-regulator': {
    site: { regulator: { setBar: 1.95, droopBar: 0.3 } },
    crew: { ...CREW, style: 'heedless', holdS: null },
  },
  creep: {
    site: { regulator: { setBar: 1.3, creepBarPerMin: 0.06, creepFromS: 150 } },
    crew: { ...CREW, closes: false, holdS: null },
    sheet: { line: 'supplied-nonrelieving' },
  },
  'stuck-open': {
    crew: { ...CREW, style: 'heedless', seatBar: 0.4, holdS: null },
    // While the line fills from the seat pressure to working.
    script: [{ atS: 102, fault: 'stuck-open' }],
  },
  'regulator-moved': {
    channels: PAIR,
    crew: { ...CREW, style: 'heedless', holdS: null },
    // A seat that lets go while the line fills from the seat pressure to working.
    script: [{ atS: 102, fault: 'creep', barPerMin: 1.5 }],
  },
  'supply-high': { channels: PAIR, site: { regulator: { setBar: 1.95 } }, crew: null },
  'kinked-hose': {
    channels: { ...PAIR, tap: 'packer' },
    script: [{ atS: 100, fault: 'kink', open: 0.002 }],
    sheet: { tap: 'packer' },
  },
  'sensors-disagree': { channels: PAIR, script: [{ atS: 1, fault: 'second-off', bar: -0.45 }] },
  'sensors-swapped': {
    channels: { ...PAIR, saysTap: 'supply', second: { ...PAIR.second, tap: 'supply', says: 'hose' } },
  },
  leak: { script: [{ atS: 900, fault: 'leak', mbarPerMin: 2.5 }] },
  'burst-hose': { script: [{ atS: 1200, hand: 'couple', coupled: false }] },
  'fuel-out': {
    site: { compressor: { fuelOutS: 400, receiverL: 10 }, leak: { mbarPerMin: 150 } },
    crew: { ...CREW, closes: false },
    sheet: { line: 'supplied-nonrelieving' },
  },
  'cold-pipe': {
    site: {
      pipe: { groundC: 5, startC: 14, kinetics: SLOW_RESIN, seep: { wm2K: 25, c: 4 } },
      airC: 4,
    },
    crew: { ...CREW, holdS: 8 * 3600 },
    sheet: { groundC: 5 },
  },
  exotherm: {
    site: { pipe: { sleeveMm: 11, startC: 26, kinetics: QUICK_RESIN } },
    sheet: { sleeveMm: 11 },
  },
  'thin-hose': {
    site: {
      packer: { pipeMm: 400, lengthM: 1, freeInflationBar: 0.15 },
      hose: { lengthM: 35, innerMm: 5 },
      regulator: { setBar: 0.8 },
    },
    crew: { ...CREW, workingBar: 0.8, seatBar: 0.3 },
    sheet: { pipeMm: 400, ratedBar: 1, workingBar: 0.8, seatBar: 0.3 },
  },
  'check-valve': {
    site: { nonReturn: 'coupling' },
    crew: { ...CREW, holdS: 1800 },
    sheet: { tap: 'supply' },
  },
  'open-probe': { script: [{ atS: 1500, fault: 'open-probe' }] },
  'reversed-probe': {
    channels: { ...CHANNELS, probes: [{ at: 'sleeve', wiring: 'reversed' }, { at: 'air' }] },
  },
  'manhole-probe': {
    channels: { ...CHANNELS, probes: [{ at: 'manhole', says: 'sleeve' }, { at: 'air' }] },
    site: { airC: 24 },
  },
  'low-supply': { script: [{ atS: 10, fault: 'supply-sag' }] },
  'pulled-plug': {
    script: [
      { atS: 600, fault: 'unplug' },
      { atS: 640, fault: 'replug' },
    ],
  },
  'device-reset': { script: [{ atS: 700, fault: 'reset' }] },
  'noisy-line': {
    script: [
      { atS: 60, fault: 'garbage', bytes: 40 },
      { atS: 400, fault: 'garbage', bytes: 400 },
      { atS: 500, fault: 'silence', seconds: 2 },
      { atS: 800, fault: 'silence', seconds: 8 },
    ],
  },
  spikes: {
    channels: {
      ...CHANNELS,
      transducer: {
        rangeHiBar: 10,
        bits: 10,
        noiseBar: 0.006,
        wanderBar: 0.004,
        spikesPerMin: 8,
        spikeBar: 0.6,
      },
    },
  },
};

/** Groups of options are joined member by member; a scenario names only what it changes. */
function joinSite(base: SiteOptions, change: SiteOptions): SiteOptions {
  return {
    ...base,
    ...change,
    regulator: { ...base.regulator, ...change.regulator },
    hose: { ...base.hose, ...change.hose },
    packer: { ...base.packer, ...change.packer },
    pipe: { ...base.pipe, ...change.pipe },
  };
}

export function isScenario(code: string): code is ScenarioCode {
  return (SCENARIO_CODES as readonly string[]).includes(code);
}

/** The scenario of that code. @throws RangeError for a code that is not in the list */
export function scenario(code: string): Scenario {
  if (!isScenario(code)) throw new RangeError(`no scenario named ${code}`);
  const change = CHANGES[code];
  return {
    code,
    site: joinSite(SITE, change.site ?? {}),
    channels: change.channels ?? CHANNELS,
    crew: change.crew === undefined ? CREW : change.crew,
    script: change.script ?? [],
    sheet: { ...SHEET, ...change.sheet },
  };
}

/** A device on that scenario's site, switched on at time 0. */
export function createScenarioDevice(
  code: string,
  seed: number,
  more: Partial<RigDeviceOptions> = {},
): RigDevice {
  const s = scenario(code);
  return createRigDevice({
    seed,
    site: s.site,
    channels: s.channels,
    crew: s.crew === null ? null : { ...s.crew, seed },
    script: s.script,
    ...more,
  });
}
