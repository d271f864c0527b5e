import type { Reaction } from './setup.ts';

/** Safe limits of the reaction times that a crew may set, s. */
export const REACTION_LIMITS = {
  /** Least time a hand needs to act on an urgent alarm. Under 2 s nobody is sure to be in time. */
  handS: { lo: 2, hi: 10, normal: 3 },
  /** Time a hand needs to close the valve once it acts: 0.3-0.6 s is normal, gloves take longer. */
  closeS: { lo: 0.3, hi: 2, normal: 0.6 },
} as const;

export const DEFAULT_REACTION: Reaction = {
  handS: REACTION_LIMITS.handS.normal,
  closeS: REACTION_LIMITS.closeS.normal,
};

const clamp = (v: number, lo: number, hi: number): number => Math.min(hi, Math.max(lo, v));

/** A reaction inside the safe limits, whatever was stored; not a number counts as the default. */
export function safeReaction(r: Reaction): Reaction {
  const { handS, closeS } = REACTION_LIMITS;
  return {
    handS: Number.isFinite(r.handS) ? clamp(r.handS, handS.lo, handS.hi) : handS.normal,
    closeS: Number.isFinite(r.closeS) ? clamp(r.closeS, closeS.lo, closeS.hi) : closeS.normal,
  };
}
