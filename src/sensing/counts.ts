import type { SensingState } from './state.ts';

export interface ChannelCounts {
  readonly channel: number;
  readonly counts: number;
}

/**
 * The largest raw count at which the pressure channel reads no more than `bar` (gauge), by everything that makes the
 * reading: scale, calibration, air pressure and the zero that was taken; a ratiometric channel at its nominal
 * supply. For a limit that a device keeps in counts. null where there is no such count: no usable channel, or one
 * whose counts fall as the pressure rises.
 */
export function countsAt(state: SensingState, bar: number): ChannelCounts | null {
  const { pressure } = state;
  const plan = pressure === null ? null : state.plans[pressure];
  if (pressure === null || !plan) return null;
  const open = bar + (state.zero?.offsetBar ?? 0);
  const el = ((open - plan.shift - plan.offset) / plan.gain - plan.value.a) / plan.value.b;
  const rising = plan.el.b * plan.value.b * plan.gain > 0;
  // A hair over, so that a count which is the limit to the last bit is not missed.
  const counts = Math.floor((el - plan.el.a) / plan.el.b + 1e-6);
  return rising && Math.abs(counts) <= 0x7fff_ffff ? { channel: pressure, counts } : null;
}
