import type { ProvedSupply } from './types.ts';

/**
 * A regulator comes back to where it locked up within so much, bar and share of it (common practice, no source). What the sensor is
 * wrong by as a whole was wrong at the proof too, so a doubtful sensor widens this no further.
 */
const COMES_BACK_BAR = 0.03;
const COMES_BACK_SHARE = 0.03;

/** Over this the supply is not what was proved, bar: lock-up and twice the uncertainty of the reading, and no more than that. */
export function movedFromBar({ lockUp, uBar }: Pick<ProvedSupply, 'lockUp' | 'uBar'>): number {
  return lockUp.high + Math.min(2 * uBar, Math.max(COMES_BACK_BAR, COMES_BACK_SHARE * lockUp.value));
}
