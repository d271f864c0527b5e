/** The dial gauge on the line: the second opinion on the one transducer, with an uncertainty of its own. */

/** Accuracy classes after EN 837-1: limits of error in per cent of the span (value from memory). */
export const GAUGE_CLASSES = [0.6, 1, 1.6, 2.5, 4] as const;
export type GaugeClass = (typeof GAUGE_CLASSES)[number];

export interface DialGauge {
  /** End of the scale, bar. */
  readonly spanBar: number;
  readonly class: GaugeClass;
}

/** A dial is read to a two-hundredth of its span: a fifth of a division of forty (common practice, no source). */
const READ = 1 / 200;

/**
 * Expanded uncertainty (k = 2) of a dial gauge as it is read, bar: limits of error and of reading, both rectangular
 * after the GUM, so 2/√3 of their root sum of squares.
 */
export function dialGaugeU(gauge: DialGauge): number {
  const u = (2 / Math.sqrt(3)) * gauge.spanBar * Math.hypot(gauge.class / 100, READ);
  return Math.round(u * 1000) / 1000;
}

/** Where the crew's gauge is not known: class 1.6 of 4 bar (common practice, no source). */
export const USUAL_GAUGE: DialGauge = { spanBar: 4, class: 1.6 };
export const USUAL_GAUGE_U_BAR = dialGaugeU(USUAL_GAUGE);
