/**
 * This computer's clock in the place of a device's: for sources that have none. A leaf. What is read by it carries the time of
 * its arrival, not of its measuring.
 */
import { TICK_S } from '../frames.ts';

export interface HostClock {
  /** Differs after each start of the program, as a device's does. */
  readonly bootId: number;
  /** The clock in ticks of the protocol, as its counter wraps. */
  tickAt(nowUs: number): number;
  /** The number of the next sample, as its counter wraps. */
  number(): number;
}

const TICK_US = TICK_S * 1e6;

/** One for all connections of a program, so that a cable that was out is no new start. */
export function createHostClock(bootId: number): HostClock {
  let next = 0;
  return {
    bootId,
    tickAt: (nowUs) => Math.floor(nowUs / TICK_US) % 0x100000000,
    number: () => next++ % 0x100000000,
  };
}
