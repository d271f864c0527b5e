import type { PortChoice } from '../../engine/messages.ts';

/** The practice site at real time; the seed makes each practice the same site. */
export const PRACTICE_RIG: PortChoice = { kind: 'rig', options: { seed: 1, speed: 1, scenario: 'practice' } };

/** The same with a second transducer at the regulator's outlet. */
export const PRACTICE_PAIR: PortChoice = {
  kind: 'rig',
  options: { seed: 1, speed: 1, scenario: 'practice-pair' },
};
