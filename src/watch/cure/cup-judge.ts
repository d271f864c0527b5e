import type { CupMark } from '../../job/setup.ts';
import type { CupDoubt, CupVerdict } from '../codes.ts';
import { type CupHeat, LEAST_RISE_K } from './cup-heat.ts';

/** What a cup says of its batch. */
export interface CupSaid {
  readonly verdict: CupVerdict;
  /** Why it cannot tell. */
  readonly doubt: CupDoubt | null;
  /** Times the resin's usual time: what it is at least, the middle and the upper end; null: nothing is known of the resin's usual, or of the end. */
  readonly times: {
    readonly least: number;
    readonly value: number | null;
    readonly most: number | null;
  } | null;
}

export const NOTHING_SAID: CupSaid = { verdict: 'waits', doubt: null, times: null };

export interface CupSeen {
  /** The sheet's time at the cup's temperature since mixing (1 = all of it). */
  readonly age: number;
  readonly riseK: number;
  readonly heat: CupHeat | null;
  /** What stands against believing the cup at all. */
  readonly doubt: CupDoubt | null;
  /** Too briefly to see whether it reacts: the quickest are over before there is a slope to read. */
  readonly brief: boolean;
  /** Well warmer than the pot when it was first read: how much of its time had passed by then is not known. */
  readonly warm: boolean;
}

/** From this much over the usual time on a batch is called slow, where even the least is over SURELY ... */
const SLOW = 1.22;
const SURELY = 1;
/** ... and one whose most is under this is called quick. */
const QUICK = 0.92;
/** Quicker than this no batch is: the cup was mixed earlier, or is of another batch. */
const TOO_QUICK = 0.7;
/** By then a cup whose usual rise is well over what warm air makes has reacted, or does not, times the usual time. */
const DEAD = 2;
/** Of a resin that nothing is known of: its greatest heat comes before the sheet's time is over at the cup's own temperature. */
const UNKNOWN_SLOW = 1.4;
/**
 * A cup that has warmed by less shows no reaction, K: where its heat is overdue it is dead, or its probe hangs in the air. By then a
 * batch at two and a half times the usual time has warmed by 7 K and more (the rig's resin, 12 to 22 °C).
 */
const NO_RISE_K = 2;
const K = 2;

const cannotTell = (doubt: CupDoubt): CupSaid => ({ verdict: 'cannot-tell', doubt, times: null });

export function judgeCup(seen: CupSeen, mark: CupMark | null): CupSaid {
  if (seen.doubt !== null) return cannotTell(seen.doubt);
  return mark === null ? unknown(seen) : known(seen, mark);
}

/** Not slow, whatever the sheet's time says: it may have reacted before it was looked at, or does so now. */
const notCalled = ({ heat }: CupSeen): CupSaid =>
  heat === null ? NOTHING_SAID : { verdict: 'reacts', doubt: null, times: null };

/** Resins differ by a third in when their heat is greatest: only the coarse is told. */
function unknown(seen: CupSeen): CupSaid {
  const { age, riseK, heat } = seen;
  if (heat?.passed) return { verdict: 'reacts', doubt: null, times: null };
  if (seen.brief) return notCalled(seen);
  if (heat !== null)
    return { verdict: heat.age > UNKNOWN_SLOW ? 'slow' : 'reacts', doubt: null, times: null };
  if (age < UNKNOWN_SLOW) return NOTHING_SAID;
  return riseK < NO_RISE_K ? { verdict: 'no-reaction', doubt: null, times: null } : cannotTell('little-heat');
}

/** What an age is worth less of which a part is guessed, 1 s: such a cup's mark was off by 0.17 and 0.19 (two of 150 usual ones). */
const GUESSED = 0.12;
/** How far a cup's age may be off its resin's mark by itself, 1 s. */
export const scatterOf = ({ warm }: Pick<CupSeen, 'warm'>, { scatter }: CupMark): number =>
  warm ? Math.hypot(scatter, GUESSED) : scatter;

/** Quicker than any batch is. */
export const isTooQuick = (times: number): boolean => times < TOO_QUICK;

/** What usually warms little tells nothing by being cool. */
export const isLittle = ({ heat }: Pick<CupSeen, 'heat'>, mark: CupMark): boolean =>
  heat === null && mark.riseK < 2 * LEAST_RISE_K;
/** A mark comes of those cups alone that warmed enough: to call one slow for staying cool asks for more than to wait for it. */
const isMeagre = ({ heat }: Pick<CupSeen, 'heat'>, mark: CupMark): boolean =>
  heat === null && mark.riseK < 3 * LEAST_RISE_K;

/** Without a reaction for so long that it is no slow batch any more. */
export const isDead = (age: number, mark: CupMark | null): boolean => mark === null || age > DEAD * mark.age;

function known(seen: CupSeen, mark: CupMark): CupSaid {
  const { age, riseK, heat } = seen;
  const wide = Math.exp(K * scatterOf(seen, mark));
  if (heat?.passed) {
    const value = heat.age / mark.age;
    if (isTooQuick(value)) return cannotTell('too-early');
    const times = { least: value / wide, value, most: value * wide };
    if (value > SLOW && times.least > SURELY) return { verdict: 'slow', doubt: null, times };
    return { verdict: times.most < QUICK ? 'quick' : 'usual', doubt: null, times };
  }
  if (seen.brief) return notCalled(seen);
  if (isMeagre(seen, mark)) return age > DEAD * mark.age ? cannotTell('little-heat') : NOTHING_SAID;
  const soFar = (heat?.age ?? age) / mark.age;
  const least = soFar / wide;
  if (soFar <= SLOW || least <= SURELY) {
    return heat === null ? NOTHING_SAID : { verdict: 'reacts', doubt: null, times: null };
  }
  if (riseK < NO_RISE_K) return { verdict: 'no-reaction', doubt: null, times: null };
  // A cup that has warmed little may be no cup: it is told, and no number is made of it.
  return { verdict: 'slow', doubt: null, times: heat === null ? null : { least, value: null, most: null } };
}
