/** When nothing but a wrong sensor makes two pressures of one line differ. */
import type { SecondPressure, Tap } from '../../job/codes.ts';
import type { Stage } from '../codes.ts';
import { isDown, isFilling } from '../stages/stages.ts';

export interface Between {
  readonly role: SecondPressure;
  /** Where the sensor of the first sits. */
  readonly tap: Tap;
  readonly stage: Stage;
  /** How far the first is over the second, bar. */
  readonly gapBar: number;
  /** Slope of the second, bar/s. */
  readonly secondRate: number;
  /** Neither moves. */
  readonly still: boolean;
  /** What the line reads is a hose's behind a closed end: a packer has no part in it. */
  readonly inHose: boolean;
  /** Outlet and packer are known to be joined: the proof of a supply under way, or a line that is declared supplied in a hold. */
  readonly joined: boolean;
}

/** Air on its way through a hose moves the packer's pressure by more than this, bar/s. */
const FLOWS_BAR_S = 0.002;

/**
 * Two at the packer always agree. A cross-check at the packer beside a sensor before the hose agrees with it where no air is
 * on its way between them: it goes from high to low, and what it comes to rises.
 */
export function mustAgree({ role, tap, stage, gapBar, secondRate, still, inHose, joined }: Between): boolean {
  if (role === 'outlet-pressure') return joined && still;
  if (tap === 'supply' || inHose) return false;
  if (tap === 'packer') return true;
  // A hose drops some of it on the way to a packer that is limp and does not rise yet.
  if (isFilling(stage)) return gapBar < 0;
  if (isDown(stage)) return still;
  return still || (gapBar > 0 ? secondRate <= FLOWS_BAR_S : secondRate >= -FLOWS_BAR_S);
}
