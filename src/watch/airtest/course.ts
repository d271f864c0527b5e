/** The course of an air test: means of a second each, of pressure and of the air's temperature. Plain data. */

export interface Course {
  /** Middle of each second, s on the clock of the readings; ascending. */
  readonly t: number[];
  /** bar */
  readonly p: number[];
  /** Air between the plugs, °C; null: nothing was read of it in that second. */
  readonly c: (number | null)[];
  /** The second that is being filled. */
  second: number;
  n: number;
  sum: number;
  nC: number;
  sumC: number;
}

export const createCourse = (): Course => ({
  t: [],
  p: [],
  c: [],
  second: Number.NEGATIVE_INFINITY,
  n: 0,
  sum: 0,
  nC: 0,
  sumC: 0,
});

/** Takes a level; true where a second became whole by it. */
export function courseAdd(k: Course, tS: number, bar: number, c: number | null): boolean {
  const second = Math.floor(tS);
  const whole = second > k.second && k.n > 0;
  if (whole) {
    k.t.push(k.second + 0.5);
    k.p.push(k.sum / k.n);
    k.c.push(k.nC === 0 ? null : k.sumC / k.nC);
  }
  if (second > k.second) {
    k.second = second;
    k.n = 0;
    k.sum = 0;
    k.nC = 0;
    k.sumC = 0;
  }
  k.n++;
  k.sum += bar;
  if (c !== null) {
    k.nC++;
    k.sumC += c;
  }
  return whole;
}

/** A level is the mean of so many seconds about its time, s. */
export const LEVEL_S = 4;

export interface Level {
  readonly bar: number;
  readonly c: number | null;
}

/** The level at a time; null: nothing was read about it. */
export function levelAt({ t, p, c }: Course, atS: number): Level | null {
  let n = 0;
  let bar = 0;
  let nC = 0;
  let sumC = 0;
  for (let i = t.length - 1; i >= 0 && t[i]! >= atS - LEVEL_S / 2; i--) {
    if (t[i]! > atS + LEVEL_S / 2) continue;
    n++;
    bar += p[i]!;
    const temp = c[i]!;
    if (temp === null) continue;
    nC++;
    sumC += temp;
  }
  return n === 0 ? null : { bar: bar / n, c: nC === 0 ? null : sumC / nC };
}

/** Fewer levels than this have no scatter that is known. */
const LEAST_LEVELS = 6;

/**
 * Standard deviation of a level from a time on, bar: of means of four seconds each about their parabola, so that neither a steady
 * nor a fading fall counts as noise and a sensor's slow wander does. null: too few yet.
 */
export function levelSd({ t, p }: Course, fromS: number): number | null {
  const y: number[] = [];
  const first = t.findIndex((s) => s >= fromS);
  if (first < 0) return null;
  for (let i = first; i + LEVEL_S <= t.length; i += LEVEL_S)
    y.push((p[i]! + p[i + 1]! + p[i + 2]! + p[i + 3]!) / LEVEL_S);
  const n = y.length;
  if (n < LEAST_LEVELS) return null;
  // Orthogonal about the middle: constant, line, parabola.
  const x = y.map((_, i) => i - (n - 1) / 2);
  const xx = x.reduce((s, v) => s + v * v, 0);
  const q = x.map((v) => v * v - xx / n);
  const qq = q.reduce((s, v) => s + v * v, 0);
  const mean = y.reduce((s, v) => s + v, 0) / n;
  const b = y.reduce((s, v, i) => s + v * x[i]!, 0) / xx;
  const a = y.reduce((s, v, i) => s + v * q[i]!, 0) / qq;
  const rest = y.reduce((s, v, i) => s + (v - mean - b * x[i]! - a * q[i]!) ** 2, 0);
  return Math.sqrt(rest / (n - 3));
}
