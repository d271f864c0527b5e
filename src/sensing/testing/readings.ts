import type { Place } from '../../job/setup.ts';
import type { Reading, TemperatureReading } from '../reading.ts';

/** A good reading at `tS` seconds; null is one without a value. */
export function readingOf(tS: number, bar: number | null, more: Partial<Reading> = {}): Reading {
  return {
    tUs: Math.round(tS * 1e6),
    tS,
    // Numbers of which nothing follows.
    seq: 0,
    bar,
    uBar: 0.02,
    flags: 0,
    stepBar: 0.0015,
    temps: [],
    status: 0,
    ...more,
  };
}

/** What one probe tells, on channel 1; null is one without a value. */
export const probeOf = (place: Place | null, c: number | null, uC = 1, flags = 0): TemperatureReading => ({
  channel: 1,
  place,
  c,
  uC,
  flags,
});
