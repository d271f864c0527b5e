import type { ThermocoupleType } from '../../job/setup.ts';
import { TYPE_E } from './type-e.ts';
import { TYPE_J } from './type-j.ts';
import { TYPE_K } from './type-k.ts';
import { TYPE_N } from './type-n.ts';
import { TYPE_T } from './type-t.ts';
import type { ForwardPiece, ThermocoupleFunction } from './types.ts';

/**
 * Thermocouple reference functions of ITS-90 (NIST Monograph 175), forward and inverse. A temperature or voltage
 * outside the function's range has no answer: null, never an extrapolation.
 */
const FUNCTIONS: { readonly [T in ThermocoupleType]: ThermocoupleFunction } = {
  K: TYPE_K,
  J: TYPE_J,
  T: TYPE_T,
  N: TYPE_N,
  E: TYPE_E,
};

function polynomial(c: readonly number[], x: number): number {
  let sum = 0;
  for (let i = c.length - 1; i >= 0; i--) sum = sum * x + (c[i] as number);
  return sum;
}

function emfOf(piece: ForwardPiece, t: number): number {
  const e = piece.exponential;
  const base = polynomial(piece.c, t);
  return e === null ? base : base + e.a0 * Math.exp(e.a1 * (t - e.a2) * (t - e.a2));
}

function slopeOf(piece: ForwardPiece, t: number): number {
  const { c, exponential: e } = piece;
  let sum = 0;
  for (let i = c.length - 1; i >= 1; i--) sum = sum * t + i * (c[i] as number);
  return e === null ? sum : sum + 2 * e.a1 * (t - e.a2) * e.a0 * Math.exp(e.a1 * (t - e.a2) * (t - e.a2));
}

function pieceAt(type: ThermocoupleType, c: number): ForwardPiece | null {
  for (const piece of FUNCTIONS[type].forward) if (c >= piece.lo && c <= piece.hi) return piece;
  return null;
}

/** The iteration may step a hair past an end: there the end's own polynomial goes on. */
function nearestPiece(fn: ThermocoupleFunction, c: number): ForwardPiece {
  let [nearest] = fn.forward;
  for (const piece of fn.forward) if (c > nearest.hi) nearest = piece;
  return nearest;
}

/** Reference function: emf in mV at c °C with the reference junction at 0 °C; null outside its range. */
export function emfMv(type: ThermocoupleType, c: number): number | null {
  const piece = pieceAt(type, c);
  return piece === null ? null : emfOf(piece, c);
}

/** Sensitivity dE/dt in mV/K at c °C; null outside the range. */
export function seebeck(type: ThermocoupleType, c: number): number | null {
  const piece = pieceAt(type, c);
  return piece === null ? null : slopeOf(piece, c);
}

/** Steps that Newton may take; from the inverse polynomial it needs two. */
const MOST_STEPS = 12;

/**
 * Inverse: the °C whose reference function is mv. Newton on the reference polynomial from the inverse polynomial, to
 * 1e-9 °C, so that forward and inverse agree. null outside the inverse polynomials' range (from −200 or −210 °C).
 */
export function celsiusOf(type: ThermocoupleType, mv: number): number | null {
  const fn = FUNCTIONS[type];
  for (const inverse of fn.inverse) {
    // The published ends of the pieces are rounded to 1 µV: half of that belongs to them.
    if (mv < inverse.lo - 5e-4 || mv > inverse.hi + 5e-4) continue;
    let t = polynomial(inverse.d, mv);
    for (let i = 0; i < MOST_STEPS; i++) {
      const piece = nearestPiece(fn, t);
      const step = (emfOf(piece, t) - mv) / slopeOf(piece, t);
      t -= step;
      if (Math.abs(step) < 1e-9) return t;
    }
    return null;
  }
  return null;
}
