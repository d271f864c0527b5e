import type { AirTestReason } from '../../watch/codes.ts';

/** Pressing again changes nothing: the sheet or the sensor has to. */
export const isUntestable = (reason: AirTestReason | null): boolean =>
  reason === 'no-plan' || reason === 'sensor-too-coarse' || reason === 'over-plugs';
