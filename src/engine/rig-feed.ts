import { createRigPort } from '../link/ports/rig.ts';
import type { Timers } from '../link/timers.ts';
import { createRigDevice, type RigDevice } from '../rig/device.ts';
import { DRILLS, drillSite, isDrill } from '../rig/drills.ts';
import { CUP, PAIR, PRACTICE, type PracticeSite } from '../rig/practice-site.ts';
import { createScenarioDevice, isScenario, SCENARIO_CODES } from '../rig/scenarios.ts';
import { type RigSaid, sensedOf } from '../rig/truth-log.ts';
import type { OpenedPort, RigControl } from './deps.ts';
import { EngineError } from './errors.ts';
import { PRACTICE_CODES, type PracticeCode, type RigOptions } from './messages.ts';
import { checkSpeed } from './speed.ts';

/** The demo job's own site, with nobody's hands but the user's, by what there is to be learnt on it. */
const SITES: Readonly<Record<PracticeCode, PracticeSite>> = {
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
  'practice-cup': CUP,
};

const isPractice = (code: string): code is PracticeCode =>
  (PRACTICE_CODES as readonly string[]).includes(code);

/** Those, what is drilled on them, and every scenario of the rig. */
export const RIG_SCENARIOS: readonly string[] = [...PRACTICE_CODES, ...DRILLS, ...SCENARIO_CODES];

/** The demo job's device on its site. */
export const practiceRig = (seed = 1): RigDevice => createRigDevice({ ...PRACTICE, seed });

function deviceOf({ scenario, seed }: RigOptions, say: (said: RigSaid) => void): RigDevice {
  if (isPractice(scenario)) return createRigDevice({ ...SITES[scenario], seed, say });
  if (isDrill(scenario)) return createRigDevice({ ...drillSite(scenario, seed), seed, say });
  if (isScenario(scenario)) return createScenarioDevice(scenario, seed, { say });
  throw new EngineError('bad-request', `no scenario ${scenario}: ${RIG_SCENARIOS.join(', ')}`);
}

function control(device: RigDevice, options: RigOptions, listeners: ((said: RigSaid) => void)[]): RigControl {
  return {
    site: { site: options.scenario, seed: options.seed },
    listen: (listener) => void listeners.push(listener),
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
        sensed: sensedOf(truth),
        drill: isDrill(options.scenario) ? options.scenario : null,
        simulatedS: device.nowS,
        speed,
      };
    },
  };
}

/** @throws EngineError 'bad-request' on an unknown scenario or speed */
export function openRig(options: RigOptions, timers: Timers): OpenedPort {
  const speed = checkSpeed(options.speed);
  const listeners: ((said: RigSaid) => void)[] = [];
  const device = deviceOf(options, (said) => {
    for (const listener of listeners) listener(said);
  });
  return { port: createRigPort(device, timers), rig: control(device, options, listeners), speed };
}
