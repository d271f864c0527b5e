import { DEVICE_FAULTS, type DeviceFault } from '../../link/frames.ts';

interface FaultText {
  /** What is wrong with the device by its own word, and what to do. */
  readonly now: string;
  /** What was wrong, for an alarm that is over and for the record. */
  readonly was: string;
}

const FAULT: Record<DeviceFault, FaultText> = {
  store: {
    now: 'The device cannot store its limit: after a restart it guards nothing. Keep its power steady, and have it repaired after this job',
    was: 'the device could not store its limit',
  },
  watchdog: {
    now: 'The device hung and restarted itself: see whether its limit is on, check its power',
    was: 'the device hung and restarted itself',
  },
  'no-conversions': {
    now: 'The device’s own guard is blind: its pressure channel converts nothing. Stay within hearing of this computer, watch the dial gauge, check the sensor’s connector',
    was: 'the device’s own guard was blind: its pressure channel converted nothing',
  },
  supply: {
    now: 'The device’s power is too low: its limit is taken lower and cannot be raised. Check its power and the dial gauge',
    was: 'the device’s power was too low',
  },
  'sensor-low': {
    now: 'The device’s own guard may be blind: its sensor reads lower than a sound one can. Watch the dial gauge, check the sensor’s connector',
    was: 'the device’s own guard may have been blind: its sensor read lower than a sound one can',
  },
  'no-limit': {
    now: 'The device holds no sound limit: it guards nothing until a limit is set here',
    was: 'the device held no sound limit',
  },
};
const UNKNOWN: FaultText = {
  now: 'The device reports a fault that this program does not know: watch the dial gauge',
  was: 'the device reported a fault that this program does not know',
};

const isKnown = (code: string | undefined): code is DeviceFault =>
  (DEVICE_FAULTS as readonly (string | undefined)[]).includes(code);

export const deviceFault = (code: string | undefined): FaultText => (isKnown(code) ? FAULT[code] : UNKNOWN);
