import type { Bounded } from '../events.ts';
import type { Cup } from './cup.ts';
import type { CupSaid } from './cup-judge.ts';

/**
 * What a cup's word changes in the count: factors on the progress by the data sheet, 1 where it changes nothing. The middle takes the
 * sheet's own times as the middle of batches that scatter by this, which one cup moves and does not replace.
 */
const PRIOR = 0.15;
/** To count a batch as quicker than the sheet takes this many standard deviations off what the cup says. */
const K_QUICK = 2;
export const AS_THE_SHEET: Bounded = { value: 1, low: 1, high: 1 };

const factor = (log: number): number => Math.exp(-log);

/**
 * The bound that waits. A batch that is slower by up to one standard deviation is as the sheet has it; from three on all of it is believed
 * and one more; straight between them.
 */
const waits = (log: number, sd: number): number => Math.min(log + sd, 2 * Math.max(0, log - sd));

export function speedOf({ times }: CupSaid): Bounded {
  if (times === null) return AS_THE_SHEET;
  const { least, value, most } = times;
  if (value === null || most === null) {
    // It warms and is not at its greatest heat yet: so far it has been slow by what has passed.
    const so = 1 / least;
    return { value: so, low: so, high: 1 };
  }
  const sd = Math.log(most / least) / 4;
  const log = Math.log(value);
  const weight = PRIOR ** 2 / (PRIOR ** 2 + sd ** 2);
  const middle = weight * log;
  const own = Math.sqrt(weight) * sd;
  const low = log > 0 ? factor(waits(log, sd)) : factor(Math.min(0, middle + K_QUICK * own));
  return { value: Math.max(low, factor(middle)), low, high: factor(middle - 2 * own) };
}

/** null: the batch has no cup. */
export const cupSpeed = (cup: Cup | null): Bounded => (cup === null ? AS_THE_SHEET : speedOf(cup.said));
