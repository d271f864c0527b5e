import type { SecondPressure } from '../job/codes.ts';
import type { Place } from '../job/setup.ts';

/** Why a value is not plainly good, as bits; more than one may be set. */
export const FLAG = {
  /** Under the signal's fault limit or over it (NE 43 for current loops): the value is null. */
  fault: 1 << 0,
  /** Outside the sensor's span but inside the signal's measuring band. */
  outOfRange: 1 << 1,
  /** Faster than physics allows. */
  rate: 1 << 2,
  /** The same counts too long where noise was seen before. */
  stuck: 1 << 3,
  /** Thermocouple open. */
  open: 1 << 4,
  /** Ratiometric without supply counts: U is widened. */
  noSupply: 1 << 5,
  /** Supply out of its band. */
  supply: 1 << 6,
  /** No calibration: the device's suggested scale is used. */
  uncalibrated: 1 << 7,
  /** Zero not taken for this job. */
  notZeroed: 1 << 8,
  /** Warm-in-hand check not done: no cure credit above ground temperature. */
  unchecked: 1 << 9,
  /** Disagrees with another place. */
  disagrees: 1 << 10,
  /** Held over from an earlier frame: no new conversion in this one. */
  held: 1 << 11,
} as const;

export interface TemperatureReading {
  readonly channel: number;
  readonly place: Place | null;
  /** °C; null when there is no usable value. */
  c: number | null;
  /** Expanded uncertainty, k = 2, in K. */
  uC: number;
  flags: number;
}

/** A second pressure on the line, beside the one that the guard goes by. */
export interface SecondReading {
  readonly channel: number;
  readonly role: SecondPressure;
  /** Gauge pressure, bar; null when there is no usable value. A doubtful value is kept and flagged. */
  readonly bar: number | null;
  /** Expanded uncertainty (k = 2), bar. Until its zero is taken, what an open line may be off by is in it. */
  readonly uBar: number;
  readonly flags: number;
  /** Value of one count, bar. */
  readonly stepBar: number;
}

/** One sample in physical units. The engine reuses no Reading: it may be kept. */
export interface Reading {
  /** Arrival on the run clock, µs since the run was opened. */
  readonly tUs: number;
  /**
   * Sampling time in seconds on the run clock, from the device clock (unwrapped, tied to arrival at the
   * first sample and again after each reset); strictly ascending. Slopes are taken over this one.
   */
  readonly tS: number;
  readonly seq: number;
  /** Gauge pressure, bar; null when there is no usable value. A doubtful value is kept and flagged. */
  readonly bar: number | null;
  /** Expanded uncertainty (k = 2) of a single reading, bar. */
  readonly uBar: number;
  readonly flags: number;
  /** Pressure value of one count at this reading, bar: the floor of any noise estimate. */
  readonly stepBar: number;
  /** Left out where no channel has that role. */
  readonly second?: SecondReading;
  readonly temps: readonly TemperatureReading[];
  /** STATUS bits of the frame. */
  readonly status: number;
}
