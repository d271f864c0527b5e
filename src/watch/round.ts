import type { Bounded } from './events.ts';

/**
 * Numbers are rounded when an event is made, so that a record holds the digits that were meant and two
 * machines cannot differ in the last bit of a text. Never '-0': it would not survive a record.
 */
export function round(value: number, digits: number): number {
  const scale = 10 ** digits;
  const r = Math.round(value * scale) / scale;
  return r === 0 ? 0 : r;
}

/** bar, three decimals (1 mbar). */
export const bar3 = (value: number): number => round(value, 3);
/** Seconds, one decimal. */
export const s1 = (value: number): number => round(value, 1);
/** mbar/min, one decimal. */
export const rate1 = (value: number): number => round(value, 1);
/** °C or K, one decimal. */
export const c1 = (value: number): number => round(value, 1);

/** The interval is rounded outwards, so that rounding never makes it narrower than it is. */
export function boundedTo(b: Bounded, digits: number): Bounded {
  const scale = 10 ** digits;
  // A tiny allowance keeps 1.2300000000000002 from becoming 1.231.
  const low = Math.floor(b.low * scale + 1e-6) / scale;
  const high = Math.ceil(b.high * scale - 1e-6) / scale;
  return { value: round(b.value, digits), low: low === 0 ? 0 : low, high: high === 0 ? 0 : high };
}
