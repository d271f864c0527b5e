/**
 * Fills in closed rules for the guard's tests: one restriction after ISO 6358 into a vessel of constant temperature, with a
 * hand, a regulator, a limp packer, a hose and a sensor. Made at 1 kHz and read at each rate, so that one fill is the same fill at
 * 10, 50 and 200 Hz. It shares no code with the estimators.
 */

import { noise } from '../../../estimate/testing/random.ts';
import { DEFAULT_REACTION } from '../../../job/reaction.ts';
import { PLATE_LIMITS } from '../../../job/testing/givens.ts';
import { readingOf } from '../../../sensing/testing/readings.ts';
import type { GuardContext, GuardState, GuardVerdict } from '../guard.ts';
import { createGuard, guardReading, guardVerdict } from '../guard.ts';

export const CTX: GuardContext = {
  limits: PLATE_LIMITS,
  tap: 'packer',
  line: 'unknown',
  reaction: DEFAULT_REACTION,
  stage: 'inflate',
  ventOpen: false,
};

const AIR = 1.01325;
/** Critical ratio of the made-up line. */
const B = 0.3;
const STEP_S = 0.001;

/** Gives the valve's opening, 0..1, after `dt` seconds: from what it was, the time and the packer's pressure. */
type Hand = (open: number, t: number, p: number, dt: number) => number;

export interface Fill {
  readonly seconds: number;
  readonly fromBar?: number;
  /** Slope of the choked flow as a share of the supply a second, wide open. */
  readonly k: number;
  /** Gauge pressure of the supply at t seconds, the packer at p bar. */
  readonly supply: (t: number, p: number) => number;
  /** Makes the hand at the valve of one playing; wide open where nothing is said. */
  readonly hand?: () => Hand;
  /** The packer is limp up to here: its slope is that share of what it is later. */
  readonly limp?: { readonly toBar: number; readonly share: number };
  /** Seconds of slope by which the reading lies over the packer while air flows (a tap before a hose). */
  readonly dropS?: number;
  readonly sd?: number;
  readonly stepBar?: number;
  /** Every so many readings one is a spike; none where nothing is said. */
  readonly spikeEvery?: number;
  readonly ctx?: Partial<GuardContext>;
}

/** True pressures of the packer, bar, STEP_S apart, and the slopes. */
function truth(fill: Fill): { readonly p: Float64Array; readonly rate: Float64Array } {
  const n = Math.round(fill.seconds / STEP_S) + 1;
  const p = new Float64Array(n);
  const rate = new Float64Array(n);
  let bar = fill.fromBar ?? 0;
  const move = fill.hand?.() ?? null;
  let open = move === null ? 1 : 0;
  for (let i = 0; i < n; i++) {
    const t = i * STEP_S;
    if (move !== null) open = Math.max(0, Math.min(1, move(open, t, bar, STEP_S)));
    const p1 = fill.supply(t, bar) + AIR;
    const u = ((bar + AIR) / p1 - B) / (1 - B);
    let slope = open * fill.k * p1 * (u <= 0 ? 1 : u >= 1 ? 0 : Math.sqrt(1 - u * u));
    if (fill.limp !== undefined && bar < fill.limp.toBar) slope *= fill.limp.share;
    p[i] = bar;
    rate[i] = slope;
    bar += slope * STEP_S;
  }
  return { p, rate };
}

/** A hand that takes `closeS` to shut the valve once the pressure has passed each of the targets, and then waits. */
export function stopsAt(targets: readonly number[], pauseS: number, closeS: number): Hand {
  let next = 0;
  let shutting = false;
  let openAt = 0;
  return (open, t, p, dt) => {
    if (shutting) {
      const now = open - dt / closeS;
      if (now > 0) return now;
      shutting = false;
      openAt = t + pauseS;
      return 0;
    }
    if (next < targets.length && p >= targets[next]!) {
      next++;
      shutting = true;
      return open;
    }
    // The valve takes 0.3 s to open.
    return next < targets.length && t >= openAt ? open + dt / 0.3 : open;
  };
}

export interface Played {
  readonly state: GuardState;
  readonly ctx: GuardContext;
  /** Readings and what the guard said at each. */
  readonly bars: readonly number[];
  readonly verdicts: readonly GuardVerdict[];
  /** True packer pressure at each reading. */
  readonly truth: readonly number[];
}

/** Plays a fill into a guard. */
export function play(fill: Fill, hz: number, seed = 11): Played {
  const { p, rate } = truth(fill);
  const stepBar = fill.stepBar ?? 0.0015;
  const ctx: GuardContext = { ...CTX, ...fill.ctx };
  const next = noise(seed);
  const state = createGuard();
  const bars: number[] = [];
  const verdicts: GuardVerdict[] = [];
  const seen: number[] = [];
  for (let i = 0; i <= fill.seconds * hz; i++) {
    const at = Math.round(i / hz / STEP_S);
    let bar = p[at]! + (fill.dropS ?? 0) * rate[at]! + (fill.sd ?? 0.0012) * next();
    if (fill.spikeEvery !== undefined && i % fill.spikeEvery === fill.spikeEvery - 1) bar += 0.7;
    bar = Math.round(bar / stepBar) * stepBar;
    guardReading(
      state,
      readingOf(i / hz, bar, { tUs: Math.round((i * 1e6) / hz), seq: i, uBar: 0.015, stepBar }),
      ctx,
    );
    bars.push(bar);
    verdicts.push(guardVerdict(state, ctx));
    seen.push(p[at]!);
  }
  return { state, ctx, bars, verdicts, truth: seen };
}

/** First reading at which it is so, or null. */
export function firstAt<T>(list: readonly T[], is: (x: T) => boolean): number | null {
  const i = list.findIndex(is);
  return i < 0 ? null : i;
}

/** The fills whose alarm times are kept to the reading: see ../golden-fills.test.ts. */
export const FILLS: Readonly<Record<string, Fill>> = {
  // A regulator set 0.25 bar too high.
  settle: { seconds: 80, fromBar: 0.3, k: 0.018, supply: () => 1.75 },
  // The same with a limp packer, spikes and noise of a cheap sensor.
  'settle-noisy': {
    seconds: 80,
    k: 0.02,
    supply: () => 1.8,
    limp: { toBar: 0.25, share: 0.25 },
    sd: 0.005,
    spikeEvery: 71,
  },
  // An open supply that nobody shuts.
  'left-band': { seconds: 18, fromBar: 0.3, k: 0.012, supply: () => 6 },
  'left-band-quick': { seconds: 5, fromBar: 0.1, k: 0.055, supply: () => 6, sd: 0.003 },
  'left-band-coarse': { seconds: 60, fromBar: 0.4, k: 0.003, supply: () => 6, sd: 0.0004, stepBar: 0.006 },
  // Rated pressure alone.
  'hand-time': {
    seconds: 40,
    fromBar: 0.6,
    k: 0.0045,
    supply: () => 6,
    ctx: { limits: { ...PLATE_LIMITS, workingBar: PLATE_LIMITS.ceilingBar, cue: false } },
  },
  // A regulator at the working pressure whose seat leaks from the 40th second on.
  creep: { seconds: 75, fromBar: 0.3, k: 0.035, supply: (t) => 1.2 + 0.012 * Math.max(0, t - 40) },
  'creep-from-lock-up': {
    seconds: 60,
    fromBar: 0.3,
    k: 0.03,
    supply: (t, p) => (p > 1.15 || t > 30 ? 1.21 + 0.009 * Math.max(0, t - 27) : 1.21),
  },
  // Air that comes in while the packer is let down.
  'let-down': { seconds: 12, fromBar: 0.9, k: 0.01, supply: () => 6, ctx: { stage: 'let-down' } },
  // A hose that is blown open: no sample lies between the working pressure and the ceiling.
  ceiling: { seconds: 2, fromBar: 0.9, k: 2, supply: (t) => (t < 1 ? 0.9 : 6) },
  // Up to the ceiling while the line slows down: the last moment.
  'last-moment': { seconds: 4, fromBar: 0.75, k: 0.2, supply: () => 1.7, sd: 0.003 },
  // By hand in steps, with a limp packer; no alarm.
  hand: {
    seconds: 45,
    k: 0.014,
    supply: () => 5.5,
    limp: { toBar: 0.22, share: 0.3 },
    hand: () => stopsAt([0.5, 0.9, 1.19], 4, 0.45),
  },
  // The same before a hose: the reading falls by its drop at each stop.
  'hand-hose': {
    seconds: 45,
    k: 0.014,
    supply: () => 5.5,
    limp: { toBar: 0.22, share: 0.3 },
    dropS: 0.6,
    hand: () => stopsAt([0.5, 0.9, 1.15], 4, 0.45),
    ctx: { tap: 'hose' },
  },
  // Too fast for any hand, shut all the same.
  'too-fast': {
    seconds: 12,
    k: 0.06,
    supply: () => 6,
    limp: { toBar: 0.2, share: 0.3 },
    hand: () => stopsAt([1.17], 9, 0.2),
  },
  // A top-up that is stopped as soon as it has begun.
  'short-stroke': {
    seconds: 16,
    k: 0.05,
    supply: () => 5.5,
    hand: () => stopsAt([0.95, 1.15], 3, 0.3),
    sd: 0.003,
  },
};

export const RATES = [10, 50, 200] as const;
