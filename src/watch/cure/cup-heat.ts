import type { CupCourse } from './cup-course.ts';

/**
 * The greatest output of heat of a cup. A lumped cup follows m·c·dT/dt = heat − UA·(T − Ta), so that dT/dt + T/τ, τ = m·c/UA, is the
 * heat but for a constant: the air's temperature need not be known to find where it is greatest.
 */
export interface CupHeat {
  /** The sheet's time at the cup's temperature at the greatest output so far (1 = all of it). */
  readonly age: number;
  /** It has passed: the output has fallen since. */
  readonly passed: boolean;
}

/** Slopes are taken over so many stretches to either side. */
const HALF = 4;
/** The greatest has passed once the output has fallen by this share of its rise. */
const FALLEN = 0.3;
/** Its place is the middle of what lies over this share of its rise. */
const TOP = 0.9;
/** Less rise of the cup than this may be warm air, and no peak could be read off it, K. */
export const LEAST_RISE_K = 6;
/** Time constant of 200 g in a thin vessel in still air (common practice, no source), s: as the cube root of the mass. */
const TAU_S = 2200;
const TAU_G = 200;

const tauOf = (massG: number | null): number => TAU_S * Math.cbrt((massG ?? TAU_G) / TAU_G);

/** By how much a cup has warmed over the coldest that it was before, K. */
export function riseOf(course: CupCourse): number {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (const c of course.means) {
    least = Math.min(least, c);
    most = Math.max(most, c - least);
  }
  return most;
}

/** Output of heat by the stretches' middles, K/s but for a constant; the first and last HALF have none. */
function outputs({ means, lengthS }: CupCourse, tauS: number): number[] {
  let norm = 0;
  for (let j = -HALF; j <= HALF; j++) norm += j * j;
  const out: number[] = [];
  for (let i = HALF; i + HALF < means.length; i++) {
    let slope = 0;
    let sum = 0;
    for (let j = -HALF; j <= HALF; j++) {
      slope += j * means[i + j]!;
      sum += means[i + j]!;
    }
    out.push(slope / (norm * lengthS) + sum / ((2 * HALF + 1) * tauS));
  }
  return out;
}

/**
 * null: the cup has warmed too little to say.
 * @param minutesAt the sheet's time at a temperature, °C
 */
export function greatestHeat(
  course: CupCourse,
  massG: number | null,
  minutesAt: (c: number) => number,
): CupHeat | null {
  if (riseOf(course) < LEAST_RISE_K) return null;
  const tauS = tauOf(massG);
  const q = outputs(course, tauS);
  if (q.length === 0) return null;
  let hottest = 0;
  for (let i = 1; i < q.length; i++) if (q[i]! > q[hottest]!) hottest = i;
  let cool = hottest;
  for (let i = 0; i < hottest; i++) if (q[i]! < q[cool]!) cool = i;
  // A cup that is at its hottest from the first on has no cold stretch before it; what it comes to afterwards is the air, too.
  const base = hottest < HALF ? Math.min(...q) : q[cool]!;
  // What the heat would be at one temperature.
  const v = q.map((x, i) => (i < cool ? 0 : Math.max(0, x - base) * minutesAt(course.means[i + HALF]!)));
  let top = hottest;
  for (let i = cool; i < v.length; i++) if (v[i]! > v[top]!) top = i;
  const passed = (q[hottest]! - base) * tauS > LEAST_RISE_K && v.at(-1)! < (1 - FALLEN) * v[top]!;
  const edge = TOP * v[top]!;
  let from = top;
  let to = top;
  while (from > 0 && v[from - 1]! >= edge) from--;
  while (to + 1 < v.length && v[to + 1]! >= edge) to++;
  // While it has not passed, the middle so far only comes before what it will be: noise moves the top about on a plateau, and a
  // usual batch that was at the late end of it for a moment was called slow.
  return { age: ageAt(course.ages, (from + to) / 2 + HALF), passed };
}

/** Ages are of the stretches' ends: the middle of one is half way from the one before. */
function ageAt(ages: readonly number[], at: number): number {
  const i = Math.floor(at);
  const middle = (j: number) => ((ages[j - 1] ?? 0) + ages[j]!) / 2;
  return middle(i) + (at - i) * (middle(Math.min(i + 1, ages.length - 1)) - middle(i));
}
