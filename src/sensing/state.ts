import type { ChannelSetup, Setup } from '../job/setup.ts';
import type { ChannelFrame, HelloFrame } from '../link/frames.ts';
import { createClock, type DeviceClock } from './clock.ts';
import type { CountWatch } from './plausibility.ts';
import type { Line, SignalBands } from './signal.ts';

/**
 * All that sensing remembers: plain data without functions, NaN or infinities, so that a snapshot of it through JSON
 * goes on exactly where it left off.
 */

/** What is worked out once a Setup or a hello, so that a sample costs a few multiplications. */
export interface ChannelPlan {
  readonly setup: ChannelSetup;
  /** Counts → electrical unit → nominal bar, °C or V. */
  readonly el: Line;
  readonly value: Line;
  readonly bands: SignalBands;
  /** Calibration: corrected = offset + gain · nominal. */
  readonly offset: number;
  readonly gain: number;
  /** Added to make gauge pressure of absolute or sealed, bar. */
  readonly shift: number;
  /** Nominal supply, V; null where the channel has no supply channel. */
  readonly supplyV: number | null;
  /** Flags that every reading of the channel carries. */
  readonly flags: number;
  readonly stepCounts: number;
  /** Value of a converter step, bar or K (0 for thermocouples: it depends on the temperature). */
  readonly step: number;
  /** Standard uncertainty but for supply, zero and noise, squared. */
  readonly u2: number;
  /** Seconds for which a value without a new conversion still stands. */
  readonly holdS: number;
}

/** What changes with every sample of a channel. */
export interface ChannelMemory {
  count: number | null;
  /** Value and time of the last conversion. */
  value: number | null;
  atS: number;
  flags: number;
  /** Expanded uncertainty of the value. */
  u: number;
  /** Partner's value that the value was computed with. */
  partner: number | null;
  /** Where the uncertainty of a thermocouple was last worked out, °C, and what a count is there, K. */
  uAtC: number | null;
  perCount: number;
  readonly watch: CountWatch;
}

/** A tenth of a second of pressure before zero: number, sum, least and most, bar. */
export interface ZeroBin {
  s: number;
  n: number;
  sum: number;
  min: number;
  max: number;
}

export interface Zero {
  readonly deviceId: string | null;
  readonly channel: number;
  /** What the open line gave, in the signal's electrical unit: it outlives a calibration that is entered later. */
  readonly el: number;
  /** The same in bar with the present scale: subtracted from every pressure. */
  readonly offsetBar: number;
}

export interface SensingState {
  readonly version: 2;
  setup: Setup | null;
  hello: HelloFrame | null;
  channels: readonly ChannelFrame[];
  /** The second adapter, for temperatures; null: none has said who it is. */
  beside: { readonly deviceId: string; readonly channels: readonly ChannelFrame[] } | null;
  /** By index of the device's channels; null for one that cannot be used. */
  plans: (ChannelPlan | null)[];
  memory: ChannelMemory[];
  /** Index of the pressure channel, of the temperature channels in order, and of those that others need. */
  pressure: number | null;
  /** Index of the second pressure; null: there is none. */
  second: number | null;
  temps: number[];
  partners: number[];
  zero: Zero | null;
  /** Of the second pressure. */
  secondZero: Zero | null;
  /** Job for which zero and warm checks were made. */
  jobId: string | null;
  /** Temperature channels whose probe was warmed and compared. */
  checked: number[];
  readonly clock: DeviceClock;
  readonly bins: ZeroBin[];
  readonly secondBins: ZeroBin[];
}

export function createSensing(): SensingState {
  return {
    version: 2,
    setup: null,
    hello: null,
    channels: [],
    beside: null,
    plans: [],
    memory: [],
    pressure: null,
    second: null,
    temps: [],
    partners: [],
    zero: null,
    secondZero: null,
    jobId: null,
    checked: [],
    clock: createClock(),
    bins: [],
    secondBins: [],
  };
}
