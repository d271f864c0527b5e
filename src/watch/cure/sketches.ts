import type { ResinSetup } from '../../job/setup.ts';
import { kamal } from '../../physics/cure.ts';
import { type SheetFit, ZERO_C } from './sheet.ts';

/**
 * Generic sketches of how a resin gives off its heat, for the advisory forecast alone. They are no product's figures
 * and never part of the proof: shape and heat are guesses by the exotherm class of the job sheet, the speed is the
 * data sheet's.
 */
export interface Sketch {
  /** Heat of the whole reaction in wet sleeve, J/m³. */
  readonly heatJm3: number;
  /** Speed against the sheet's middle. */
  readonly speed: number;
}

/** J/kg of wet sleeve: low end, middle and high end for each class (common practice, no source). */
const HEAT: Readonly<Record<ResinSetup['exotherm'], readonly [number, number, number]>> = {
  low: [40e3, 80e3, 130e3],
  medium: [90e3, 150e3, 210e3],
  high: [150e3, 230e3, 300e3],
  unknown: [40e3, 150e3, 300e3],
};
/** Wet sleeve, kg/m³. */
const DENSITY = 1500;

/** Kamal's form with one activation energy, the sheet's: da/dt = k(T)·(R + a^M)(1 − a)^N, met at END. */
const R = 0.03;
const M = 0.8;
const N = 1.5;
export const END = 0.85;

/** When in its course a resin gives its heat (induction, orders) is not on a sheet: its speed may seem so much off, ln. */
const SHAPE = 0.3;

/** ∫ da/(R + a^M)(1 − a)^N from 0 to END: the sheet's time times k. Simpson in z, a = z². */
const WHOLE = integral(END);

function integral(to: number): number {
  const steps = 400;
  const dz = Math.sqrt(to) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const z = i * dz;
    sum += ((i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * 2 * z) / kamal(z * z, R, 1, M, N);
  }
  return (sum * dz) / 3;
}

/** Degree of cure of the sketch at a progress by the sheet (1 at END). */
export function degreeAt(progress: number): number {
  let lo = 0;
  let hi = 0.999;
  for (let i = 0; i < 30; i++) {
    const mid = (lo + hi) / 2;
    if (integral(mid) < progress * WHOLE) lo = mid;
    else hi = mid;
  }
  return (lo + hi) / 2;
}

/** Rate of the degree of cure, 1/s. */
export function sketchRate(fit: SheetFit, sketch: Sketch, degree: number, c: number): number {
  // The reaction does not know the sheet's lowest temperature: the fit goes on under it, without its bounds.
  const minutes = Math.exp(fit.logMin + fit.slope * (1 / (c + ZERO_C) - fit.centre));
  return (sketch.speed * WHOLE * kamal(degree, R, 1, M, N)) / (60 * minutes);
}

/** Likely, quick and hot, slow and cool, and without any heat. */
export function sketchesOf(exotherm: ResinSetup['exotherm'], fit: SheetFit): readonly Sketch[] {
  const [low, mid, high] = HEAT[exotherm];
  const off = Math.exp(2 * Math.sqrt(fit.varLog) + SHAPE);
  return [
    { heatJm3: mid * DENSITY, speed: 1 },
    { heatJm3: high * DENSITY, speed: off },
    { heatJm3: low * DENSITY, speed: 1 / off },
    { heatJm3: 0, speed: 1 },
  ];
}
