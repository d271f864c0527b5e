import type { Limits } from '../../job/setup.ts';
import type { SupplyVerdict } from '../codes.ts';
import type { Bounded } from '../events.ts';
import type { Standing } from './course.ts';

/** A slower creep takes hours to matter, and a hose in the sun makes as much, bar/s (1 mbar/min; common practice, no source). */
const CREEPS_BAR_S = 0.001 / 60;
/** A creep that passes the ceiling within this is a creep, s: a cure lasts for hours, a fill and its hold for less. */
const CREEP_MATTERS_S = 4 * 3600;

export interface SupplyJudgement {
  readonly verdict: SupplyVerdict;
  /** Seconds until a creeping supply passes the ceiling; null: it does not creep, or not in a time that matters. */
  readonly ceilingInS: Bounded | null;
}

/** The creep that passes the ceiling in the time that matters, and is one at all, bar/s. */
const leastCreep = ({ lockUp }: Standing, { ceilingBar }: Limits): number =>
  Math.max(CREEPS_BAR_S, (ceilingBar - lockUp.value) / CREEP_MATTERS_S);

/** Is it known whether the supply creeps? */
export function isCreepTold(standing: Standing, limits: Limits): boolean {
  const least = leastCreep(standing, limits);
  return standing.creep.low > least || standing.creep.high < least;
}

function passes(standing: Standing, limits: Limits): Bounded | null {
  const { lockUp, creep } = standing;
  const rest = limits.ceilingBar - lockUp.value;
  if (rest <= 0 || !(creep.low > leastCreep(standing, limits))) return null;
  return { value: rest / creep.value, low: rest / creep.high, high: rest / creep.low };
}

/**
 * What a supply that was proved is good for. The ceiling holds the uncertainty of the reading already; under it a supply that is
 * nearer than that uncertainty is told as over the working pressure.
 * @param uBar expanded uncertainty of the reading, bar
 */
export function judgeSupply(standing: Standing, limits: Limits, uBar: number): SupplyJudgement {
  const { low, high } = standing.lockUp;
  const { workingBar, ceilingBar } = limits;
  if (high >= ceilingBar) return { verdict: 'over-ceiling', ceilingInS: null };
  const ceilingInS = passes(standing, limits);
  if (ceilingInS !== null) return { verdict: 'creeps', ceilingInS };
  if (high > Math.min(workingBar + 2 * uBar, ceilingBar - uBar))
    return { verdict: 'over-working', ceilingInS };
  // Nobody fills to the working pressure from a supply that stands so far under it.
  if (low < workingBar - 2 * uBar) return { verdict: 'under-working', ceilingInS };
  return { verdict: 'stands', ceilingInS };
}
