import type { CupMark } from '../../job/setup.ts';
import type { Bounded } from '../events.ts';
import { type CupSeen, isLittle, isTooQuick, scatterOf } from './cup-judge.ts';

/**
 * What a cup's word changes in the count: this batch's own time. It is told as the logarithm of the times the usual time that the batch
 * takes, with its standard deviation, and moves all bounds of the progress by the sheet.
 */
export interface Batch {
  /** Middle, natural logarithm; over zero: slower than the sheet has it. */
  readonly log: number;
  /** One standard deviation of it; 0: as the sheet has it, nothing is known. */
  readonly sd: number;
  /** Its greatest heat was seen; else the batch is at least so slow. */
  readonly seen: boolean;
}
export const AS_THE_SHEET: Batch = { log: 0, sd: 0, seen: false };

/** Batches scatter by this about the sheet's times: one cup moves that belief and does not replace it (1 s). */
const PRIOR = 0.15;
/**
 * Of the bound that waits: at 1.3 two of a hundred batches at 1.15 times the usual time were early (docs/validation.md). It is taken together
 * with what the bound by the sheet holds back, in quadrature (GUM): the cup's errors and the probe's have nothing to do with each other.
 */
const K_WAITS = 2;
/** The bound that waits believes a quick batch so far (10 %) and no further: a draught over the cup looks like heat that has passed. */
const QUICKEST_LOG = -0.1;
/** What is shown as the hopeful end. */
const K_SHOWN = 2;
/** Of a resin that nothing is known of: its greatest heat came before this share of the sheet's time in every resin that was looked at. */
const LATEST_SHARE = 0.8;
const UNKNOWN_SD = 0.2;

/**
 * A batch by its cup. Until the greatest heat was seen it is as slow as what has passed without it: the end of its range is open, and to
 * go by the sheet meanwhile made three of four early that took twice the time.
 */
export function batchOf(seen: CupSeen, mark: CupMark | null): Batch {
  const { age, heat, doubt } = seen;
  if (doubt !== null) return AS_THE_SHEET;
  if (mark === null)
    return heat?.passed ? AS_THE_SHEET : soFar((heat?.age ?? age) / LATEST_SHARE, UNKNOWN_SD);
  if (heat?.passed) {
    const times = heat.age / mark.age;
    return isTooQuick(times) ? AS_THE_SHEET : { log: Math.log(times), sd: scatterOf(seen, mark), seen: true };
  }
  return isLittle(seen, mark) ? AS_THE_SHEET : soFar((heat?.age ?? age) / mark.age, scatterOf(seen, mark));
}

const soFar = (times: number, sd: number): Batch =>
  times > 1 ? { log: Math.log(times), sd, seen: false } : AS_THE_SHEET;

/** Progress of this batch from that by the sheet. */
export function ofBatch({ value, low, high }: Bounded, { log, sd, seen }: Batch): Bounded {
  if (sd === 0 || !(low > 0)) return { value, low: sd === 0 ? low : 0, high };
  const weight = PRIOR ** 2 / (PRIOR ** 2 + sd ** 2);
  // A slow one is believed as it is told: the prior would shorten the wait.
  const own = Math.sqrt(weight) * sd;
  const middle = weight * log;
  const waits = log > 0 ? log : Math.max(middle, QUICKEST_LOG);
  const back = Math.hypot(Math.log(value / low), K_WAITS * sd);
  const ahead = Math.hypot(Math.log(high / value), K_SHOWN * own);
  return {
    value: value * Math.exp(-middle),
    low: value * Math.exp(-waits - back),
    // What is not seen yet may be as the sheet has it: the cup may be none.
    high: seen ? value * Math.exp(ahead - middle) : high,
  };
}
