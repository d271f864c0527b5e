import { describe, expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import type { TemperatureReading } from '../../sensing/reading.ts';
import { FLAG } from '../../sensing/reading.ts';
import { probeOf, readingOf } from '../../sensing/testing/readings.ts';
import type { Probe } from './probes.ts';
import { cureProbes, lostPlace, probeFresh, takeProbes } from './probes.ts';

const temp = (more: Partial<TemperatureReading> = {}): TemperatureReading => ({
  ...probeOf('sleeve', 12, 1.5),
  ...more,
});

function heardOf(...steps: [number, TemperatureReading[]][]): Probe[] {
  const probes: Probe[] = [];
  for (const [t, temps] of steps) {
    const reading = readingOf(t, 1, { temps });
    takeProbes(probes, reading.temps, { isUp: true, ground: null }, reading.tUs);
  }
  return probes;
}

describe('probes', () => {
  it('an open probe is lost after five seconds, and its last value is not shown as new', () => {
    const probes = heardOf([0, [temp()]], [1, [temp({ c: null, flags: FLAG.open })]]);
    expect(lostPlace(probes, null, 0, 5e6)).toBeNull();
    expect(lostPlace(probes, null, 0, 5.1e6)).toBe('sleeve');
    expect(probeFresh(probes[0]!, 5.1e6)).toBe(false);
    expect(cureProbes(probes, [], 1e6)).toEqual([]);
  });

  it('held values do not make it fresh but give a slow channel three times as long', () => {
    const probes = heardOf([0, [temp()]], [10, [temp({ flags: FLAG.held })]]);
    expect(lostPlace(probes, null, 0, 14e6)).toBeNull();
    expect(lostPlace(probes, null, 0, 15.1e6)).toBe('sleeve');
  });

  it('a place that the job names and nobody heard of is lost', () => {
    const setup = setupOf({
      channels: [
        {
          index: 3,
          role: 'temperature',
          place: 'air',
          signal: 'thermocouple',
          thermocouple: 'K',
          thermocoupleClass: 1,
          gaugeKind: null,
          partner: null,
          bits: 16,
          rawLo: 0,
          rawHi: 1,
          elLo: 0,
          elHi: 1,
          spanElLo: 0,
          spanElHi: 1,
          rangeLo: 0,
          rangeHi: 100,
          calibration: null,
          uSensor: 1,
        },
      ],
    });
    expect(lostPlace([], setup, 0, 4e6)).toBeNull();
    expect(lostPlace([], setup, 0, 6e6)).toBe('air');
  });

  it('an unnamed place is nobody’s loss and earns nothing', () => {
    const probes = heardOf([0, [temp({ place: null })]]);
    expect(lostPlace(probes, null, 0, 60e6)).toBeNull();
    expect(cureProbes(probes, [], 1e6)).toEqual([]);
  });

  it('is checked when the flag is clear or the place agreed with a thermometer', () => {
    const probes = heardOf([0, [temp({ flags: FLAG.unchecked })]]);
    expect(cureProbes(probes, [], 1e6)[0]).toMatchObject({ checked: false });
    expect(cureProbes(probes, ['sleeve'], 1e6)[0]).toMatchObject({ checked: true });
  });
});
