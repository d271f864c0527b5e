/**
 * The guard: warns before the rated pressure is reached. Two tiers. The cue counts down to the working pressure on
 * every fill: help, not an alarm. The urgent verdicts are for what will not stop by itself or by a normal hand: the
 * fit is sure that the line settles above the ceiling; the pressure has left the working band upwards without
 * slowing; the ceiling is nearer than a hand's time. And at the ceiling always, on the median of three readings.
 */

import { fittedRate, timeToReach } from '../../estimate/subsonic.ts';
import type { Limits } from '../../job/setup.ts';
import { FLAG, type Reading } from '../../sensing/reading.ts';
import type { AlarmValues, Bounded } from '../events.ts';
import type { GuardView } from '../view.ts';
import { followForecast, followRest, handTime, leftBand } from './band.ts';
import { clearRow, rowPush, rowTrim } from './blocks.ts';
import { cleanPush, cleanRestart, coarseStep, lastMedian, sampleSd } from './clean.ts';
import { cueOf } from './cue.ts';
import { followInflow, saidDown } from './inflow.ts';
import { followKnee } from './knee.ts';
import { lastMoment } from './last-moment.ts';
import { measureMotion, SHORT_MOST, SHORT_S } from './motion.ts';
import { valveOpened } from './opened.ts';
import { AIR_BAR, LONG_S, longBlock, meanSd } from './settle.ts';
import { followSlowing, handStops } from './slowing.ts';
import { followStillness, followStop, isStill, learntDrop } from './stop.ts';
import { followTooFast } from './too-fast.ts';
import type { GuardContext, GuardState, Motion, RisingKind, SettleBelief } from './types.ts';

export { createGuard } from './state.ts';
export type { GuardContext, GuardState } from './types.ts';

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
  s.inflow = null;
  s.fastest = 0;
  s.slowFromS = null;
  s.cue = null;
  s.tooFast = null;
  s.fastSince = null;
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
    followInflow(s);
    followStillness(s, ctx);
    followRest(s, ctx);
  }
  if (long) {
    longBlock(s, ctx.limits);
    followForecast(s);
    followKnee(s, ctx);
  }
  decide(s, ctx, long);
}

/** Evaluations in a row that must agree before the alarm, and chi-squares that they need. */
const AGREE_SETTLE = 2;
const UNDER_EXCESS = 12;
const OPEN_EXCESS = 7;
/** A slope this many of its standard deviations strong needs no second reading to agree. */
const CLEAR = 8;
const LEAST_STRETCH_S = 1.6;
/** What settles has slowed to this share of its first slope: less decline is the heat's, or the receiver's. */
const DECLINED = 0.8;
/** Rise still forecast, in rises of the stretch that it is forecast from. */
const MOST_REACH = 1.5;

function decide(s: GuardState, ctx: GuardContext, long: boolean): void {
  const limits = ctx.limits;
  const level = lastMedian(s.clean);
  const m = s.motion;
  const opened = level !== null && valveOpened(s, ctx, level);
  const quiet =
    limits === null ||
    level === null ||
    m === null ||
    ctx.hoseRise === true ||
    (saidDown(s, ctx) && !opened && !openedBefore(s));
  if (quiet) {
    s.rising = null;
    s.cue = null;
    s.tooFast = null;
    s.fastSince = null;
    s.agreeSettle = 0;
    s.agreeBand = 0;
    return;
  }
  const b = s.belief;
  if (long) {
    const stretch = s.long.t.length > s.from ? s.long.t[s.long.t.length - 1]! - s.long.t[s.from]! : 0;
    const sure =
      b !== null &&
      withinReach(s, b, level) &&
      stretch >= LEAST_STRETCH_S &&
      fittedRate(b.fit, b.atS) < DECLINED * fittedRate(b.fit, b.fit.t0) &&
      b.reduced < 3 &&
      // A hand that shuts at the working pressure looks, for a moment, like a line that settles over it.
      (level < limits.workingBar - 0.02 || !handStops(s)) &&
      b.bar > limits.ceilingBar &&
      b.low > limits.ceilingBar &&
      b.underExcess > UNDER_EXCESS &&
      b.openExcess > OPEN_EXCESS;
    s.agreeSettle = sure ? s.agreeSettle + 1 : 0;
  }
  // The median of three is a sample old; a rise that is not slowing has gone on since.
  const now = level + 0.7 * Math.max(0, m.rate - m.sd) * Math.min(0.15, s.clean.period);
  const last = lastMoment(s, ctx, now);
  const inBand = leftBand(s, ctx, now) ?? (limits.cue ? last : null);
  const inHand = inBand === null ? (handTime(s, ctx, now) ?? last) : null;
  s.agreeBand = inBand !== null || inHand !== null ? s.agreeBand + 1 : 0;
  if (opened) s.rising = timed(s, limits, 'opened', level, m);
  else if (s.agreeSettle >= AGREE_SETTLE && b !== null) {
    const settle = settleRange(b, level);
    s.rising = {
      kind: 'settle',
      values: {
        bar: level,
        ceilingBar: limits.ceilingBar,
        settleBar: settle.value,
        // The fit has ruled out what lies under the ceiling: the text does not bring it back.
        settleLowBar: Math.max(settle.low, limits.ceilingBar),
        settleHighBar: settle.high,
        kind: 'settle',
      },
    };
  } else if (s.agreeBand >= 2 || (s.agreeBand === 1 && m.rate > CLEAR * m.sd)) {
    s.rising = timed(s, limits, inHand !== null ? 'hand-time' : 'left-band', level, m);
  } else if (s.rising !== null && release(s, ctx, level)) s.rising = null;
  if (ctx.doubtful === true) s.cue = null;
  else if (long) s.cue = cueOf(s, ctx);
  followTooFast(s, ctx, level);
}

/** A rise with the time to the ceiling. */
function timed(
  s: GuardState,
  limits: Limits,
  kind: RisingKind,
  level: number,
  m: Motion,
): GuardState['rising'] {
  const time = crossing(s, limits.ceilingBar, level, m);
  const values = { inS: time.value, inLowS: time.low, inHighS: time.high, kind };
  return { kind, values: { bar: level, ceilingBar: limits.ceilingBar, ...values } };
}

/** What contradicted the words goes on to do so until the rise has ended. */
const openedBefore = (s: GuardState): boolean => s.rising?.kind === 'opened';

/**
 * Interval of a settling point, bar: the fit's own, and no narrower than the share of the rise still to come by which
 * forecasts of simulated fills have been wrong (droop of regulators, heat, a packer that gives way).
 */
const REST_LOW = 0.62;
const REST_HIGH = 1.36;

function settleRange(b: SettleBelief, level: number): Bounded {
  const rest = Math.max(0, b.bar - level);
  return {
    value: b.bar,
    low: Math.min(b.low, level + REST_LOW * rest),
    high: Math.max(b.high, level + REST_HIGH * rest),
  };
}

/** Width of the fit's own interval that is shown, as a share of the settling point, and of 0.4 bar at least. */
const SHOWN_WIDTH = 0.25;

/**
 * Where the line will settle, for the screen. Only what the data carry: a straight rise has no end in it, so an open
 * supply must be ruled out, and nothing is named that lies further off than the reach of the stretch.
 */
function settleShown(s: GuardState, level: number): Bounded | null {
  const b = s.belief;
  const m = s.motion;
  if (b === null || m === null || !(m.rate > 0) || b.reduced >= 3) return null;
  if (b.high - b.low >= SHOWN_WIDTH * Math.max(0.4, b.bar) || b.openExcess <= OPEN_EXCESS) return null;
  return withinReach(s, b, level) ? settleRange(b, level) : null;
}

/** No further than the stretch itself carries: a long reach makes small errors of the model into large ones. */
function withinReach(s: GuardState, b: SettleBelief, level: number): boolean {
  return b.bar - level <= MOST_REACH * (level - s.long.p[s.from]!);
}

/** Times to a crossing were, in simulated fills, within these shares of the straight line's. */
const TIME_LOW = 0.66;
const TIME_HIGH = 1.7;

/** Seconds until the reading passes a pressure, by the slope of now; later if the bank sees it bend. */
function crossing(s: GuardState, bar: number, level: number, m: Motion): Bounded {
  const value = Math.max(0, (bar - level) / m.rate);
  const low = Math.min(TIME_LOW * value, (bar - level) / (m.rate + 2 * m.sd));
  let high = Math.max(TIME_HIGH * value + 0.3, m.rate > 2 * m.sd ? (bar - level) / (m.rate - 2 * m.sd) : 0);
  const b = s.belief;
  if (b !== null && b.reduced < 3) {
    const bent = timeToReach(b.fit, b.atS, bar + AIR_BAR);
    if (bent < 4 * value + 4) high = Math.max(high, 1.25 * bent + 0.3);
  }
  return { value, low: Math.max(0, low), high };
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

/** Longest forecast shown, s. */
const SHOWN_S = 120;

/** Seconds to the ceiling for the screen; null where it is not sure that the ceiling will be reached. */
function ceilingIn(s: GuardState, ctx: GuardContext, level: number): Bounded | null {
  const limits = ctx.limits;
  const m = s.motion;
  const b = s.belief;
  if (limits === null || m === null || m.rate - 2.5 * m.sd < 0.002 || level >= limits.ceilingBar) return null;
  const sure = s.rising !== null || (b !== null && b.reduced < 3 && b.underExcess > 9);
  if (!sure) return null;
  const time = crossing(s, limits.ceilingBar, level, m);
  return time.value > SHOWN_S ? null : time;
}

/** Where the reading at rest would be now: behind a hose it lies lower by the drop that earlier stops have shown. */
function restOf(s: GuardState, ctx: GuardContext, level: number, still: boolean): Bounded | null {
  const m = s.motion;
  const sd = sampleSd(s.clean, s.stepBar);
  if (still || ctx.tap === 'packer') return { value: level, low: level - 2 * sd, high: level + 2 * sd };
  const drop = learntDrop(s);
  if (ctx.tap !== 'hose' || drop === null || m === null || m.rate <= 0) return null;
  const value = level - drop * m.rate;
  const doubt = 2 * sd + 0.5 * drop * m.rate;
  return { value, low: value - doubt, high: Math.min(level, value + doubt) };
}

export function guardVerdict(s: GuardState, ctx: GuardContext): GuardVerdict {
  const limits = ctx.limits;
  const level = lastMedian(s.clean);
  const m = s.motion;
  const over = limits !== null && level !== null && level >= limits.ceilingBar;
  const still = isStill(s);
  return {
    ceiling: over ? { bar: level } : null,
    rising: s.rising,
    cue: s.cue,
    knee: s.knee,
    still,
    view: {
      restBar: level === null ? null : restOf(s, ctx, level, still),
      rateBarPerS: m === null ? null : m.rate,
      settleBar: level === null ? null : settleShown(s, level),
      ceilingInS: level === null ? null : ceilingIn(s, ctx, level),
      closeInS: s.cue,
      tooFast: s.tooFast,
    },
  };
}
