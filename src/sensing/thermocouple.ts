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

/**
 * Tolerance ±K of IEC 60584-1 by type and class at c °C; null where the standard gives none (then the probe is used
 * outside what its class promises).
 *
 * Classes 1 and 2 of K, N and T as two secondary pages have them; J, E and the class 3 values used below −40 °C
 * are values from memory.
 */
export function tolerance(type: ThermocoupleType, grade: 1 | 2, c: number): number | null {
  const t = Math.abs(c);
  if (c < -40) return c >= -200 ? (type === 'T' ? Math.max(1, 0.015 * t) : Math.max(2.5, 0.015 * t)) : null;
  if (type === 'T') {
    if (c > 350) return null;
    return grade === 1 ? Math.max(0.5, 0.004 * t) : Math.max(1, 0.0075 * t);
  }
  const end = UPPER[type][grade - 1] as number;
  if (c > end) return null;
  return grade === 1 ? Math.max(1.5, 0.004 * t) : Math.max(2.5, 0.0075 * t);
}

const UPPER: { readonly [T in Exclude<ThermocoupleType, 'T'>]: readonly [number, number] } = {
  K: [1000, 1200],
  N: [1000, 1200],
  J: [750, 750],
  E: [800, 900],
};

/** K at the hot junction for one K at the cold one: the ratio of the sensitivities; 1 outside the range. */
export function junctionWeight(type: ThermocoupleType, hotC: number, junctionC: number): number {
  const hot = seebeck(type, hotC);
  const cold = seebeck(type, junctionC);
  return hot === null || cold === null || hot <= 0 ? 1 : cold / hot;
}
