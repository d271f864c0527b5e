/** The practice site of the demo job, and what may stand beside it. */
import { QUICK_RESIN } from './cure.ts';
import type { RigDeviceOptions } from './device.ts';

export type PracticeSite = Omit<RigDeviceOptions, 'seed'>;

/** The practice site of the demo job: 150 mm clay drain, 22 l packer, 20 m hose, closed line, four channels. */
export const PRACTICE: PracticeSite = {
  deviceId: 'RIG-0001',
  firmware: 'rig-1',
  site: {
    airC: 16,
    regulator: { setBar: 1.5, relieving: false },
    hose: { lengthM: 20, innerMm: 8 },
    packer: { pipeMm: 150, lengthM: 1.2, freeInflationBar: 0.45 },
    pipe: { wallMm: 18, material: 'clay', groundC: 10, sleeveMm: 3, kinetics: QUICK_RESIN },
  },
  channels: {
    tap: 'hose',
    transducer: { signal: 'current', rangeLoBar: 0, rangeHiBar: 4, bits: 16, offsetBar: 0.006 },
    probes: [{ at: 'sleeve' }, { at: 'air' }, { at: 'pipe' }],
  },
};

/** The same with a second transducer at the regulator's outlet. */
export const PAIR: PracticeSite = {
  ...PRACTICE,
  channels: {
    ...PRACTICE.channels,
    second: {
      tap: 'supply',
      transducer: { signal: 'current', rangeLoBar: 0, rangeHiBar: 10, bits: 16, offsetBar: -0.008 },
    },
  },
};

/** The same with a probe in a cup of the batch, which is slow. */
export const CUP: PracticeSite = {
  ...PRACTICE,
  site: { ...PRACTICE.site, cup: { potC: 16, tauS: 2200, heat: 1.3 }, slowBatch: 1.6 },
  channels: { ...PRACTICE.channels, cup: {} },
};
