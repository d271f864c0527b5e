import { DEFAULT_REACTION } from '../reaction.ts';
import type { ChannelSetup, Limits, ResinSetup, Setup } from '../setup.ts';

/** What tests start from. A test that cares for a number names it; the others take these. */

export const LIMITS: Limits = {
  ratedBar: 2.5,
  uBar: 0.02,
  ceilingBar: 2.48,
  workingBar: 1.8,
  seatBar: 0.4,
  floorBar: 0.7,
  headBar: 0.3,
  freeInflationBar: 0.3,
  seatingMarginBar: 0.1,
  noMargin: null,
  cue: true,
};

/** Limits of a weaker packer of which the sheet knows the plate and nothing else. */
export const PLATE_LIMITS: Limits = {
  ...LIMITS,
  ratedBar: 1.5,
  uBar: 0.015,
  ceilingBar: 1.485,
  workingBar: 1.2,
  seatBar: null,
  floorBar: null,
  headBar: null,
  freeInflationBar: null,
};

/** A current loop of 0-4 bar without a calibration. */
export const PRESSURE_CHANNEL: ChannelSetup = {
  index: 0,
  role: 'pressure',
  place: null,
  signal: 'current',
  thermocouple: null,
  thermocoupleClass: null,
  gaugeKind: 'gauge',
  partner: null,
  bits: 16,
  rawLo: 0,
  rawHi: 65_535,
  elLo: 0,
  elHi: 25_000,
  spanElLo: 4000,
  spanElHi: 20_000,
  rangeLo: 0,
  rangeHi: 4,
  calibration: null,
  uSensor: 0.01,
};

/** A closed line, the sensor at the packer, moderate ground; no channels, no resin. */
export function setupOf(more: Partial<Setup> = {}): Setup {
  return {
    number: 1,
    practice: false,
    jobId: null,
    limits: LIMITS,
    tap: 'packer',
    line: 'closed',
    channels: [],
    air: { bar: 1.013, uBar: 0.01, source: 'typed' },
    ground: { c: 10, uC: 1 },
    volume: null,
    pipe: null,
    resin: null,
    reaction: DEFAULT_REACTION,
    rateHz: 20,
    ...more,
  };
}

/** A resin of little warmth that is let down after 4 h at 10 °C and 2 h at 20 °C. */
export function resinOf(more: Partial<ResinSetup> = {}): ResinSetup {
  return {
    name: 'R',
    criterion: 'let-down',
    points: [
      { c: 10, minutes: 240 },
      { c: 20, minutes: 120 },
    ],
    lowestC: 5,
    potLifeMin: 30,
    exotherm: 'low',
    expectedRiseK: null,
    ...more,
  };
}
