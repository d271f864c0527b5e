/** What a source that does not speak the device protocol lacks; a leaf, for whoever says so. */
import type { MapKind } from '../../job/reading-map.ts';

/** In the order of their weight. */
export const LACKS = [
  'check', // nothing tells a disturbed line from a sound one
  'clock', // its readings carry no time of their own: this computer's stands for it
  'guard', // it keeps no limit by itself
  'button', // nothing on it acknowledges
] as const;
export type Lack = (typeof LACKS)[number];

export const LACKS_OF: { readonly [K in MapKind]: readonly Lack[] } = {
  registers: ['clock', 'guard', 'button'],
  columns: LACKS,
};

/** Beside a device with the pressure nobody looks for a guard or a button at the thermometer. */
export const LACKS_BESIDE: { readonly [K in MapKind]: readonly Lack[] } = {
  registers: ['clock'],
  columns: ['check', 'clock'],
};
