import type { InPipe } from '../job/codes.ts';
import type { Place } from '../job/setup.ts';

/** Noise and standstill of a channel's counts. Plain data. */
export interface CountWatch {
  /** Last count, and the change to it from the one before; null before there are any. */
  last: number | null;
  step: number | null;
  /** Smoothed share of samples that turn back by two converter steps or more: noise wider than a step. */
  turning: number;
  /** Largest recent value of `turning`, forgotten slowly. */
  proof: number;
  /** Equal counts in a row, and when the first of them came, s. */
  same: number;
  sinceS: number;
  /** Longest such row that a change has ended, and counts seen in all (at most those that are asked for). */
  longest: number;
  seen: number;
  /** Mean square of the noise, counts², from second differences. */
  noise: number;
}

export const createCountWatch = (): CountWatch => ({
  last: null,
  step: null,
  turning: 0,
  proof: 0,
  same: 0,
  sinceS: 0,
  longest: 0,
  seen: 0,
  noise: 0,
});

const SMOOTH = 1 / 200;
const FORGET = 1 - 1 / 5000;
/** A channel whose noise turns back by two steps in one sample of a hundred never shows a hundred equal counts. */
const PROOF = 0.01;
const SAME_COUNTS = 100;
const SAME_S = 2;
/**
 * At ten counts a second a hundred are ten seconds, in which a hand fills a bar. A channel whose counts have been followed for so long
 * has shown how many equal ones its noise gives in a row: of so many times that number its own noise is no cause (white noise about the
 * edge of a count that then lies in its middle: once in 10⁸ counts).
 */
const FOLLOWED = 600;
const TIMES_LONGEST = 6;
const LEAST_SAME = 40;
const NOISE_SMOOTH = 1 / 64;

/**
 * Takes a new count; returns whether the channel is stuck. A quiet converter may rightly give the same count for
 * minutes, so this holds only where noise wider than a step was seen before. A ramp is no noise: it never turns back.
 */
export function watchCount(w: CountWatch, count: number, tS: number, stepCounts: number): boolean {
  const last = w.last;
  if (last === null) {
    w.last = count;
    w.same = 1;
    w.sinceS = tS;
    return false;
  }
  if (w.seen < FOLLOWED) w.seen++;
  const step = count - last;
  if (w.step !== null) {
    const second = step - w.step;
    // A spike must not look like noise for the next minute.
    const most = Math.max(25 * w.noise, 6 * stepCounts * stepCounts);
    w.noise += NOISE_SMOOTH * (Math.min((second * second) / 6, most) - w.noise);
  }
  if (step === 0) {
    w.same++;
    w.step = 0;
  } else {
    const turns = w.step !== null && step * w.step < 0 && Math.abs(step) >= 2 * stepCounts;
    w.turning += SMOOTH * ((turns ? 1 : 0) - w.turning);
    w.proof = Math.max(w.turning, w.proof * FORGET);
    w.longest = Math.max(w.longest, w.same);
    w.same = 1;
    w.sinceS = tS;
    w.step = step;
    w.last = count;
  }
  return w.proof >= PROOF && w.same >= leastSame(w) && tS - w.sinceS >= SAME_S;
}

function leastSame({ seen, longest }: CountWatch): number {
  if (seen < FOLLOWED) return SAME_COUNTS;
  return Math.min(SAME_COUNTS, Math.max(LEAST_SAME, TIMES_LONGEST * longest));
}

/**
 * Most that a reading may change between two conversions dt seconds apart. A hose tap on a short thin hose follows a
 * valve quickly, a burst hose falls at once: only what no line does is flagged (common practice, no source).
 */
export function tooFast(changeBar: number, dtS: number): boolean {
  return changeBar > 0 ? changeBar > 0.1 + 15 * dtS : -changeBar > 0.3 + 60 * dtS;
}

/** A bare thermocouple in water follows at some 20 K/s. */
export function tooFastK(changeK: number, dtS: number): boolean {
  return Math.abs(changeK) > 2 + 40 * dtS;
}

export interface PlacedTemperature {
  readonly place: Place | null;
  readonly c: number | null;
  readonly uC: number;
}

/** K beyond the combined uncertainty that two probes of one place may differ. */
const SAME_PLACE_K = 2;
/** Colder than everything round it, or hotter outside than anything inside, by this much is no physics. */
const AGAINST_PHYSICS_K = 8;

/**
 * Which of the temperatures contradict another place (by index). Heat comes from the resin and goes outwards; nothing
 * in the pipe cools below its surroundings. `ground` is the planned ground temperature with its expanded uncertainty.
 */
export function disagreeing(
  temps: readonly PlacedTemperature[],
  ground: { readonly c: number; readonly uC: number } | null,
): number {
  let bad = 0;
  for (let i = 0; i < temps.length; i++) {
    const a = temps[i] as PlacedTemperature;
    if (a.c === null || !isInPipe(a.place)) continue;
    let lowest = ground === null ? Number.POSITIVE_INFINITY : ground.c - ground.uC;
    let hottestInside = Number.NEGATIVE_INFINITY;
    let others = ground === null ? 0 : 1;
    for (let j = 0; j < temps.length; j++) {
      const b = temps[j] as PlacedTemperature;
      if (j === i || b.c === null || !isInPipe(b.place)) continue;
      others++;
      if (b.place === a.place) {
        if (Math.abs(a.c - b.c) > Math.hypot(a.uC, b.uC) + SAME_PLACE_K) bad |= (1 << i) | (1 << j);
        continue;
      }
      lowest = Math.min(lowest, b.c - b.uC);
      if (DEPTH[b.place] < DEPTH[a.place]) hottestInside = Math.max(hottestInside, b.c + b.uC);
    }
    if (others === 0) continue;
    if (a.place === 'sleeve' && a.c + a.uC < lowest - AGAINST_PHYSICS_K) bad |= 1 << i;
    if (Number.isFinite(hottestInside) && a.c - a.uC > hottestInside + AGAINST_PHYSICS_K) {
      const plannedHot = ground === null ? Number.NEGATIVE_INFINITY : ground.c + ground.uC;
      if (a.c - a.uC > plannedHot + AGAINST_PHYSICS_K) bad |= 1 << i;
    }
    if (a.place === 'ground' && ground !== null) {
      if (Math.abs(a.c - ground.c) > a.uC + ground.uC + AGAINST_PHYSICS_K) bad |= 1 << i;
    }
  }
  return bad;
}

/** A cup stands outside: what it reads says nothing of the pipe. */
const isInPipe = (place: Place | null): place is InPipe => place !== null && place !== 'cup';

/** Order from the heat outwards: the sleeve makes it, pipe and ground take it. The air may lag either way. */
const DEPTH: { readonly [P in InPipe]: number } = { sleeve: 0, air: 0, pipe: 1, ground: 2 };
