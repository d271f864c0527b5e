import type { Calibration, ChannelSetup, Setup } from '../../job/setup.ts';
import { setupOf } from '../../job/testing/givens.ts';
import type { ChannelFrame, HelloFrame, SampleFrame } from '../../link/frames.ts';

/** A device for tests: current loop 0-4 bar on 0, thermocouple K at the sleeve on 1, its junction on 2. */
export const HELLO: HelloFrame = {
  t: 'H',
  version: 1,
  deviceId: 'TEST-1',
  firmware: '1.0',
  bootId: 7,
  uptime: 0,
  channels: 3,
  maxRateHz: 1000,
};

export const PRESS: ChannelFrame = {
  t: 'C',
  index: 0,
  quantity: 'press',
  place: 'hose',
  signal: 'current',
  partner: null,
  bits: 16,
  rawLo: 0,
  rawHi: 25_000,
  elLo: 0,
  elHi: 25_000,
  rangeLo: 0,
  rangeHi: 400_000,
  rateMilliHz: 20_000,
};

export const PROBE: ChannelFrame = {
  t: 'C',
  index: 1,
  quantity: 'temp',
  place: 'sleeve',
  signal: 'tc-k',
  partner: 2,
  bits: 20,
  rawLo: -524_288,
  rawHi: 524_287,
  elLo: -78_125_000,
  elHi: 78_124_851,
  rangeLo: -40_000,
  rangeHi: 200_000,
  rateMilliHz: 4000,
};

export const JUNCTION: ChannelFrame = {
  t: 'C',
  index: 2,
  quantity: 'junct',
  place: null,
  signal: 'digital',
  partner: null,
  bits: 14,
  rawLo: -8192,
  rawHi: 8191,
  elLo: -128_000,
  elHi: 127_984,
  rangeLo: -40_000,
  rangeHi: 125_000,
  rateMilliHz: 4000,
};

/** Ratiometric 0.5-4.5 V of 5 V, 0-6 bar, in ppm of the nominal supply, with and without its supply channel. */
export const RATIO: ChannelFrame = {
  ...PRESS,
  signal: 'ratio',
  partner: 1,
  rawLo: 0,
  rawHi: 32_768,
  elLo: 0,
  elHi: 1_000_000,
  rangeHi: 600_000,
};
export const SUPPLY: ChannelFrame = {
  ...PRESS,
  index: 1,
  quantity: 'supply',
  place: null,
  signal: 'voltage',
  rawHi: 65_535,
  elHi: 6_553_500,
  rangeLo: 4_750_000,
  rangeHi: 5_250_000,
};

export const sample = (n: number, counts: readonly (number | null)[], rateHz = 20): SampleFrame => ({
  t: 'S',
  seq: n >>> 0,
  tick: Math.round((n * 10_000) / rateHz) >>> 0,
  counts,
  status: 0,
});

/** Arrival of sample n, µs. */
export const at = (n: number, rateHz = 20): number => Math.round((n * 1e6) / rateHz);

/** A setup of these channels and nothing else: no limits, nothing known of the site. */
export const channelSetup = (channels: readonly ChannelSetup[], more: Partial<Setup> = {}): Setup =>
  setupOf({
    jobId: 'job-1',
    limits: null,
    tap: 'hose',
    channels,
    air: { bar: 1.01325, uBar: 0.005, source: 'typed' },
    ground: null,
    ...more,
  });

/** A probe that read 0.6 °C in melting ice. */
export const IN_ICE: Calibration = {
  deviceId: 'TEST-1',
  channel: 1,
  sensorSerial: 'S-2',
  date: '2026-01-05',
  asFound: [{ indicated: 0.6, reference: 0 }],
  asLeft: [],
  offset: -0.6,
  gain: 1,
  uReference: 0.1,
  uResidual: 0.1,
};

export const CALIBRATION: Calibration = {
  deviceId: 'TEST-1',
  channel: 0,
  sensorSerial: 'S-1',
  date: '2026-01-05',
  asFound: [],
  asLeft: [],
  offset: 0.01,
  gain: 1.002,
  uReference: 0.002,
  uResidual: 0.001,
};
