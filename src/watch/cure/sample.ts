import type { SampleDoubt } from '../codes.ts';
import type { WatchEvent } from '../events.ts';
import { round } from '../round.ts';
import { type CureState, ofBatch } from './cure.ts';

/**
 * The witness sample as a measurement. Kept at pipe temperature it has the sleeve's own course: hard at an age by the data sheet, the
 * batch takes that at the most; not hard, that at the least. One finger's word moves a bound and replaces none: hard shortens no wait.
 */

/** Hard though even the hopeful count is under this: it was kept warmer, or is of another resin. */
const EARLY = 0.5;
/** Not hard though even the cautious count is over this: a slow batch, or a sample that was kept colder. */
const LATE = 1.25;

function doubtOf(s: CureState, hard: boolean): SampleDoubt | null {
  const { low, high } = ofBatch(s);
  if (hard) return high < EARLY ? 'hard-early' : null;
  return low > LATE ? 'soft-late' : null;
}

/** Takes what was felt. A contradiction with the count is told; the count goes on by the sample where that says to wait. */
export function cureSample(
  s: CureState,
  hard: boolean,
  tUs: number,
  emit: (event: WatchEvent) => void,
): void {
  if (s.fit === null) return;
  const doubt = doubtOf(s, hard);
  if (doubt !== null) emit({ tUs, e: 'sample', doubt, age: round(s.progress, 3) });
  s.feltHard = hard;
  if (hard) {
    s.softAge = 0;
    return;
  }
  s.softAge = Math.max(s.softAge, s.progress);
  // What was said to be reached is not, by what the finger felt: it is told again once it is.
  if (s.metUs !== null && ofBatch(s).low < 1) s.metUs = null;
}
