/**
 * What a probe in a cup of mixed resin has read since mixing: means over equal stretches, which double whenever there are
 * too many, so that a quick and a slow resin are both seen in 64 to 128 of them. Plain data.
 */
export interface CupCourse {
  /** Length of a stretch, s. */
  lengthS: number;
  /** Mean temperature of each, °C, and the sheet's time at the cup's temperature that had passed at its end (1 = all of it). */
  means: number[];
  ages: number[];
  /** Of the stretch under way. */
  sum: number;
  seconds: number;
}

const SHORTEST_S = 10;
const MOST = 128;

export const createCourse = (): CupCourse => ({
  lengthS: SHORTEST_S,
  means: [],
  ages: [],
  sum: 0,
  seconds: 0,
});

/**
 * Goes on by `seconds` at `c` °C to the age `age`.
 * @returns a stretch was ended
 */
export function courseOn(s: CupCourse, seconds: number, c: number, age: number): boolean {
  s.sum += c * seconds;
  s.seconds += seconds;
  if (s.seconds < s.lengthS) return false;
  s.means.push(s.sum / s.seconds);
  s.ages.push(age);
  s.sum = 0;
  s.seconds = 0;
  if (s.means.length < MOST) return true;
  const half = MOST / 2;
  s.means = Array.from({ length: half }, (_, i) => (s.means[2 * i]! + s.means[2 * i + 1]!) / 2);
  s.ages = Array.from({ length: half }, (_, i) => s.ages[2 * i + 1]!);
  s.lengthS *= 2;
  return true;
}
