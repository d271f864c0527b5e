import type { ThermocoupleType } from '../job/setup.ts';
import { celsiusOf, emfMv, seebeck } from './its90/reference.ts';

/**
 * Hot junction from a measured emf and the cold junction's temperature: emf is added to emf, never °C to °C, since
 * the function is not straight (4.096 mV of type K with a junction at 25 °C is 124.3 °C, not 125).
 *
 * mv: measured, mV; junctionC: °C. null where the sum is outside the type's range, as an open probe's is.
 */
export function hotJunction(type: ThermocoupleType, mv: number, junctionC: number): number | null {
  const cold = emfMv(type, junctionC);
  return cold === null ? null : celsiusOf(type, mv + cold);
}

/** ±K: the greater of `k` and of `share` of |°C|. */
interface Tolerance {
  readonly k: number;
  readonly share: number;
}

interface Grades {
  /** Classes 1 and 2, from −40 °C to `toC`. */
  readonly 1: Tolerance & { readonly toC: number };
  readonly 2: Tolerance & { readonly toC: number };
  /** Class 3, from −200 to −40 °C; null where the standard has none. */
  readonly cold: Tolerance | null;
}

/**
 * Tolerances of IEC 60584-1. Classes 1 and 2 of K, N and T as two secondary pages have them; J, E and the class 3
 * values are values from memory.
 */
const TOLERANCE: { readonly [T in ThermocoupleType]: Grades } = {
  K: {
    1: { k: 1.5, share: 0.004, toC: 1000 },
    2: { k: 2.5, share: 0.0075, toC: 1200 },
    cold: { k: 2.5, share: 0.015 },
  },
  N: {
    1: { k: 1.5, share: 0.004, toC: 1000 },
    2: { k: 2.5, share: 0.0075, toC: 1200 },
    cold: { k: 2.5, share: 0.015 },
  },
  J: {
    1: { k: 1.5, share: 0.004, toC: 750 },
    2: { k: 2.5, share: 0.0075, toC: 750 },
    cold: { k: 2.5, share: 0.015 },
  },
  E: {
    1: { k: 1.5, share: 0.004, toC: 800 },
    2: { k: 2.5, share: 0.0075, toC: 900 },
    cold: { k: 2.5, share: 0.015 },
  },
  T: {
    1: { k: 0.5, share: 0.004, toC: 350 },
    2: { k: 1, share: 0.0075, toC: 350 },
    cold: { k: 1, share: 0.015 },
  },
};

const COLD_C = { lo: -200, hi: -40 };

/**
 * Tolerance ±K by type and class at c °C; null where the standard gives none (then the probe is used outside what its
 * class promises).
 */
export function tolerance(type: ThermocoupleType, grade: 1 | 2, c: number): number | null {
  const { [grade]: warm, cold } = TOLERANCE[type];
  const is = ({ k, share }: Tolerance) => Math.max(k, share * Math.abs(c));
  if (c < COLD_C.hi) return cold === null || c < COLD_C.lo ? null : is(cold);
  return c > warm.toC ? null : is(warm);
}

/** K at the hot junction for one K at the cold one: the ratio of the sensitivities; 1 outside the range. */
export function junctionWeight(type: ThermocoupleType, hotC: number, junctionC: number): number {
  const hot = seebeck(type, hotC);
  const cold = seebeck(type, junctionC);
  return hot === null || cold === null || hot <= 0 ? 1 : cold / hot;
}
