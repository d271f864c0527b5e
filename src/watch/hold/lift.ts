import type { Line, ResinSetup, Setup, Tap } from '../../job/setup.ts';
import type { Reading } from '../../sensing/reading.ts';
import type { HoldView } from '../view.ts';

/**
 * Forecast of the lift by warmth: the cure's heat warms the air shut into the packer. Only on lines where it
 * can happen (closed, or supplied through a regulator that does not relieve), and only from a rise that the
 * resin's entry gives: nothing is said where it is not known.
 */
export interface LiftState {
  /** Pressure and (where a probe sits in the air) gas temperature when the hold began. */
  startBar: number | null;
  startAirC: number | null;
  lastBar: number;
  lastAirC: number | null;
  topUps: number;
}

export interface LiftContext {
  readonly tap: Tap;
  readonly line: Line;
  readonly air: Setup['air'];
  readonly resin: ResinSetup | null;
  readonly groundC: number | null;
  readonly ceilingBar: number | null;
  readonly floorBar: number | null;
  /** Rise of the pressure now, bar/s, where it is sure; null elsewhere. */
  readonly risingBarPerS: number | null;
}

export type LiftForecast = NonNullable<HoldView['lift']>;

/** The typed rise is an expectation: half of it to one and a half times it is credible (common practice). */
const SPREAD = 0.5;
/** Advice keeps this much under the ceiling and over the floor, bar. */
const MARGIN_BAR = 0.05;

export function createLift(): LiftState {
  return { startBar: null, startAirC: null, lastBar: 0, lastAirC: null, topUps: 0 };
}

export function liftReading(s: LiftState, reading: Reading, bar: number): void {
  s.lastBar = bar;
  for (const temp of reading.temps)
    if (temp.place === 'air' && temp.c !== null) {
      s.lastAirC = temp.c;
      s.startAirC ??= temp.c;
    }
  s.startBar ??= bar;
}

/** Air was let in or out: the amount shut in is another one, and the warmth so far is in the new pressure. */
export function liftRestart(s: LiftState): void {
  s.startBar = null;
  s.topUps++;
}

/** Peak pressure to come with its interval, when the ceiling is reached, and how far to let out. */
export function liftForecast(s: LiftState, ctx: LiftContext): LiftForecast | null {
  if (ctx.tap === 'supply' || ctx.tap === 'unknown') return null;
  if (ctx.line !== 'closed' && ctx.line !== 'supplied-nonrelieving') return null;
  const rise = ctx.resin?.expectedRiseK ?? null;
  if (rise === null || s.startBar === null || ctx.ceilingBar === null) return null;
  const startC = s.startAirC ?? ctx.groundC ?? 10;
  const kelvin = startC + 273.15;
  const now = s.lastBar + ctx.air.bar;
  // What has come already, by the probe or by the pressure itself, is not to come again.
  const come =
    s.lastAirC !== null && s.startAirC !== null
      ? s.lastAirC - s.startAirC
      : Math.max(0, (s.lastBar - s.startBar) / (s.startBar + ctx.air.bar)) * kelvin;
  const peak = (k: number) => now * (1 + Math.max(0, k - come) / (kelvin + come)) - ctx.air.bar;
  const value = peak(rise);
  const high = peak(rise * (1 + SPREAD));
  const low = Math.max(s.lastBar, peak(rise * (1 - SPREAD)));
  return {
    peakBar: { value, low, high },
    ceilingInS: ceilingIn(s, ctx, high),
    ...advice(s, ctx, high),
  };
}

function ceilingIn(s: LiftState, ctx: LiftContext, high: number): LiftForecast['ceilingInS'] {
  const rate = ctx.risingBarPerS;
  if (rate === null || !(rate > 0) || ctx.ceilingBar === null || high < ctx.ceilingBar) return null;
  const value = Math.max(0, (ctx.ceilingBar - s.lastBar) / rate);
  // The exotherm speeds up before it slows down: twice as fast is credible, half as fast as well.
  return { value, low: value / 2, high: value * 2 };
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
