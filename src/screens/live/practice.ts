import type { PortChoice } from '../../engine/messages.ts';

/** The practice site at real time; the seed makes each practice the same site. */
export const PRACTICE_RIG: PortChoice = { kind: 'rig', options: { seed: 1, speed: 1, scenario: 'practice' } };
