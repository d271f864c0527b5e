import { DEVICE_FAULTS } from './device-faults.ts';
import type { Fault } from './fault.ts';
import { PAGE_FAULTS } from './page-faults.ts';
import { PRESSURE_FAULTS } from './pressure-faults.ts';

/** Every fault of the table, by whose it is. */
export const GROUPS: readonly { readonly title: string; readonly faults: readonly Fault[] }[] = [
  { title: 'Device, cable, sensors', faults: DEVICE_FAULTS },
  { title: 'Air', faults: PRESSURE_FAULTS },
  { title: 'Page, storage, sound, clock', faults: PAGE_FAULTS },
];

export const FAULTS: readonly Fault[] = GROUPS.flatMap((g) => g.faults);

export function faultOf(name: string): Fault {
  const fault = FAULTS.find((f) => f.name === name);
  if (fault === undefined) throw new RangeError(`no fault named ${name}`);
  return fault;
}
