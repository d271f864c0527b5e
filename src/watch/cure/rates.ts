import type { Setup } from '../../job/setup.ts';
import type { Bounded } from '../events.ts';
import type { Coldest, Estimate } from './coldest.ts';
import { COLD_GROUND_C } from './coldest.ts';
import type { SheetFit } from './sheet.ts';
import { cureMinutes } from './sheet.ts';

/** Progress a minute from a temperature and its uncertainty: middle, the bound that waits, and the hopeful end. */

export const NO_RATE: Bounded = { value: 0, low: 0, high: 0 };

/** What is shown as a bound (k = 2); the hopeful end. */
const K_SHOWN = 2;
/**
 * The bound that waits. Dry: one-sided 95 % of temperature and fit combined. Its errors are bounded where a normal
 * law has tails (tolerance classes), and the middle leans to the cold; on simulated sleeves it is early in far less
 * than one of twenty (docs/validation.md).
 */
export const K_DRY = 1.6;
/** No probe: ground temperature is itself a worst case, so that one-sided 90 % is put on top of it. */
export const K_GROUND = 1.3;
/** The rise over the ground may overrule the probe's own level, so it is held to more: at 1.6 it was early too often. */
export const K_RISE = 2;
/** Water at the ground's own temperature is a worst case too, but a common one: one-sided 90 % on top of it. */
export const K_WET = 1.3;

/** Nothing where the low end of the temperature is under the sheet's lowest. */
function lowRate(fit: SheetFit, one: Estimate, k: number): number {
  return one.c - k * one.sd < fit.lowestC ? 0 : 1 / cureMinutes(fit, one.c, k, one.sd);
}

export function rateAt(fit: SheetFit, now: Coldest): Bounded {
  const { dry, wet, floor, source } = now;
  if (dry === null) return NO_RATE;
  let low = lowRate(fit, dry, source === 'ground' ? K_GROUND : K_DRY);
  if (floor !== null && source !== 'ground') low = Math.max(low, lowRate(fit, floor, K_RISE));
  if (wet !== null) low = Math.min(low, lowRate(fit, wet, K_WET));
  const value = 1 / cureMinutes(fit, dry.c, 0);
  return { value, low: Math.min(low, value), high: 1 / cureMinutes(fit, dry.c, -K_SHOWN, dry.sd) };
}

/** Low end of the ground's temperature, taken as certain: what a gap counts at, °C. */
export function coldestPlausible(ground: Setup['ground']): number {
  return ground === null ? COLD_GROUND_C : ground.c - ground.uC;
}

/** Over a gap even the hopeful end is given no more than the middle at the coldest plausible temperature. */
export function gapRate(fit: SheetFit, ground: Setup['ground']): Bounded {
  const c = coldestPlausible(ground);
  const value = 1 / cureMinutes(fit, c, 0);
  return { value, low: 1 / cureMinutes(fit, c, K_DRY), high: value };
}
