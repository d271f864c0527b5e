import { TICK_S } from '../link/frames.ts';

/** Device clock on the run clock. Plain data. */
export interface DeviceClock {
  /** Tick of the last sample as it came, uint32; null: the next sample ties anew. */
  tick: number | null;
  /** Time of the last sample, s on the run clock; null before the first. */
  tS: number | null;
  /** Arrival of the last sample and of the one that tied the clocks, s. */
  arrivalS: number;
  tiedS: number;
}

export const createClock = (): DeviceClock => ({ tick: null, tS: null, arrivalS: 0, tiedS: 0 });

/** Half of the counter: a step of this many ticks (59.6 h) or more is one backwards. */
const BACKWARDS = 0x8000_0000;
const LEAST_STEP_S = TICK_S;
/** A device clock may run ahead of the tablet's by the first sample's delay and by crystals 200 ppm apart. */
const AHEAD_S = 1;
const DRIFT = 2e-4;

/** The device started anew, or is another: the next sample ties the clocks again. */
export function untie(clock: DeviceClock): void {
  clock.tick = null;
}

/**
 * Sampling time in seconds on the run clock for a sample of that tick that arrived at tUs. Unwraps the counter modulo
 * 2^32; ties to the arrival at the first sample, after untie(), and when the device's clock goes back or runs away
 * from the arrival; strictly ascending whatever the device says. A clock that stands still is replaced by the
 * arrival.
 */
export function sampleTime(clock: DeviceClock, tick: number, tUs: number): number {
  const arrival = tUs / 1e6;
  const last = clock.tS;
  let t: number | null = null;
  if (clock.tick !== null && last !== null) {
    const step = (tick - clock.tick) >>> 0;
    const waited = arrival - clock.arrivalS;
    if (step === 0) t = last + Math.max(LEAST_STEP_S, waited);
    else if (step < BACKWARDS && waited < BACKWARDS * TICK_S) {
      const on = last + step * TICK_S;
      if (on - arrival <= AHEAD_S + DRIFT * Math.max(0, arrival - clock.tiedS)) t = on;
    }
  }
  if (t === null) {
    t = last === null ? arrival : Math.max(last + LEAST_STEP_S, arrival);
    clock.tiedS = arrival;
  }
  clock.tick = tick;
  clock.tS = t;
  clock.arrivalS = arrival;
  return t;
}
