import type { SecondPressure } from './codes.ts';
import type { GaugeKind, Setup } from './setup.ts';

/** Standard atmosphere in bar: what a sealed-gauge sensor has behind its diaphragm, and what air is assumed to be. */
const ATMOSPHERE_BAR = 1.01325;

/** What is to be added to a sensor's own value to give gauge pressure, bar. */
export function gaugeShiftBar(kind: GaugeKind | null, setup: Pick<Setup, 'air'> | null): number {
  const air = setup?.air.bar ?? ATMOSPHERE_BAR;
  if (kind === 'absolute') return -air;
  return kind === 'sealed' ? ATMOSPHERE_BAR - air : 0;
}

/** Gauge pressure at the upper end of a pressure sensor's span, bar; null where the Setup names no such channel. */
export function spanEndBar(
  setup: Setup | null,
  role: 'pressure' | SecondPressure = 'pressure',
): number | null {
  const channel = setup?.channels.find((c) => c.role === role) ?? null;
  return channel === null ? null : channel.rangeHi + gaugeShiftBar(channel.gaugeKind, setup);
}

/** Where the pressure's sensor ends, bar: the furthest of those that were read in the run; null: not known. */
export function sensorEndBar(
  setups: readonly Setup[],
  role: 'pressure' | SecondPressure = 'pressure',
): number | null {
  const ends = setups.map((setup) => spanEndBar(setup, role)).filter((bar) => bar !== null);
  return ends.length === 0 ? null : Math.max(...ends);
}
