import { createRigPort } from '../link/ports/rig.ts';
import type { Timers } from '../link/timers.ts';
import { QUICK_RESIN } from '../rig/cure.ts';
import { createRigDevice, type RigDevice, type RigDeviceOptions } from '../rig/device.ts';
import { createScenarioDevice, isScenario, SCENARIO_CODES } from '../rig/scenarios.ts';
import type { OpenedPort, RigControl } from './deps.ts';
import { EngineError } from './errors.ts';
import { PRACTICE_CODES, type PracticeCode, type RigOptions } from './messages.ts';
import { checkSpeed } from './speed.ts';

/** The practice site of the demo job: 150 mm clay drain, 22 l packer, 20 m hose, closed line, four channels. */
const PRACTICE: Omit<RigDeviceOptions, 'seed'> = {
  deviceId: 'RIG-0001',
  firmware: 'rig-1',
  site: {
    airC: 16,
    regulator: { setBar: 1.5, relieving: false },
    hose: { lengthM: 20, innerMm: 8 },
    packer: { pipeMm: 150, lengthM: 1.2, freeInflationBar: 0.45 },
    pipe: { wallMm: 18, material: 'clay', groundC: 10, sleeveMm: 3, kinetics: QUICK_RESIN },
  },
  channels: {
    tap: 'hose',
    transducer: { signal: 'current', rangeLoBar: 0, rangeHiBar: 4, bits: 16, offsetBar: 0.006 },
    probes: [{ at: 'sleeve' }, { at: 'air' }, { at: 'pipe' }],
  },
};

/** The same with a second transducer at the regulator's outlet. */
const PAIR: typeof PRACTICE = {
  ...PRACTICE,
  channels: {
    ...PRACTICE.channels,
    second: {
      tap: 'supply',
      transducer: { signal: 'current', rangeLoBar: 0, rangeHiBar: 10, bits: 16, offsetBar: -0.008 },
    },
  },
};

/** The demo job's own site, with nobody's hands but the user's, by what there is to be learnt on it. */
const SITES: Readonly<Record<PracticeCode, typeof PRACTICE>> = {
  practice: PRACTICE,
  'practice-pair': PAIR,
  // Late enough for the supply to be proved, or to be seen to stand.
  'practice-moved': { ...PAIR, script: [{ atS: 240, fault: 'creep', barPerMin: 1 }] },
  'practice-differ': { ...PAIR, script: [{ atS: 20, fault: 'second-off', bar: -0.45 }] },
  // The regulator is one for a test, and what the line reads is the pipe's.
  'practice-air': {
    ...PRACTICE,
    site: {
      ...PRACTICE.site,
      regulator: { setBar: 0.16, droopBar: 0.05, relieving: true },
      packer: {
        pipeMm: 150,
        lengthM: 10,
        limpShare: 1,
        freeInflationBar: 0.05,
        stiffPerBar: 0.001,
        creepPerBar: 0,
        slowCreepPerBar: 0,
        squeezeShare: 0,
      },
      pipe: { wallMm: 18, material: 'clay', groundC: 10, sleeveMm: 3, rubberMm: 0.5 },
    },
    channels: {
      ...PRACTICE.channels,
      tap: 'packer',
      saysTap: 'hose',
      transducer: { ...PRACTICE.channels?.transducer, noiseBar: 0.0002 },
    },
  },
  'practice-cup': {
    ...PRACTICE,
    site: { ...PRACTICE.site, cup: { potC: 16, tauS: 2200, heat: 1.3 }, slowBatch: 1.6 },
    channels: { ...PRACTICE.channels, cup: {} },
  },
};

const isPractice = (code: string): code is PracticeCode =>
  (PRACTICE_CODES as readonly string[]).includes(code);

/** Those, and every scenario of the rig. */
export const RIG_SCENARIOS: readonly string[] = [...PRACTICE_CODES, ...SCENARIO_CODES];

/** The demo job's device on its site. */
export const practiceRig = (seed = 1): RigDevice => createRigDevice({ ...PRACTICE, seed });

function deviceOf(options: RigOptions): RigDevice {
  if (isPractice(options.scenario))
    return createRigDevice({ ...SITES[options.scenario], seed: options.seed });
  if (isScenario(options.scenario)) return createScenarioDevice(options.scenario, options.seed);
  throw new EngineError('bad-request', `no scenario ${options.scenario}: ${RIG_SCENARIOS.join(', ')}`);
}

function control(device: RigDevice): RigControl {
  return {
    hand: (hand) => device.hand(hand),
    fault: (fault) => device.fault(fault),
    view(speed) {
      const { truth } = device.site;
      return {
        truePackerBar: truth.packerBar,
        trueLineBar: truth.hoseBar,
        valveOpen: truth.valveOpen,
        ventOpen: truth.ventOpen > 0,
        regulatorBar: truth.regulatorBar,
        coupled: truth.coupled,
        endShut: truth.endShut,
        simulatedS: device.nowS,
        speed,
      };
    },
  };
}

/** @throws EngineError 'bad-request' on an unknown scenario or speed */
export function openRig(options: RigOptions, timers: Timers): OpenedPort {
  const speed = checkSpeed(options.speed);
  const device = deviceOf(options);
  return { port: createRigPort(device, timers), rig: control(device), speed };
}
