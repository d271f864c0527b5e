import type { ChannelSetup } from '../job/setup.ts';

/**
 * Counts → electrical signal → indicated value, and the bands in which a signal means something.
 *
 * Current loops after NAMUR NE 43: measuring 3.8-20.5 mA, failure under 3.6 or over 21.0 mA. Other signals get the
 * same bands in proportion to their span: of 16 mA span, 0.2 under and 0.5 over still measure, 0.4 under and 1.0
 * over are a fault. So 0.5-4.5 V of 5 V fails under 0.4 and over 4.75 V. A 0-10 V signal has no live zero: a broken
 * wire reads zero and cannot be told from no pressure.
 */
export interface SignalBands {
  readonly faultLo: number;
  readonly measureLo: number;
  readonly measureHi: number;
  readonly faultHi: number;
}

/** Shares of the span. */
const UNDER = { measure: 0.2 / 16, fault: 0.4 / 16 };
const OVER = { measure: 0.5 / 16, fault: 1 / 16 };

/** Bands in the signal's electrical unit; lo is always the lower number, also for a falling signal. */
export function signalBands(spanElLo: number, spanElHi: number): SignalBands {
  const span = spanElHi - spanElLo;
  const a = [spanElLo - UNDER.fault * span, spanElLo - UNDER.measure * span];
  const b = [spanElHi + OVER.measure * span, spanElHi + OVER.fault * span];
  const [p, q, r, s] = span >= 0 ? [...a, ...b] : [...b].reverse().concat([...a].reverse());
  return { faultLo: p as number, measureLo: q as number, measureHi: r as number, faultHi: s as number };
}

export interface Line {
  /** value = a + b · x */
  readonly a: number;
  readonly b: number;
}

/** The straight line through two points; null where they do not make one. */
function lineThrough(x0: number, y0: number, x1: number, y1: number): Line | null {
  const b = (y1 - y0) / (x1 - x0);
  const a = y0 - b * x0;
  return Number.isFinite(a) && Number.isFinite(b) && b !== 0 ? { a, b } : null;
}

/** Counts → electrical unit of the signal (µA, ppm of the supply, µV, Pa or m°C, nV). */
export const electrical = (ch: ChannelSetup): Line | null =>
  lineThrough(ch.rawLo, ch.elLo, ch.rawHi, ch.elHi);

/** Electrical unit → bar, °C or V with the nominal scale. */
export const nominal = (ch: ChannelSetup): Line | null =>
  lineThrough(ch.spanElLo, ch.rangeLo, ch.spanElHi, ch.rangeHi);

/** Codes that the converter can really tell apart, in counts: one, or more where the counts are finer than it is. */
export function countsAStep(ch: ChannelSetup): number {
  return Math.max(1, Math.abs(ch.rawHi - ch.rawLo) / 2 ** ch.bits);
}
