/** The pressure scale that trace and ladder share: how far it goes, its numerals and its rungs. */

/** With rated known the scale ends here, times rated: the stop stands at 82 % of its height. */
const ABOVE_RATED = 1.22;
/** From one step to the next, where a reading is over the end. */
const STEP = 1.4;
/** Ends of the scale where no limit is set, bar. */
const OPEN_ENDS = [1, 2, 3, 4, 6, 10, 16, 25];
/** A reading may come this near to the end, share of the scale, before it takes the next step. */
const ROOM = 0.96;

/**
 * End of the scale, bar. It grows in steps, and only when a reading is over it: the scale never creeps.
 * @param ratedBar null where no limit is set
 * @param highestBar highest reading that must be seen
 * @param before end of the scale so far in this stage, bar: it never shrinks within a stage
 */
export function scaleEnd(ratedBar: number | null, highestBar: number, before = 0): number {
  const fits = (end: number) => highestBar <= end * ROOM;
  if (ratedBar === null) {
    const end = OPEN_ENDS.find(fits) ?? Math.ceil(highestBar / ROOM);
    return Math.max(end, before);
  }
  let end = Math.max(ratedBar * ABOVE_RATED, before);
  while (!fits(end)) end *= STEP;
  return end;
}

export interface Steps {
  /** Between numerals, in the unit shown. */
  readonly numeral: number;
  /** Between rungs, in the unit shown. */
  readonly rung: number;
  /** Digits of the numerals after the decimal mark. */
  readonly digits: number;
}

/**
 * Steps in the unit that is shown: about five numerals over the scale, with four or five rungs to each.
 * @param end of the scale in that unit
 */
export function stepsOf(end: number): Steps {
  const wanted = end / 5.2;
  const power = 10 ** Math.floor(Math.log10(wanted) + 1e-9);
  const m = [1, 2, 5, 10].find((k) => k * power >= wanted - 1e-9) ?? 10;
  const numeral = m * power;
  const digits = Math.max(0, -Math.floor(Math.log10(numeral) + 1e-9));
  return { numeral, rung: numeral / (m === 2 ? 4 : 5), digits };
}

/** Whole multiples of a step within the scale: `from` included, the end not. */
export function multiples(step: number, end: number, from = 0): number[] {
  const out: number[] = [];
  for (let i = from; i * step < end - step * 1e-6; i++) out.push(i * step);
  return out;
}
