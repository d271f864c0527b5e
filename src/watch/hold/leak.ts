import { studentOf } from '../../estimate/covariance.ts';
import { Z_95 } from '../../estimate/normal.ts';
import type { Heating, Line, ResinSetup, Setup, Tap } from '../../job/setup.ts';
import { leakPaM3 } from '../../physics/gas.ts';
import type { Reading } from '../../sensing/reading.ts';
import { FLAG } from '../../sensing/reading.ts';
import type { CannotTellReason, LeakFigure } from '../events.ts';
import { boundedTo, round } from '../round.ts';
import type { Course } from './course.ts';
import { courseAdd, courseFrom, courseTrim, createCourse } from './course.ts';
import type { FitContext, LeakFit } from './leak-fit.ts';
import { changeFits, FOLLOWS, KAPPA, leakFit, SD_KAPPA } from './leak-fit.ts';
import type { Past } from './past.ts';

/**
 * Leak of one closed segment and its three verdicts. It is judged once a minute; a claim is made at a bound that
 * allows for all the looks of a hold. Two courses are kept: the whole segment, and the last minutes, so that a leak
 * that begins in the third hour need not first outweigh the two before.
 */
export interface LeakState {
  openedS: number | null;
  whole: Course;
  recent: Course;
  /** The probes that were not compared with a thermometer: they may be shorted or reversed. */
  unchecked: { air: boolean; sleeve: boolean };
  /** The pressure has followed an unchecked probe as only gas follows its temperature. */
  proved: boolean;
  /** Mean square of half the difference of neighbouring readings, bar². */
  scatter: number;
  lastRaw: number | null;
  lastBar: number;
  stepBar: number;
  /** What the whole segment said at the last looks, 1/s. */
  looks: { readonly atS: number; readonly perS: number; readonly sd: number }[];
  /** Since when the segment tells another story, and what was known until then; null: one story. */
  turn: { readonly atS: number; readonly perS: number; readonly sd: number; readonly fit: LeakFit } | null;
  /** 'Leaking' has been said in this segment. */
  called: boolean;
  /** The data are sure that gas comes in, or that the pressure does not follow the gas: the line is not closed. */
  gains: boolean;
  held: boolean;
}

/** What the figure depends on besides the readings. */
export interface LeakContext {
  readonly tap: Tap;
  readonly line: Line;
  readonly air: Setup['air'];
  readonly volume: Setup['volume'];
  readonly ground: Setup['ground'];
  /** null: no resin in the packer's sleeve. */
  readonly exotherm: ResinSetup['exotherm'];
  /** What warms the packer from outside. */
  readonly heating: Heating;
  /** There may be liquid water in the line. */
  readonly wet: boolean;
  /** What a kelvin of the transducer's own warmth moves its reading by, bar. */
  readonly sensorBarPerK: number;
  /** What the fill and the top-ups have left behind; null: the packer has not come to rest yet. */
  readonly past: Past | null;
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
/** 'Tight' is said when the 95 % upper bound and half the interval are under this, mbar/min, and zero is credible. */
export const TIGHT_MBAR_MIN = 2;
/** After the line comes to rest the gas gives its first heat to the wall, quicker than any probe tells, s. */
const SKIP_S = 60;
const LEAST_S = 180;
const WHOLE_BLOCK_S = 10;
const RECENT_BLOCK_S = 15;
/**
 * 99.9 % over all looks of a hold. Looks a minute apart share most of their data; those of a hold are taken as forty
 * independent ones: 0.001 / 40 on one side (Bonferroni). What comes of it is counted in docs/validation.md.
 */
const Z_CALL = 4.06;
/** The same for turns, which are sought at several times in the last minutes. */
const Z_TURN = 4.4;
const TURNS_S = [240, 360, 540, 780] as const;
/** What was known of the rate is kept for so many looks. */
const LOOKS = 16;
/** Blocks of the last minutes before a turn is sought. */
const RECENT_LEAST = 40;
/** Power of the gauge pressure that the loss (as a share of the gas) goes with, its sd, and what no law explains. */
const LAW = 0.15;
const SD_LAW = 0.2;
const SD_RATE = 0.015;
/** Rubber that shrinks back as the pressure falls hides up to 3 % of the loss; the fit knows the most of it. */
const SLOW_GIVE = 1.005;
/** Share of the doubt from which on it is the sensor's warmth that is named. */
const SENSOR_MOST = 0.4;
/** An unchecked probe is proved when the factor is surely within this of what packers have. */
const PROOF = 0.5;
const Z_PROOF = 3.29;

export function createLeak(): LeakState {
  return {
    openedS: null,
    whole: createCourse(WHOLE_BLOCK_S, false),
    recent: createCourse(RECENT_BLOCK_S, true),
    unchecked: { air: false, sleeve: false },
    proved: false,
    scatter: 0,
    lastRaw: null,
    lastBar: 0,
    stepBar: 0,
    looks: [],
    turn: null,
    called: false,
    gains: false,
    held: false,
  };
}

/**
 * Takes a reading of the closed segment. Only usable pressures are given; bar is the median of three.
 * @param airBar pressure of the air, bar
 */
export function leakReading(
  s: LeakState,
  reading: Reading,
  bar: number,
  airBar: number,
  past: Past | null,
): void {
  const abs = bar + airBar;
  if (!(abs > 0) || past === null) return;
  s.openedS ??= reading.tS;
  learnScatter(s, reading);
  s.lastBar = bar;
  if (reading.tS - s.openedS < SKIP_S) return;
  let air: number | null = null;
  let sleeve: number | null = null;
  for (const temp of reading.temps) {
    if (temp.c === null || (temp.place !== 'air' && temp.place !== 'sleeve')) continue;
    s.unchecked[temp.place] = (temp.flags & FLAG.unchecked) !== 0;
    if (temp.place === 'air') air = temp.c + 273.15;
    else sleeve = temp.c + 273.15;
  }
  const y = Math.log(abs);
  courseAdd(s.whole, reading.tS, y, air, sleeve);
  courseAdd(s.recent, reading.tS, y, air, sleeve);
}

/** A segment's end is noticed late: what came since is a hand's doing and no leak. */
export function leakTrim(s: LeakState, fromS: number): void {
  courseTrim(s.whole, fromS);
  courseTrim(s.recent, fromS);
}

/** One difference counts no more than nine times the mean, so that a spike is not noise. */
function learnScatter(s: LeakState, reading: Reading): void {
  s.stepBar = reading.stepBar;
  if (reading.bar === null) return;
  if (s.lastRaw !== null) {
    const half = (reading.bar - s.lastRaw) ** 2 / 2;
    const most = 9 * Math.max(s.scatter, (0.3 * reading.stepBar) ** 2 + 1e-9);
    s.scatter += 0.01 * (Math.min(half, most) - s.scatter);
  }
  s.lastRaw = reading.bar;
}

function cannot(reason: CannotTellReason): LeakFigure {
  return { ...NO_LEAK, reason };
}

const TRUST = { air: false, sleeve: false } as const;

interface Rate {
  readonly fit: LeakFit;
  /** mbar/min at the present pressure. */
  readonly rate: number;
  readonly sd: number;
}

function fitContext(s: LeakState, ctx: LeakContext, past: Past): FitContext {
  return {
    absBar: s.lastBar + ctx.air.bar,
    airBar: ctx.air.bar,
    uAirBar: ctx.air.uBar / 2,
    groundC: ctx.ground?.c ?? null,
    exotherm: ctx.heating === 'hot-air' ? 'heated' : ctx.exotherm,
    wet: ctx.wet,
    sensorBarPerK: ctx.sensorBarPerK,
    sampleSd: Math.sqrt(s.scatter),
    stepBar: s.stepBar,
    mistrust: TRUST,
    past,
  };
}

function rateOf(fit: LeakFit, s: LeakState, ctx: LeakContext): Rate {
  const scale = (s.lastBar + ctx.air.bar) * 60e3;
  // The loss goes with the pressure by a law that nobody knows: between none (choked) and all of it (seeping).
  const fallen = Math.log(Math.max(0.05, s.lastBar) / Math.max(0.05, fit.meanAbsBar - ctx.air.bar));
  const law = SLOW_GIVE * Math.exp(LAW * fallen);
  const rate = fit.perS * scale * law;
  return { fit, rate, sd: Math.hypot(fit.sd * scale * law, rate * SD_LAW * fallen, rate * SD_RATE) };
}

/** The verdict as it stands; to be asked once a minute. Nothing is claimed for a tap or a line that cannot show it. */
export function leakFigure(s: LeakState, ctx: LeakContext): LeakFigure {
  if (ctx.tap === 'supply' || ctx.tap === 'unknown') return cannot('tap');
  if (isNotGas(ctx.heating)) return cannot('not-gas');
  if (ctx.past === null) return cannot('settling');
  const supplied = ctx.line === 'supplied-relieving' || ctx.line === 'supplied-nonrelieving';
  const now = rateNow(s, ctx, ctx.past);
  if (now === null) {
    s.gains = false;
    s.held = false;
    return supplied ? notSeen() : cannot(s.whole.t.length === 0 ? 'settling' : 'too-short');
  }
  const { fit, rate, sd } = now;
  const sure = studentOf(Z_CALL, fit.dof) * sd;
  // Only a probe in the air knows the gas well enough to speak against the line.
  s.gains = fit.witness === 'air' && rate + sure < -LEAK_MBAR_MIN;
  s.held = isHeld(fit, s.held);
  if (supplied) {
    s.called = rate - sure > LEAK_MBAR_MIN;
    return notSeen();
  }
  // A pressure that does not follow the gas is held by something, or the probe does not know the gas.
  if (s.held) return cannot('temperature-trend');
  const half = studentOf(Z_95, fit.dof) * sd;
  const rounded = boundedTo({ value: rate, low: rate - half, high: rate + half }, 2);
  const figure = {
    mbarPerMin: rounded.value,
    low: rounded.low,
    high: rounded.high,
    paM3PerS: conductance(rate, half, ctx),
  };
  // Once said it stands until even the 95 % bound has come down: a verdict that flickers helps nobody.
  s.called = rate - (s.called ? half : sure) > LEAK_MBAR_MIN;
  if (s.called) return { verdict: 'leaking', ...figure, reason: null };
  // On a line that is not known a regulator may be making up for a leak: falling can be seen, tight cannot.
  if (ctx.line === 'unknown') return { verdict: 'cannot-tell', ...figure, reason: 'line' };
  const high = rate + half;
  // Gas that seems to come in is warmth that nobody saw: an upper bound made of that is no tightness.
  if (high < 0)
    return {
      verdict: 'cannot-tell',
      ...figure,
      reason: ofSensor(fit) ? 'sensor-warmth' : 'temperature-trend',
    };
  if (high < TIGHT_MBAR_MIN && half < TIGHT_MBAR_MIN) return { verdict: 'tight', ...figure, reason: null };
  return { verdict: 'cannot-tell', ...figure, reason: why(fit) };
}

/** Steam condenses and water does not compress: neither keeps ln p to ln T. */
export const isNotGas = (heating: Heating): boolean => heating === 'water' || heating === 'steam';

const notSeen = (): LeakFigure => ({ ...NO_LEAK, verdict: 'cannot-be-seen', reason: 'line' });

/** Once it is sure that the pressure does not follow the gas, it stands as long as the 95 % bound says so. */
function isHeld({ follows, witness }: LeakFit, already: boolean): boolean {
  if (follows === null || witness !== 'air') return false;
  return follows.value + (already ? Z_95 : Z_CALL) * follows.sd < FOLLOWS * follows.moved;
}

/**
 * A probe that nobody compared with a thermometer may be shorted, reversed or of another wire. It is no witness until the
 * pressure itself has followed it, as shut-in gas follows its temperature.
 */
function proves({ follows }: LeakFit): boolean {
  return follows !== null && Math.abs(follows.value - 0.95) + Z_PROOF * follows.sd < PROOF;
}

/** The sensor's own warmth is what most of the doubt comes from. */
const ofSensor = (fit: LeakFit): boolean => fit.sensorShare > SENSOR_MOST && fit.sensorShare >= fit.heatShare;

/** What most of the doubt comes from. */
function why(fit: LeakFit): CannotTellReason {
  if (ofSensor(fit)) return 'sensor-warmth';
  if (fit.heatShare > 0.5) return 'temperature-trend';
  return fit.creepShare > 0.4 ? 'settling' : 'too-short';
}

/** The rate of the whole segment; since a turn, that of what came after it, known from both sides or from itself. */
function rateNow(s: LeakState, ctx: LeakContext, past: Past): Rate | null {
  let known = fitContext(s, ctx, past);
  let found = leakFit(s.whole, known);
  if (found !== null && found.witness !== 'none' && s.unchecked[found.witness]) {
    s.proved = s.proved ? !isHeld(found, false) : proves(found);
    if (!s.proved) {
      known = { ...known, mistrust: s.unchecked };
      found = leakFit(s.whole, known);
    }
  }
  const whole = found === null || found.spanS < LEAST_S ? null : found;
  // What does not follow the gas turns with the gas and not with a leak.
  if (s.turn === null && whole !== null && !isHeld(whole, s.held) && s.recent.t.length >= RECENT_LEAST) {
    const turn = findTurn(s, known);
    if (turn !== null) {
      s.turn = { ...turn, fit: whole };
      s.whole = courseFrom(s.recent, turn.atS);
    }
  }
  if (s.turn === null) {
    if (whole === null) return null;
    s.looks.push({ atS: s.recent.t[s.recent.t.length - 1] ?? 0, perS: whole.perS, sd: whole.sd });
    if (s.looks.length > LOOKS) s.looks.shift();
    return rateOf(whole, s, ctx);
  }
  const { turn } = s;
  const own = leakFit(s.whole, known);
  const change = changeFits(s.recent, known)(turn.atS, turn);
  if (change === null) {
    s.turn = null;
    s.looks.length = 0;
    return own === null || own.spanS < LEAST_S ? null : rateOf(own, s, ctx);
  }
  const sd = Math.hypot(change.sd, turn.sd);
  if (own !== null && own.spanS >= LEAST_S && own.sd < sd) return rateOf(own, s, ctx);
  const perS = turn.perS + change.change;
  const meanAbsBar = s.lastBar + ctx.air.bar;
  return rateOf({ ...turn.fit, perS, sd, dof: change.dof, meanAbsBar }, s, ctx);
}

/** Where in the last minutes the loss has surely begun to be another one; null: it goes on as before. */
function findTurn(s: LeakState, known: FitContext): LeakState['looks'][number] | null {
  const end = s.recent.t[s.recent.t.length - 1]!;
  const changeAt = changeFits(s.recent, known);
  for (const ago of TURNS_S) {
    const atS = end - ago;
    // What was known then has not eaten the turn itself.
    const before = s.looks.findLast((l) => l.atS <= atS) ?? s.looks[0];
    if (before === undefined) continue;
    const c = changeAt(atS, before);
    if (c === null) continue;
    const mbarMin = Math.abs(c.change) * known.absBar * 60e3;
    if (mbarMin > LEAK_MBAR_MIN && Math.abs(c.change) > studentOf(Z_TURN, c.dof) * c.sd)
      return { ...before, atS };
  }
  return null;
}

/** V · dn·RT/dt in Pa·m³/s with 95 % bounds from rate, volume and the packer's give; null without a volume. */
function conductance(rate: number, half: number, ctx: LeakContext): LeakFigure['paM3PerS'] {
  if (ctx.volume === null) return null;
  const { litres, uLitres } = ctx.volume;
  // A packer that gives way a little hides part of the loss of pressure.
  const value = leakPaM3(rate / 1000, litres) / KAPPA;
  const u = Math.hypot(
    leakPaM3(half / 1000, litres) / KAPPA,
    leakPaM3(rate / 1000, uLitres) / KAPPA,
    (value * 2 * SD_KAPPA) / KAPPA,
  );
  return { value: round(value, 4), low: round(value - u, 4), high: round(value + u, 4) };
}
