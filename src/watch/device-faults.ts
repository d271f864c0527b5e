import type { DeviceState } from './state.ts';

/**
 * What the device says of its own faults (firmware-protocol/SPEC.md, part 4, E): it tells each once, until it was seen
 * good, and never that it is good. So a fault under which the guard may be blind stands until the device starts anew,
 * one that an armed limit mends until then, and any other for a moment: its alarm stays until it is acknowledged.
 */

const STORE = 1;
const WATCHDOG = 2;
const NO_CONVERSIONS = 3;
const SUPPLY = 4;
const SENSOR_LOW = 5;
const NO_LIMIT = 6;
/** Gravest first. */
const GRAVITY: readonly number[] = [NO_CONVERSIONS, SENSOR_LOW, NO_LIMIT, STORE, SUPPLY, WATCHDOG];
const MOMENT_US = 1e6;

/** The device does not see the pressure that it should guard. */
export const isBlind = (number: number | null): boolean => number === NO_CONVERSIONS || number === SENSOR_LOW;

export function addFault(device: DeviceState, number: number, atUs: number): void {
  device.faults = [...device.faults.filter((f) => f.number !== number), { number, atUs }];
}

/** What was told before that moment holds no longer. */
export function forgetFaults(device: DeviceState, beforeUs: number): void {
  device.faults = device.faults.filter((f) => f.atUs >= beforeUs);
}

/** The device says that its limit is armed. */
export function limitTaken(device: DeviceState): void {
  if (device.faults.some((f) => f.number === NO_LIMIT))
    device.faults = device.faults.filter((f) => f.number !== NO_LIMIT);
}

/** Place in the order of gravity: 0 and numbers of a later version come last. */
function rank(number: number): number {
  const at = GRAVITY.indexOf(number);
  return at < 0 ? GRAVITY.length : at;
}

/** Number of the gravest fault that stands; null: none. */
export function gravestFault(device: DeviceState, tUs: number): number | null {
  let gravest: number | null = null;
  for (const { number, atUs } of device.faults) {
    const lasts = isBlind(number) || number === NO_LIMIT;
    if (!lasts && tUs - atUs >= MOMENT_US) continue;
    if (gravest === null || rank(number) < rank(gravest)) gravest = number;
  }
  return gravest;
}
