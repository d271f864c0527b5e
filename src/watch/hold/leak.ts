import { ar1Inflation, lag1 } from '../../estimate/ar1.ts';
import { fitLine } from '../../estimate/line.ts';
import type { Line, ResinSetup, Setup, Tap } from '../../job/setup.ts';
import { leakPaM3 } from '../../physics/gas.ts';
import type { Reading } from '../../sensing/reading.ts';
import type { CannotTellReason, LeakFigure } from '../events.ts';
import { boundedTo, rate1, round } from '../round.ts';
import type { Blocks } from './blocks.ts';
import { blocksAdd, createBlocks } from './blocks.ts';

/**
 * Leak of one closed segment: regression of ln(p_abs / T) on time, by block means whose correlation widens the
 * interval. Three verdicts; where the gas temperature is not measured, its possible trend is part of the
 * interval, because 2 mbar/min at 1.5 bar(g) is the same as 0.23 K/min of the gas.
 */
export interface LeakState {
  /** ln(p_abs in bar) */
  pressure: Blocks;
  /** Gas temperature by the probe in the packer's air, K; empty without one. */
  gas: Blocks;
  fromS: number | null;
  toS: number;
  lastBar: number;
  lastAirC: number | null;
}

/** What the figure depends on besides the readings. */
export interface LeakContext {
  readonly tap: Tap;
  readonly line: Line;
  readonly air: Setup['air'];
  readonly volume: Setup['volume'];
  readonly exotherm: ResinSetup['exotherm'];
  /** When the fill (or the last top-up) ended, s; null: the packer has not come to rest yet. */
  readonly filledS: number | null;
}

export const NO_LEAK: LeakFigure = {
  verdict: 'cannot-tell',
  mbarPerMin: null,
  low: null,
  high: null,
  paM3PerS: null,
  reason: 'too-short',
};

/** 'Leaking' is said only when the 99.9 % lower bound is over this, mbar/min. */
export const LEAK_MBAR_MIN = 0.5;
/** 'Tight' is said when the 95 % upper bound is under this, mbar/min. */
export const TIGHT_MBAR_MIN = 2;
/** The heat of a fast fill and the rubber's creep look like a leak for this long (about 5-10 K fading), s. */
const SETTLING_S = 180;
const LEAST_S = 180;
/**
 * Possible trend of the gas temperature, K/min, 95 %. With a probe in the air: how well its trend is known. Without
 * one: what the cure's heat may do, by the resin's exotherm (common practice), and the heat of the fill, 10 K
 * fading with a time constant of 4 min.
 */
const TREND_PROBE = 0.05;
const TREND_CURE = { low: 0.15, medium: 0.4, high: 0.8, unknown: 0.8 } as const;
/** The gas cannot have cooled or warmed by more than this in all, K: an hour bounds a trend better than a minute. */
const TOTAL_K = { low: 10, medium: 20, high: 30, unknown: 30 } as const;
const FADE_K = 10;
const FADE_MIN = 4;
const Z95 = 1.96;
const Z999 = 3.29;

export function createLeak(): LeakState {
  return {
    pressure: createBlocks(2),
    gas: createBlocks(2),
    fromS: null,
    toS: 0,
    lastBar: 0,
    lastAirC: null,
  };
}

/** Takes a reading of the closed segment. Only usable pressures are given. */
export function leakReading(s: LeakState, reading: Reading, bar: number, ctx: LeakContext): void {
  const abs = bar + ctx.air.bar;
  if (!(abs > 0) || ctx.filledS === null || reading.tS - ctx.filledS < SETTLING_S) return;
  s.fromS ??= reading.tS;
  s.toS = reading.tS;
  s.lastBar = bar;
  blocksAdd(s.pressure, reading.tS, Math.log(abs));
  for (const temp of reading.temps) {
    if (temp.place !== 'air' || temp.c === null) continue;
    s.lastAirC = temp.c;
    blocksAdd(s.gas, reading.tS, temp.c + 273.15);
  }
}

function cannot(reason: CannotTellReason): LeakFigure {
  return { ...NO_LEAK, reason };
}

/** Slope per minute and its standard error under correlated noise. */
function slopePerMin(b: Blocks): { slope: number; se: number } | null {
  const fit = fitLine(b.t, b.y);
  if (fit === null || fit.n < 10) return null;
  const residuals = b.t.map((t, i) => b.y[i]! - fit.meanY - fit.slope * (t - fit.meanX));
  return { slope: fit.slope * 60, se: fit.sdSlope * Math.sqrt(ar1Inflation(lag1(residuals))) * 60 };
}

/** The verdict as it stands. Nothing is claimed for a tap or a line that cannot show it. */
export function leakFigure(s: LeakState, ctx: LeakContext): LeakFigure {
  if (ctx.tap === 'supply' || ctx.tap === 'unknown') return cannot('tap');
  if (ctx.line === 'supplied-relieving' || ctx.line === 'supplied-nonrelieving')
    return { ...NO_LEAK, verdict: 'cannot-be-seen', reason: 'line' };
  if (s.fromS === null || ctx.filledS === null) return cannot('settling');
  const span = s.toS - s.fromS;
  const p = slopePerMin(s.pressure);
  if (p === null || span < LEAST_S) return cannot('too-short');
  const kelvin = (s.lastAirC ?? 10) + 273.15;
  const g = s.gas.t.length >= 10 ? slopePerMin(s.gas) : null;
  const trend =
    g !== null ? TREND_PROBE : blindTrend(ctx, (s.fromS + span / 2 - ctx.filledS) / 60, span / 60);
  const gasSlope = g === null ? 0 : g.slope / kelvin;
  const gasSe = Math.hypot(trend / Z95, g?.se ?? 0) / kelvin;
  // d ln(p/T)/dt = d ln n/dt for a rigid volume; positive is out.
  const scale = (s.lastBar + ctx.air.bar) * 1000;
  const rate = -(p.slope - gasSlope) * scale;
  const se = Math.hypot(p.se, gasSe) * scale;
  const low = rate - Z95 * se;
  const high = rate + Z95 * se;
  const rounded = boundedTo({ value: rate, low, high }, 1);
  const figure = {
    mbarPerMin: rate1(rate),
    low: rounded.low,
    high: rounded.high,
    paM3PerS: conductance(rate, se, ctx),
  };
  if (rate - Z999 * se > LEAK_MBAR_MIN) return { verdict: 'leaking', ...figure, reason: null };
  // On a line that is not known a regulator may be making up for a leak: falling can be seen, tight cannot.
  if (ctx.line === 'unknown') return { verdict: 'cannot-tell', ...figure, reason: 'line' };
  if (high < TIGHT_MBAR_MIN) return { verdict: 'tight', ...figure, reason: null };
  return { verdict: 'cannot-tell', ...figure, reason: g === null ? 'temperature-trend' : 'settling' };
}

/** Trend of the gas temperature that nobody measured, K/min: at a mean time after the fill, over a span, min. */
function blindTrend(ctx: LeakContext, sinceMin: number, spanMin: number): number {
  const cure = Math.min(TREND_CURE[ctx.exotherm], TOTAL_K[ctx.exotherm] / spanMin);
  return cure + (FADE_K / FADE_MIN) * Math.exp(-sinceMin / FADE_MIN);
}

/** V · dp/dt in Pa·m³/s with 95 % bounds from rate and volume; null where the volume is not known. */
function conductance(rate: number, se: number, ctx: LeakContext): LeakFigure['paM3PerS'] {
  if (ctx.volume === null) return null;
  const { litres, uLitres } = ctx.volume;
  const value = leakPaM3(rate / 1000, litres);
  const u = Math.hypot(leakPaM3((Z95 * se) / 1000, litres), leakPaM3(rate / 1000, uLitres));
  return { value: round(value, 4), low: round(value - u, 4), high: round(value + u, 4) };
}
