import type { Line, ResinSetup, Setup, Tap } from '../../job/setup.ts';
import { liftByWarmth, riseBetween } from '../../physics/gas.ts';
import type { Reading } from '../../sensing/reading.ts';
import type { Warmth } from '../cure/warmth.ts';
import type { Bounded } from '../events.ts';
import type { HoldView } from '../view.ts';
import type { Rise } from './rise.ts';

/**
 * Forecast of the lift by warmth: the cure's heat warms the air shut into the packer. Only on lines where it can
 * happen (closed, or supplied through a regulator that does not relieve). Two sources, the best that is there: the rise
 * that the resin's entry gives, and the rise that is seen now, carried on. Nothing is said where neither speaks. The
 * cure's own forecast of its warmth says how near the ceiling a rise may come before it is told of.
 */
export interface LiftState {
  /** Pressure when the present amount of air was shut in. */
  startBar: number | null;
  /**
   * Where a probe sits in the air: the gas at its coolest in the hold and at its warmest since, °C, each with the pressure then.
   * The fill leaves the gas warm: the rise is counted from where that has faded to.
   */
  coolest: GasState | null;
  warmest: GasState | null;
  /** The lowest pressure of this amount of air, and the sleeve's temperature then: gas and sleeve are alike there. */
  low: { readonly bar: number; readonly sleeveC: number } | null;
  /** The exotherm has been seen to come and go. */
  over: boolean;
  lastBar: number;
  lastAirC: number | null;
  topUps: number;
}

interface GasState {
  readonly c: number;
  /** null: it was another amount of air. */
  readonly bar: number | null;
}

export interface LiftContext {
  readonly tap: Tap;
  readonly line: Line;
  readonly air: Setup['air'];
  /** There may be liquid water in the line: its vapour lifts besides. */
  readonly wet: boolean;
  readonly resin: ResinSetup | null;
  readonly groundC: number | null;
  readonly ceilingBar: number | null;
  readonly floorBar: number | null;
  /** When the ceiling is reached if the rise goes on as it is seen now; null: no rise is sure. */
  readonly exit: HoldView['bandExit'];
  /** Rise of the pressure now; null: none is seen. */
  readonly rising: Rise | null;
}

export type LiftForecast = NonNullable<HoldView['lift']>;

/** The typed rise is an expectation: half of it to one and a half times it is credible (common practice). */
const SPREAD = 0.5;
const ZERO_C = 273.15;
/** Advice keeps this much under the ceiling and over the floor, bar. */
const MARGIN_BAR = 0.05;

export function createLift(): LiftState {
  return {
    startBar: null,
    coolest: null,
    warmest: null,
    low: null,
    over: false,
    lastBar: 0,
    lastAirC: null,
    topUps: 0,
  };
}

export function liftReading(s: LiftState, reading: Reading, bar: number): void {
  s.lastBar = bar;
  for (const temp of reading.temps) {
    if (temp.c === null) continue;
    if (temp.place === 'air') {
      s.lastAirC = temp.c;
      airReading(s, temp.c, bar);
    } else if (temp.place === 'sleeve' && (s.low === null || bar < s.low.bar))
      s.low = { bar, sleeveC: temp.c };
  }
  s.startBar ??= bar;
}

function airReading(s: LiftState, c: number, bar: number): void {
  if (s.coolest === null || c < s.coolest.c) s.warmest = s.coolest = { c, bar };
  if (s.warmest === null || c > s.warmest.c) s.warmest = { c, bar };
}

/** Air was let in or out: the amount shut in is another one, and the warmth so far is in the new pressure. */
export function liftRestart(s: LiftState): void {
  s.startBar = null;
  s.low = null;
  // The pressures of another amount of air prove nothing about this one.
  if (s.coolest !== null) s.coolest = { c: s.coolest.c, bar: null };
  if (s.warmest !== null) s.warmest = { c: s.warmest.c, bar: null };
  s.topUps++;
}

/** A rise that is seen speaks where it would reach the ceiling within this, s; it is carried on for so long. */
const NEAR_S = 900;
const CARRY_S = 600;
const REST_LOW = 0.25;
const REST_HIGH = 4;

/** Peak pressure to come with its interval, when the ceiling is reached, and how far to let out. */
export function liftForecast(s: LiftState, ctx: LiftContext): LiftForecast | null {
  if (ctx.tap === 'supply' || ctx.tap === 'unknown') return null;
  if (ctx.line !== 'closed' && ctx.line !== 'supplied-nonrelieving') return null;
  if (s.startBar === null || ctx.ceilingBar === null) return null;
  const peakBar = both(byEntry(s, ctx), bySight(s, ctx), ctx.ceilingBar);
  if (peakBar === null) return null;
  return {
    peakBar,
    ceilingInS: ceilingIn(ctx, peakBar.high),
    ...advice(s, ctx, peakBar.high),
  };
}

/**
 * What is seen and what the sheet foretells do not contradict each other within either's bounds: both of them count. A rise
 * on its way over the ceiling is not talked away by a sheet that ends under it.
 */
function both(foretold: Bounded | null, seen: Bounded | null, ceilingBar: number): Bounded | null {
  if (foretold === null || seen === null) return foretold ?? seen;
  return {
    value: foretold.high <= ceilingBar ? seen.value : (foretold.value + seen.value) / 2,
    low: Math.min(foretold.low, seen.low),
    high: Math.max(foretold.high, seen.high),
  };
}

/** The gas law from now on: kelvins still to come over the gas temperature now. */
function lifted(s: LiftState, ctx: Pick<LiftContext, 'air' | 'wet'>, toCome: number, kelvin: number): number {
  const rise = Math.max(0, toCome);
  return s.lastBar + liftByWarmth(s.lastBar + ctx.air.bar, kelvin - ZERO_C, rise, ctx.wet);
}

/**
 * Whether the rise ends under the ceiling by the cure's own forecast: its likely sketch, all of whose warmth reaches the
 * gas. No word of it makes a warning or takes one away; it says how long a warning may wait. null: it cannot say.
 */
export function endsUnder(
  s: LiftState,
  ctx: Pick<LiftContext, 'air' | 'wet' | 'ceilingBar'>,
  warmth: Warmth | null,
): boolean | null {
  if (warmth === null || ctx.ceilingBar === null || s.startBar === null) return null;
  const gasC = gasNow(s, ctx);
  if (gasC === null) return null;
  const kelvin = gasC + ZERO_C;
  return lifted(s, ctx, warmth.peakC.value - gasC, kelvin) < ctx.ceilingBar;
}

/** The gas's temperature by its probe, or by the sleeve's at the lowest pressure and the gas law since; null: not known. */
function gasNow(s: LiftState, ctx: Pick<LiftContext, 'air' | 'wet'>): number | null {
  if (s.lastAirC !== null) return s.lastAirC;
  if (s.low === null) return null;
  const { bar, sleeveC } = s.low;
  return sleeveC + riseBetween(bar + ctx.air.bar, s.lastBar + ctx.air.bar, sleeveC, ctx.wet);
}

function byEntry(s: LiftState, ctx: LiftContext): Bounded | null {
  const rise = ctx.resin?.expectedRiseK ?? null;
  s.over = hasPassed(s, ctx, rise);
  if (rise === null || s.startBar === null || s.over) return null;
  const kelvin = (s.coolest?.c ?? ctx.groundC ?? 10) + ZERO_C;
  // What has come already, by the probe or by the pressure itself, is not to come again.
  const come =
    s.lastAirC !== null && s.coolest !== null
      ? s.lastAirC - s.coolest.c
      : Math.max(0, riseBetween(s.startBar + ctx.air.bar, s.lastBar + ctx.air.bar, kelvin - ZERO_C, ctx.wet));
  const peak = (k: number) => lifted(s, ctx, k - come, kelvin + come);
  return {
    value: peak(rise),
    low: Math.max(s.lastBar, peak(rise * (1 - SPREAD))),
    high: peak(rise * (1 + SPREAD)),
  };
}

/**
 * The exotherm has come and gone when the gas has risen by the least credible rise and a quarter of that rise is gone
 * again: what the sheet says is not to come a second time. The pressure must tell the same by the gas law, by half of
 * it at least: a probe may be shorted or lie in the sun.
 */
function hasPassed(s: LiftState, ctx: LiftContext, rise: number | null): boolean {
  if (s.over) return true;
  const { coolest, warmest } = s;
  if (rise === null || s.lastAirC === null || coolest === null || warmest === null) return false;
  if (coolest.bar === null || warmest.bar === null) return false;
  const up = warmest.c - coolest.c;
  const gone = warmest.c - s.lastAirC;
  if (up < rise * (1 - SPREAD) || gone < Math.max(1, 0.25 * up)) return false;
  const barPerK = (coolest.bar + ctx.air.bar) / (coolest.c + ZERO_C);
  const says = (bar: number, kelvin: number) => bar >= 0.5 * barPerK * kelvin;
  return says(warmest.bar - coolest.bar, up) && says(warmest.bar - s.lastBar, gone);
}

/**
 * Only where the rise that is seen would reach the ceiling within NEAR_S. How much more comes is told by no pressure:
 * an exotherm that speeds up may be at its turn or at its beginning. On simulated holds (tuning seeds) the rest of the
 * rise was 0.24 to 3.5 times (5 % to 95 %) what rate and gain make in ten minutes.
 */
function bySight(s: LiftState, ctx: LiftContext): Bounded | null {
  const { exit, rising, ceilingBar } = ctx;
  if (exit === null || exit.direction !== 'up' || rising === null || ceilingBar === null) return null;
  if (exit.inS.value > NEAR_S) return null;
  const rest = Math.max(0, rising.rate.value * CARRY_S + (Math.max(0, rising.gain) * CARRY_S * CARRY_S) / 2);
  return {
    value: s.lastBar + rest,
    low: s.lastBar + REST_LOW * rest,
    high: Math.max(ceilingBar, s.lastBar + REST_HIGH * rest),
  };
}

/** By the rise that is seen. */
function ceilingIn(ctx: LiftContext, high: number): LiftForecast['ceilingInS'] {
  if (ctx.ceilingBar === null || high < ctx.ceilingBar) return null;
  if (ctx.exit !== null && ctx.exit.direction === 'up') {
    const { value, low, high: late } = ctx.exit.inS;
    // The exotherm speeds up before it slows down: twice as fast is credible, half as fast as well.
    return { value, low: Math.min(low, value / 2), high: Math.max(late, value * 2) };
  }
  return null;
}

/** "Let out to 1.35, not under 0.90": only where the peak may pass the ceiling. */
function advice(
  s: LiftState,
  ctx: LiftContext,
  high: number,
): { adviceHighBar: number | null; adviceLowBar: number | null } {
  if (ctx.ceilingBar === null || high <= ctx.ceilingBar) return { adviceHighBar: null, adviceLowBar: null };
  const factor = (high + ctx.air.bar) / (s.lastBar + ctx.air.bar);
  const to = (ctx.ceilingBar - MARGIN_BAR + ctx.air.bar) / factor - ctx.air.bar;
  const floor = ctx.floorBar === null ? null : ctx.floorBar + MARGIN_BAR;
  return { adviceHighBar: floor === null ? to : Math.max(to, floor), adviceLowBar: floor };
}
