import type { ChannelSetup } from './setup.ts';

/**
 * A transducer reads a little more or less as it warms: its sheet gives a share of the span a kelvin, zero and span
 * together. Where nobody stated it, 0.035 % is taken: compensated industrial transducers have 0.02-0.05 % (common
 * practice, no source).
 */
export const TYPICAL_PER_K = 3.5e-4;
/** Span where no channel is known, bar: one that is too wide for most packers. */
const UNKNOWN_SPAN_BAR = 10;

/** What a kelvin of the sensor's own warmth moves its reading by, bar. null: nothing is known of the sensor. */
export function warmthBarPerK(
  ch: Pick<ChannelSetup, 'rangeLo' | 'rangeHi' | 'perKelvin'> | null | undefined,
): number {
  if (ch === null || ch === undefined) return TYPICAL_PER_K * UNKNOWN_SPAN_BAR;
  return (ch.perKelvin ?? TYPICAL_PER_K) * Math.abs(ch.rangeHi - ch.rangeLo);
}
