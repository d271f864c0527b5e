/**
 * The guard: warns before the rated pressure is reached. Two tiers. The cue counts down to the working pressure on
 * every fill: help, not an alarm. The urgent verdicts are for what will not stop by itself or by a normal hand: the
 * fit is sure that the line settles above the ceiling; the pressure has left the working band upwards without
 * slowing; the ceiling is nearer than a hand's time. And at the ceiling always, on the median of three readings.
 */

import { fittedRate } from '../../estimate/subsonic.ts';
import { FLAG, type Reading } from '../../sensing/reading.ts';
import type { AlarmValues, Bounded } from '../events.ts';
import type { GuardView } from '../view.ts';
import { followForecast, followRest, followSlowing, handTime, leftBand, reachS } from './band.ts';
import { clearRow, rowPush, rowTrim } from './blocks.ts';
import { cleanPush, cleanRestart, coarseStep, lastMedian, sampleSd } from './clean.ts';
import { measureMotion, SHORT_MOST, SHORT_S } from './motion.ts';
import { LONG_S, longBlock, meanSd } from './settle.ts';
import { createGuardState, type GuardContext, type GuardState, type RisingKind } from './state.ts';

export type { GuardContext, GuardState } from './state.ts';

export interface GuardVerdict {
  /** Median of three at or over the ceiling, no on-delay. */
  readonly ceiling: { readonly bar: number } | null;
  readonly rising: { readonly kind: RisingKind; readonly values: AlarmValues } | null;
  /** Close in, s. */
  readonly cue: Bounded | null;
  /** Free-inflation pressure at the limp-to-stiff knee, bar; once a fill. */
  readonly knee: Bounded | null;
  /** No flow: the reading is the packer's. */
  readonly still: boolean;
  readonly view: GuardView;
}

export function createGuard(): GuardState {
  return createGuardState();
}

/** After a gap or a device reset: forgets the stretch, keeps what is known of the sensor and of the hand. */
export function guardReset(s: GuardState): void {
  cleanRestart(s.clean);
  clearRow(s.short);
  clearRow(s.long);
  s.from = 0;
  s.lastS = null;
  s.motion = null;
  s.before.length = 0;
  s.belief = null;
  s.recent = null;
  s.forecasts.length = 0;
  s.rested = null;
  s.slowSince = null;
  s.overSince = null;
  s.agreeSettle = 0;
  s.agreeBand = 0;
  s.rising = null;
  s.stillSince = null;
  s.fastest = 0;
  s.slowFromS = null;
  s.cue = null;
}

/** A gap longer than this many sample periods (and half a second) breaks the stretch by itself. */
const GAP_PERIODS = 6;

export function guardReading(s: GuardState, reading: Reading, ctx: GuardContext): void {
  const bar = reading.bar;
  if (bar === null || (reading.flags & FLAG.held) !== 0) return;
  const t = reading.tS;
  if (s.lastS !== null) {
    const dt = t - s.lastS;
    if (dt <= 0) return;
    if (dt > Math.max(0.5, GAP_PERIODS * s.clean.period) && s.clean.period > 0) guardReset(s);
  }
  s.lastS = t;
  s.lastBar = bar;
  s.stepBar = reading.stepBar;
  s.uBar = reading.uBar;
  const sample = cleanPush(s.clean, t, bar, reading.stepBar);
  if (sample === null) return;
  const period = s.clean.period;
  const long = rowPush(s.long, sample.t, sample.bar, LONG_S, period);
  if (rowPush(s.short, sample.t, sample.bar, SHORT_S, period)) {
    rowTrim(s.short, SHORT_MOST);
    const sd = meanSd(s);
    s.motion = measureMotion(s.short, sd, coarseStep(s.clean, s.stepBar), s.before);
    followSlowing(s);
    followStop(s);
    stillness(s, ctx);
    followRest(s, ctx);
  }
  if (long) {
    longBlock(s, ctx.limits);
    followForecast(s);
  }
  decide(s, ctx, long);
}

/** Evaluations in a row that must agree before the alarm, and chi-squares that they need. */
const AGREE_SETTLE = 2;
const UNDER_EXCESS = 14;
const OPEN_EXCESS = 8;
/** A slope this many of its standard deviations strong needs no second reading to agree. */
const CLEAR = 8;
const LEAST_STRETCH_S = 1.6;
/** What settles has slowed to this share of its first slope: less decline is the heat's, or the receiver's. */
const DECLINED = 0.78;
/** Rise still forecast, in rises of the stretch that it is forecast from. */
const MOST_REACH = 1.5;

function decide(s: GuardState, ctx: GuardContext, long: boolean): void {
  const limits = ctx.limits;
  const level = lastMedian(s.clean);
  const m = s.motion;
  const quiet =
    limits === null ||
    level === null ||
    m === null ||
    ctx.ventOpen ||
    ctx.stage === 'let-down' ||
    ctx.stage === 'done';
  if (quiet) {
    s.rising = null;
    s.cue = null;
    s.agreeSettle = 0;
    s.agreeBand = 0;
    return;
  }
  const b = s.belief;
  if (long) {
    const stretch = s.long.t.length > s.from ? s.long.t[s.long.t.length - 1]! - s.long.t[s.from]! : 0;
    const sure =
      b !== null &&
      // No further than the stretch itself carries: a long reach makes small errors of the model into large ones.
      b.bar - level <= MOST_REACH * (level - s.long.p[s.from]!) &&
      stretch >= LEAST_STRETCH_S &&
      fittedRate(b.fit, b.atS) < DECLINED * fittedRate(b.fit, b.fit.t0) &&
      b.reduced < 3 &&
      b.bar > limits.ceilingBar &&
      b.low > limits.ceilingBar &&
      b.underExcess > UNDER_EXCESS &&
      b.openExcess > OPEN_EXCESS;
    s.agreeSettle = sure ? s.agreeSettle + 1 : 0;
  }
  // The median of three is a sample old; a rise that is not slowing has gone on since.
  const now = level + 0.7 * Math.max(0, m.rate - m.sd) * Math.min(0.15, s.clean.period);
  const inBand = leftBand(s, ctx, now);
  const inHand = inBand === null ? handTime(s, ctx, now) : null;
  s.agreeBand = inBand !== null || inHand !== null ? s.agreeBand + 1 : 0;
  if (s.agreeSettle >= AGREE_SETTLE && b !== null) {
    s.rising = {
      kind: 'settle',
      values: {
        bar: level,
        ceilingBar: limits.ceilingBar,
        settleBar: b.bar,
        settleLowBar: b.low,
        settleHighBar: b.high,
        kind: 'settle',
      },
    };
  } else if (s.agreeBand >= 2 || (s.agreeBand === 1 && m.rate > CLEAR * m.sd)) {
    const inS = inBand ?? inHand ?? 0;
    const kind: RisingKind =
      inBand !== null && inS >= ctx.reaction.handS
        ? 'left-band'
        : inHand !== null
          ? 'hand-time'
          : 'left-band';
    const lo = (limits.ceilingBar - level) / (m.rate + 2 * m.sd);
    const hi = m.rate > 2 * m.sd ? (limits.ceilingBar - level) / (m.rate - 2 * m.sd) : 10 * inS;
    s.rising = {
      kind,
      values: {
        bar: level,
        ceilingBar: limits.ceilingBar,
        inS: Math.max(0, inS),
        inLowS: Math.max(0, lo),
        inHighS: Math.max(0, hi),
        kind,
      },
    };
  } else if (s.rising !== null && release(s, ctx, level)) s.rising = null;
  if (long) s.cue = cueOf(s, ctx);
}

/** A raised verdict stays while air still comes in: it goes when the rise has ended or turned. */
function release(s: GuardState, ctx: GuardContext, level: number): boolean {
  const m = s.motion;
  if (m === null) return true;
  const ceiling = ctx.limits?.ceilingBar ?? Number.POSITIVE_INFINITY;
  if (s.stillSince !== null && m.rate < 0.001) return true;
  if (m.rate < -0.003) return true;
  const b = s.belief;
  return level < ceiling && b !== null && b.high < ceiling - 0.01 && b.reduced < 2 && b.openExcess > 16;
}

/** Follows a rise to its end; a quick end is a hand's stop and teaches its reach. */
function followStop(s: GuardState): void {
  const m = s.motion;
  if (m === null) return;
  if (m.rate > s.fastest || (m.rate > 0.8 * s.fastest && m.rate > 0.01)) {
    s.fastest = Math.max(m.rate, 0.98 * s.fastest);
    s.slowFromS = null;
  } else if (s.fastest > 0.012 && s.slowFromS === null && m.rate < 0.75 * s.fastest) {
    s.slowFromS = m.midS;
    s.slowFromBar = m.bar;
  }
  if (s.slowFromS !== null && m.rate < 0.06 * s.fastest) {
    const took = m.atS - s.slowFromS;
    if (took < 2.5) {
      s.stops.push({ reachS: Math.max(0, (s.lastBar - s.slowFromBar) / s.fastest), atS: m.atS });
      if (s.stops.length > 4) s.stops.shift();
    }
    s.fastest = 0;
    s.slowFromS = null;
  }
  if (s.slowFromS !== null && m.atS - s.slowFromS > 4) {
    s.fastest = Math.max(0, m.rate);
    s.slowFromS = null;
  }
}

/** After a stop about a second must pass without a rise before the reading is the packer's. */
const STILL_S = 1;

function stillness(s: GuardState, ctx: GuardContext): void {
  const m = s.motion;
  if (m === null || ctx.ventOpen) {
    s.stillSince = null;
    return;
  }
  // Cooling after a quick fill lets the pressure fall without any flow; a vent or a blown hose is much faster.
  const calm = m.rate < 0.002 + m.sd && m.rate > -0.015 - m.sd;
  if (!calm) s.stillSince = null;
  else if (s.stillSince === null) s.stillSince = m.atS;
}

function cueOf(s: GuardState, ctx: GuardContext): Bounded | null {
  const limits = ctx.limits;
  const m = s.motion;
  if (limits === null || !limits.cue || m === null || m.rate - 2 * m.sd < 0.002) return null;
  const b = s.belief;
  const now = s.lastS ?? m.atS;
  const level = m.bar + m.rate * (now - m.midS);
  const target = limits.workingBar - m.rate * (0.6 * reachS(s, ctx));
  if (level > limits.workingBar || (b !== null && b.high < limits.workingBar)) return null;
  const value = Math.max(0, (target - level) / m.rate);
  const slack = 2 * (m.sd / m.rate) * value + 0.15;
  if (value > 60) return null;
  return { value, low: Math.max(0, value - slack), high: value + slack + 0.1 * value };
}

export function guardVerdict(s: GuardState, ctx: GuardContext): GuardVerdict {
  const limits = ctx.limits;
  const level = lastMedian(s.clean);
  const m = s.motion;
  const b = s.belief;
  const over = limits !== null && level !== null && level >= limits.ceilingBar;
  const still = s.stillSince !== null && m !== null && m.atS - s.stillSince >= STILL_S;
  const shown = b !== null && b.reduced < 3 && b.high - b.low < 0.25 * Math.max(0.4, b.bar);
  const sd = sampleSd(s.clean, s.stepBar);
  return {
    ceiling: over ? { bar: level } : null,
    rising: s.rising,
    cue: s.cue,
    knee: s.knee,
    still,
    view: {
      restBar: still && level !== null ? { value: level, low: level - 2 * sd, high: level + 2 * sd } : null,
      rateBarPerS: m === null ? null : m.rate,
      settleBar: shown ? { value: b.bar, low: b.low, high: b.high } : null,
      ceilingInS: null,
      closeInS: s.cue,
    },
  };
}
