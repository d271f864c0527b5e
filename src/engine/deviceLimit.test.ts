import { describe, expect, it } from 'vitest';
import type { ChannelSetup } from '../job/setup.ts';
import { countsAt } from './deviceLimit.ts';
import { practiceSetup } from './testing/bench.ts';

const press = practiceSetup().channels[0]!;
const calibration = (offset: number, gain: number): ChannelSetup['calibration'] => ({
  deviceId: 'RIG-0001',
  channel: 0,
  sensorSerial: 'x',
  date: '2026-01-01',
  asFound: [],
  asLeft: [],
  offset,
  gain,
  uReference: 0,
  uResidual: 0,
});

describe('counts of the device limit', () => {
  it('follows the scale: 4-20 mA over 0-4 bar on 16 bits of 0-25 mA', () => {
    // 1.77 bar is 4 + 1.77 / 4 · 16 = 11.08 mA, that is 11.08 / 25 · 65535 = 29045.1 counts (worked by hand).
    expect(countsAt(press, 1.77, 1)).toBe(29_045);
  });

  it('undoes the calibration, and for an absolute sensor adds the air', () => {
    expect(countsAt({ ...press, calibration: calibration(0.1, 1) }, 1.77, 1)).toBe(countsAt(press, 1.67, 1));
    expect(countsAt({ ...press, gaugeKind: 'absolute' }, 0.77, 1)).toBe(29_045);
  });

  it('rounds to the side of less pressure, on a falling scale too', () => {
    const falling: ChannelSetup = { ...press, rawLo: 65_535, rawHi: 0 };
    expect(countsAt(falling, 1.77, 1)).toBe(Math.ceil(65_535 - 29_045.112));
    expect(countsAt({ ...press, elHi: press.elLo }, 1.77, 1)).toBeNull();
  });
});
