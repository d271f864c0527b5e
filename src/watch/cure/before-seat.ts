import type { Setup } from '../../job/setup.ts';
import type { Bounded } from '../events.ts';
import type { ProbeNow } from './coldest.ts';
import { coldestPlausible, K_DRY } from './rates.ts';
import { cureMinutes, type SheetFit } from './sheet.ts';

/**
 * What the resin goes through between mixing and seating. A sheet's time from mixing begins here; it is earned only for
 * moments at which a probe that was compared has been read, and at the coldest of pot, ground and those readings: a wet
 * sleeve on its way takes to whatever is around it. Plain data.
 */
export interface BeforeSeat {
  readonly mixedUs: number;
  lastUs: number;
  /** Time with such a reading, s. */
  seenS: number;
  /** Coldest and warmest of the readings with their uncertainty, and the coldest without it, °C; null: none yet. */
  lowC: number | null;
  coldC: number | null;
  highC: number | null;
}

/** The pot's temperature as it was typed, ±K (common practice, no source). */
const POT_K = 2;
/** Looked at so often, and a longer way between two looks is a gap that earns nothing, µs. */
const STEP_US = 1e6;
const GAP_US = 5e6;

export const createBefore = (mixedUs: number): BeforeSeat => ({
  mixedUs,
  lastUs: mixedUs,
  seenS: 0,
  lowC: null,
  coldC: null,
  highC: null,
});

/** Goes on to tUs. `probes`: with a fresh usable value. */
export function beforeTick(b: BeforeSeat, tUs: number, probes: readonly ProbeNow[]): void {
  if (tUs - b.lastUs < STEP_US) return;
  const dt = tUs - b.lastUs;
  b.lastUs = tUs;
  const near = probes.filter((p) => p.checked && p.place !== 'ground' && p.place !== 'cup');
  if (near.length === 0) return;
  b.lowC = Math.min(b.lowC ?? Number.POSITIVE_INFINITY, ...near.map((p) => p.c - p.uC));
  b.coldC = Math.min(b.coldC ?? Number.POSITIVE_INFINITY, ...near.map((p) => p.c));
  b.highC = Math.max(b.highC ?? Number.NEGATIVE_INFINITY, ...near.map((p) => p.c + p.uC));
  if (dt <= GAP_US) b.seenS += dt / 1e6;
}

export interface Earned {
  /** Progress: middle and bounds. */
  readonly progress: Bounded;
  readonly minutes: number;
  /** The coldest that it may have been, °C. */
  readonly coldC: number;
}

/**
 * What was earned by the time of seating; null where the sheet does not say that its time counts from mixing, where the
 * pot's temperature was not typed, or where nothing was read. Never more than the pot life: what is over it was set before it was
 * seated, and is no good sleeve.
 */
export function earnedBefore(b: BeforeSeat, setup: Setup | null, fit: SheetFit): Earned | null {
  const resin = setup?.resin ?? null;
  if (resin?.countsFrom !== 'mixing' || resin.potC === undefined) return null;
  if (b.lowC === null || b.coldC === null || b.highC === null) return null;
  const minutes = Math.min(b.seenS / 60, resin.potLifeMin ?? 0);
  if (minutes <= 0) return null;
  const ground = coldestPlausible(setup?.ground ?? null);
  const coldC = Math.min(resin.potC - POT_K, ground, b.lowC);
  const middleC = Math.min(resin.potC, b.coldC);
  const rate = (c: number, k: number) => (c < fit.lowestC ? 0 : 1 / cureMinutes(fit, c, k));
  const value = rate(middleC, 0);
  return {
    progress: {
      value: value * minutes,
      low: Math.min(rate(coldC, K_DRY), value) * minutes,
      high: rate(Math.max(resin.potC + POT_K, b.highC), -2) * minutes,
    },
    minutes,
    coldC,
  };
}
