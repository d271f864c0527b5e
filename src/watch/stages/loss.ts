import type { Condition } from '../alarms/machine.ts';
import { type Levels, levelAgo, levelMin, levelNow } from '../signal/levels.ts';
import { createLeastHeld, type LeastHeld, leastBreak, leastFollow, leastRests } from './least-held.ts';

/**
 * What the packer has lost since it was last known to be fuller. A small leak is made up for by a top-up; a tear, a burst or
 * a coupling that has come off is fed by one. The level before is kept as long as the packer is said to be up: over gaps,
 * another sensor, acknowledgements and stages, until it is let down.
 */
export interface Loss {
  /**
   * Highest level at which the pressure has stood, less what a slow leak may have taken from it since, bar; null: the packer
   * is not said to be up, or nothing was read yet.
   */
  knownBar: number | null;
  /** Highest level at which it has stood, bar. */
  topBar: number;
  lastUs: number | null;
  /** Air came in last, µs. */
  roseUs: number;
  /** Nobody saw what came between the known level and now. */
  isUnseen: boolean;
  /** More was lost than a slow leak takes, or while nobody saw it: noticed then, µs; null: nothing is lost. */
  noticedUs: number | null;
  /** What was noticed had not been seen to fall. */
  wasUnseen: boolean;
  /** What it holds at the least, whatever a hose adds. */
  least: LeastHeld;
}

export function createLoss(): Loss {
  return {
    knownBar: null,
    topBar: 0,
    lastUs: null,
    roseUs: 0,
    isUnseen: false,
    noticedUs: null,
    wasUnseen: false,
    least: createLeastHeld(),
  };
}

/** A level has stood when nothing was lower for so long, s: what a hose adds while air flows is over before. */
const STOOD_S = 3;
/** In a fill longer: a puff in the hose stands for some seconds before a limp packer has taken it. */
const STOOD_IN_FILL_S = 8;
/** A leak up to here is one that top-ups make up for, bar/s (20 mbar/min; common practice, no source). */
const SLOW_BAR_S = 0.02 / 60;
/** A fall that is none of warmth nor of a leak, bar/s (0.1 bar/min; common practice, no source). */
const FAST_BAR_S = 0.1 / 60;
/**
 * On top of it what the heat of a fill makes while it fades, which is 40 to 90 mbar in all (docs/science.md): bar/s as the
 * air has stopped to come in, and how fast that goes, s.
 */
const FADING_BAR_S = 0.5 / 60;
const FADES_S = 40;
/** Air comes in: so much within RISE_S. */
const RISE_BAR = 0.03;
const RISE_S = 5;
/** Least loss in a fill: more than the heat of a fill, and a share of the level (common practice, no source). */
const FILL_BAR = 0.15;
const FILL_SHARE = 0.15;
/** What is known to be in the packer is gone when less than this share of it is left, of at least so much, bar (common practice, no source). */
const GONE_SHARE = 0.4;
const HELD_BAR = 0.15;
/** Least fast fall in a hold: as of a fast fall of seconds. */
export const FALL_BAR = 0.08;
export const FALL_SHARE = 0.05;
/** Least loss of any speed in a hold: so much no top-up is for (common practice, no source). */
const LOST_BAR = 0.15;
const LOST_SHARE = 0.2;
/** Share of the level before that, held, is no loss. A step of the reading that lasts is not held. */
export const HELD_SHARE = 0.9;
/** What was noticed stays on so long, µs. */
const NOTICE_US = 5e6;
/** A fall is steady over three stretches of one of these, s, in each of which so much falls, bar: it may begin within the first. */
const STEADY = [
  { s: 1.25, bar: 0.01 },
  { s: 3.5, bar: 0.006 },
] as const;
/** And in the last not less than this share of the one before: a hose that evens out leaves a fifth. */
const GOES_ON = 0.3;

/** Nothing is read, or by another sensor: what comes after is compared with what was before. */
export function lossBreak(l: Loss): void {
  if (l.knownBar !== null) l.isUnseen = true;
  leastBreak(l.least);
}

/** Somebody has seen what the packer holds, or air is let out as was announced: from here on anew. */
export function lossSettled(l: Loss): void {
  l.knownBar = null;
  l.topBar = 0;
  l.isUnseen = false;
  l.noticedUs = null;
  l.least = createLeastHeld();
}

/** What bears on a level of a packer that is said to be up. */
export interface LossContext {
  /** A let-out down to here was asked for, bar; null: none. */
  readonly mostBar: number | null;
  /** Nothing is let in or out as a rule. */
  readonly isHold: boolean;
  /** No hose lies between the sensor and the packer. */
  readonly atPacker: boolean;
}

/** Takes a new mean of the levels while the packer is said to be up. */
export function lossFollow(l: Loss, levels: Levels, ctx: LossContext, tUs: number): void {
  followKnown(l, levels, ctx, tUs);
  if (ctx.isHold) leastRests(l.least, l.knownBar);
  else leastFollow(l.least, levels, ctx.atPacker, ctx.mostBar);
}

function followKnown(l: Loss, levels: Levels, { mostBar, isHold }: LossContext, tUs: number): void {
  const now = levelNow(levels);
  const stood = levelMin(levels, isHold ? STOOD_S : STOOD_IN_FILL_S);
  const dtS = l.lastUs === null ? 0 : (tUs - l.lastUs) / 1e6;
  l.lastUs = tUs;
  if (now === null || stood === null) return;
  const ago = levelAgo(levels, RISE_S);
  if (ago !== null && now - ago >= RISE_BAR) l.roseUs = tUs;
  const level = mostBar === null ? stood : Math.min(stood, mostBar);
  if (level > l.topBar) l.topBar = level;
  if (l.knownBar === null || level >= l.knownBar) {
    l.knownBar = level;
    l.isUnseen = false;
    l.noticedUs = null;
    return;
  }
  const lost = l.knownBar - now;
  if (l.isUnseen) {
    l.isUnseen = false;
    if (now < HELD_SHARE * l.knownBar && lost >= FALL_BAR) notice(l, true, tUs);
    return;
  }
  // A fall that was seen to be slow.
  if (isHold) l.knownBar -= Math.min(lost, SLOW_BAR_S * dtS);
  if (isHold && l.noticedUs === null && lost >= Math.max(LOST_BAR, LOST_SHARE * l.knownBar))
    notice(l, false, tUs);
}

function notice(l: Loss, wasUnseen: boolean, tUs: number): void {
  l.noticedUs = tUs;
  l.wasUnseen = wasUnseen;
}

/** It has fallen through all of three stretches: no hose evens out for so long. */
function isSteady(levels: Levels): boolean {
  return STEADY.some(({ s, bar }) => {
    const [now, third, second] = [levelNow(levels), levelAgo(levels, s), levelAgo(levels, 2 * s)];
    const first = levelAgo(levels, 3 * s);
    if (now === null || third === null || second === null || first === null) return false;
    const before = second - third;
    return first - second >= bar && before >= bar && third - now >= Math.max(bar, GOES_ON * before);
  });
}

/**
 * While a hand fills, and no vent is said open: the pressure falls although air is to come in.
 * @param atPacker no hose lies between the sensor and the packer: then none evens out, and no fall need be steady
 */
export function lossInFill(l: Loss, levels: Levels, atPacker: boolean): Condition {
  const now = levelNow(levels);
  if (now === null) return 'between';
  if (l.noticedUs !== null && l.lastUs !== null && l.lastUs - l.noticedUs < NOTICE_US) return 'on';
  if (l.least.bar >= HELD_BAR && now < GONE_SHARE * l.least.bar) return 'on';
  if (l.knownBar === null || l.knownBar - now < Math.max(FILL_BAR, FILL_SHARE * l.knownBar)) return 'off';
  return atPacker || isSteady(levels) ? 'on' : 'off';
}

/** In a hold the pressure falls faster than warmth or a leak that top-ups make up for. */
export function fallsInHold(l: Loss, levels: Levels): Condition {
  if (l.knownBar === null || l.lastUs === null) return 'off';
  const now = levelNow(levels);
  const begin = levelAgo(levels, 10);
  if (now === null || begin === null || begin - now < 5 * FAST_BAR_S) return 'off';
  const half = levelAgo(levels, 5);
  if (half === null) return 'off';
  const rate = FAST_BAR_S + FADING_BAR_S * Math.exp(-(l.lastUs - l.roseUs) / 1e6 / FADES_S);
  const slower = Math.min(begin - half, half - now) / 5;
  return slower >= 0.8 * rate && begin - now >= 10 * rate
    ? 'on'
    : begin - now >= 5 * rate
      ? 'between'
      : 'off';
}

/** In a hold so much is lost, or so fast, that no top-up is for it. */
export function lossInHold(l: Loss, levels: Levels): Condition {
  const now = levelNow(levels);
  if (now === null) return 'between';
  if (l.knownBar === null || l.lastUs === null) return 'off';
  if (l.noticedUs !== null && l.lastUs - l.noticedUs < NOTICE_US) return 'on';
  const least = Math.max(FALL_BAR, FALL_SHARE * l.knownBar);
  return l.knownBar - now >= least ? fallsInHold(l, levels) : 'off';
}
