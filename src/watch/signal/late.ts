/**
 * Do the readings come late? A line that is full, or a radio in its way, hands them on one by one and more and more behind the
 * time: each looks new, and shows what was. The device says when it sampled; against its arrival that shows.
 */

/** Plain data. */
export interface Late {
  /** Least that arrival lay behind sampling, both as the run clock has them, s; null: no reading yet. */
  leastS: number | null;
  /** Arrival of the newest reading, s. */
  atS: number;
  /** By how much it came later than the quickest, s. */
  lateS: number;
}

/** A device's clock may be so slow against the tablet's: a cheap resonator is off by half a percent (common practice, no source). */
const DRIFT = 0.01;

export const createLate = (): Late => ({ leastS: null, atS: 0, lateS: 0 });

/** @param tS when it was sampled, by the device's clock, s on the run clock @param arrivalS s on the run clock */
export function lateReading(l: Late, tS: number, arrivalS: number): void {
  const behind = arrivalS - tS;
  l.leastS = l.leastS === null ? behind : Math.min(behind, l.leastS + DRIFT * (arrivalS - l.atS));
  l.atS = arrivalS;
  l.lateS = behind - l.leastS;
}

/** Later than this is told, and it is over under half of it, s: a fill of 0.1 bar/s has gone on by 0.15 bar. */
export const LATE_S = 1.5;
