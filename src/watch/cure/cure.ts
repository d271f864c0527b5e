import type { Heating, PipeSetup, ResinSetup, Setup } from '../../job/setup.ts';
import type { Bounded, WatchEvent } from '../events.ts';
import { round } from '../round.ts';
import type { CureView } from '../view.ts';
import { type BeforeSeat, earnedBefore } from './before-seat.ts';
import type { Coldest, ProbeNow } from './coldest.ts';
import { COLD_GROUND_C, heatingOf } from './coldest.ts';
import { anew, type ColdestState, coldestNow, createColdest } from './coldest-now.ts';
import { AS_THE_SHEET, type Batch, ofBatch as byBatch } from './cup-speed.ts';
import { type Outlook, outlook } from './forecast.ts';
import { coldestPlausible, gapRate, NO_RATE, rateAt } from './rates.ts';
import type { SheetFit } from './sheet.ts';
import { ageRate, fitSheet } from './sheet.ts';

/**
 * Progress by the data sheet, X = ∫ dt / t_cure(T_cold), from seating on, and from mixing where the sheet's time does. The lower bound takes the uncertainty of
 * the coldest temperature and of the fit together; 'met' is said of it alone. It speaks of the sheet's time at
 * temperature and never of a cured or safe sleeve.
 */
export interface CureState extends ColdestState {
  sinceUs: number;
  attempt: number;
  fit: SheetFit | null;
  /** The resin and the times of its sheet that the progress is counted by; others make it a new count. null: none yet. */
  countedBy: string | null;
  setupNumber: number | null;
  lastUs: number;
  /** Of the time since seating, what is not counted: the run lay and no device bore it out; slept through: less than none, s. */
  uncountedS: number;
  /** Progress by the sheet: middle and bounds. */
  progress: number;
  low: number;
  high: number;
  /** Equivalent age at 20 °C of the coldest credible resin, min. */
  ageMin: number;
  metUs: number | null;
  /** What its witness cup tells of this batch. */
  batch: Batch;
  /** Progress, its middle, at which the witness sample was last felt not to be hard; 0: it was not, or is hard since. */
  softAge: number;
  /** The witness sample was felt to be hard, and not to be soft since. */
  feltHard: boolean;
  /** From mixing to seating; null: not mixed under this watch, or another sleeve's. */
  before: BeforeSeat | null;
  /** The packer was let down: the sleeve is no longer held, and nothing more is counted. */
  ended: boolean;
  coldestC: Bounded | null;
  source: CureView['source'];
  /** What is believed of the temperature now, and what a forecast needs beside it. */
  now: Coldest | null;
  pipe: PipeSetup | null;
  groundC: number;
  exotherm: ResinSetup['exotherm'];
  heating: Heating;
  /** Temperature under the sheet's lowest: middle of the coldest, less that limit, K. */
  underLowestK: number | null;
}

export interface CureContext {
  readonly setup: Setup | null;
  /** Probes with a fresh usable value. */
  readonly probes: readonly ProbeNow[];
  /** By its witness cup; left out: as the sheet has it. */
  readonly batch?: Batch;
}

type Emit = (event: WatchEvent) => void;

/** Counted in steps of at least this, µs. */
const STEP_US = 1e6;
/** A longer way between two steps is a gap: it counts at the coldest plausible temperature, µs. */
const GAP_US = 5e6;

export function createCure(
  tUs: number,
  attempt: number,
  from: 'seat' | 'inflate' | 'hold',
  emit: Emit,
  before: BeforeSeat | null = null,
  setup: Setup | null = null,
): CureState {
  const fit = sheetOf(setup);
  const earned = before === null || fit === null ? null : earnedBefore(before, setup, fit);
  const told = earned && { minutes: round(earned.minutes, 1), coldestC: round(earned.coldC, 1) };
  emit({ tUs, e: 'cure-start', from, ...(told === null ? {} : { before: told }) });
  return {
    sinceUs: tUs,
    attempt,
    fit: null,
    countedBy: null,
    setupNumber: null,
    lastUs: tUs,
    uncountedS: 0,
    ...createColdest(tUs),
    progress: 0,
    low: 0,
    high: 0,
    ageMin: 0,
    metUs: null,
    batch: AS_THE_SHEET,
    softAge: 0,
    feltHard: false,
    before,
    ended: false,
    coldestC: null,
    source: 'none',
    now: null,
    pipe: null,
    groundC: COLD_GROUND_C,
    exotherm: 'unknown',
    heating: 'none',
    underLowestK: null,
  };
}

/** Time at temperature says nothing of a resin that light makes hard: nothing is counted, nothing is ever met. */
export const isLightCured = (resin: ResinSetup | null | undefined): boolean => resin?.curedBy === 'light';

function sheetOf(setup: Setup | null): SheetFit | null {
  const resin = setup?.resin ?? null;
  return resin === null || isLightCured(resin) ? null : fitSheet(resin);
}

/** What a share of progress is a share of. */
const countOf = ({ name, points, lowestC, countsFrom }: ResinSetup): string =>
  JSON.stringify([name, points, lowestC, countsFrom]);

/** A resin that is entered, or whose sheet is corrected, during the cure counts from seating on: what has passed is judged at ground. */
function takeResin(s: CureState, setup: Setup | null): void {
  if (setup === null || setup.number === s.setupNumber) return;
  s.setupNumber = setup.number;
  // Another pipe or ground is another model.
  s.least = anew(s.least.source, s.lastUs);
  const resin: ResinSetup | null = setup.resin;
  s.fit = sheetOf(setup);
  if (s.fit === null || resin === null || countOf(resin) === s.countedBy) return;
  const minutes = ((s.lastUs - s.sinceUs) / 1e6 - s.uncountedS) / 60;
  s.countedBy = countOf(resin);
  // What was reached by another sheet's times is not by these.
  s.metUs = null;
  const past = setup.ground === null ? NO_RATE : gapRate(s.fit, setup.ground);
  s.progress = past.value * minutes;
  s.low = past.low * minutes;
  s.high = past.high * minutes;
  const earned = s.before === null ? null : earnedBefore(s.before, setup, s.fit);
  if (earned !== null) {
    s.progress += earned.progress.value;
    s.low += earned.progress.low;
    s.high += earned.progress.high;
  }
  s.ageMin = past.value > 0 ? minutes * ageRate(s.fit.slope, coldestPlausible(setup.ground)) : 0;
}

/** Goes on to tUs; at most once a second does it work. */
export function cureTick(s: CureState, tUs: number, ctx: CureContext, emit: Emit): void {
  if (s.ended || tUs - s.lastUs < STEP_US) return;
  takeResin(s, ctx.setup);
  const minutes = (tUs - s.lastUs) / 60e6;
  const gap = tUs - s.lastUs > GAP_US;
  s.lastUs = tUs;
  s.batch = ctx.batch ?? AS_THE_SHEET;
  const ground = ctx.setup?.ground ?? null;
  const now = coldestNow(s, tUs, gap, ctx.probes, ctx.setup);
  s.now = now;
  s.groundC = now.ground.c;
  s.pipe = ctx.setup?.pipe ?? null;
  s.exotherm = ctx.setup?.resin?.exotherm ?? 'unknown';
  s.heating = heatingOf(ctx.setup);
  s.coldestC = now.c;
  s.source = now.source;
  const { fit } = s;
  if (fit === null) {
    s.underLowestK = null;
    return;
  }
  s.underLowestK = now.c === null ? null : now.c.value - fit.lowestC;
  if (gap) countGap(s, fit, ground, minutes);
  else {
    count(s, rateAt(fit, now), minutes);
    const cold = now.c?.low ?? COLD_GROUND_C;
    if (cold >= fit.lowestC) s.ageMin += ageRate(fit.slope, cold) * minutes;
  }
  const { low } = ofBatch(s);
  // What was said to be reached is not, by a batch that proves slow: it is told again once it is.
  if (s.metUs !== null && low < BACK) s.metUs = null;
  if (low >= 1 && s.metUs === null) {
    s.metUs = tUs;
    emit({ tUs, e: 'cure-met', progressLow: round(low, 3), equivalentAgeMin: round(s.ageMin, 1) });
  }
}

/** A bound that was reached and falls to less than this by what is learnt of the batch is taken back. */
const BACK = 0.97;

/**
 * Progress of this batch: that by the sheet, by its own speed. A sample that is not hard at its middle says that the batch takes as much
 * at the least. A cup whose heat never came beside a sample that is hard is no cup of this batch.
 */
export function ofBatch(s: CureState): Bounded {
  const { progress, low, high, softAge } = s;
  const none = s.feltHard && !s.batch.seen;
  const batch = byBatch({ value: progress, low, high }, none ? AS_THE_SHEET : s.batch);
  return softAge > 1 ? { ...batch, low: Math.min(batch.low, low / softAge) } : batch;
}

/** By how much the bound that waits goes slower than the sheet's. */
const lowSpeed = (s: CureState): number => (s.low > 0 ? ofBatch(s).low / s.low : 1);

/**
 * The run lay for so many seconds up to tUs. Only a wall clock says so, and that may have been set: nothing is counted
 * until a device bears it out.
 */
export function cureLay(s: CureState, tUs: number, seconds: number): void {
  if (s.ended) return;
  s.uncountedS += Math.max(seconds, (tUs - s.lastUs) / 1e6);
  s.lastUs = tUs;
  s.watched = [];
  s.watchedUs = tUs;
  s.least = anew(s.least.source, tUs);
}

/** So many seconds did pass though nothing was read: they count as a gap does. */
export function cureWitness(s: CureState, seconds: number, setup: Setup | null): void {
  if (s.ended || seconds <= 0) return;
  s.uncountedS -= seconds;
  if (s.fit === null) return;
  countGap(s, s.fit, setup?.ground ?? null, seconds / 60);
}

function countGap(s: CureState, fit: SheetFit, ground: Setup['ground'], minutes: number): void {
  count(s, gapRate(fit, ground), minutes);
  const cold = coldestPlausible(ground);
  if (cold >= fit.lowestC) s.ageMin += ageRate(fit.slope, cold) * minutes;
}

function count(s: CureState, rate: Bounded, minutes: number): void {
  s.progress += rate.value * minutes;
  s.low += rate.low * minutes;
  s.high += rate.high * minutes;
}

/** Let down: nothing more is counted. */
export function cureEnd(s: CureState): void {
  s.ended = true;
}

/** A forecast is kept for so long, µs. */
const OUTLOOK_US = 20e6;
/** Forecasts beside the states that they were made from: advice for the eye, no part of what is recorded. */
const kept = new WeakMap<CureState, { readonly atUs: number; readonly outlook: Outlook }>();

const NOTHING: Outlook = { metInS: null, exotherm: null };

function outlookOf(s: CureState): Outlook {
  const { fit, now } = s;
  if (s.ended || fit === null || now === null || now.dry === null) return NOTHING;
  let one = kept.get(s);
  if (one === undefined || s.lastUs < one.atUs || s.lastUs - one.atUs >= OUTLOOK_US) {
    const { watched, pipe, groundC, exotherm, heating } = s;
    const progress = ofBatch(s).value;
    // By the sheet's clock this batch is done at 1 / its speed: what is over 1 of that is taken off beforehand.
    const low = s.low + 1 - 1 / lowSpeed(s);
    const input = { fit, now, watched, pipe, groundC, exotherm, heating, progress, low };
    one = { atUs: s.lastUs, outlook: outlook(input) };
    kept.set(s, one);
  }
  const gone = (s.lastUs - one.atUs) / 1e6;
  const later = (b: Bounded): Bounded => ({
    value: Math.max(0, b.value - gone),
    low: Math.max(0, b.low - gone),
    high: Math.max(0, b.high - gone),
  });
  const { metInS, exotherm } = one.outlook;
  return {
    metInS: metInS === null || s.metUs !== null ? null : later(metInS),
    exotherm: exotherm === null ? null : { peakInS: later(exotherm.peakInS), peakC: exotherm.peakC },
  };
}

function batchView(s: CureState): Pick<CureView, 'progress' | 'low' | 'high'> {
  const { value, low, high } = ofBatch(s);
  return { progress: value, low, high };
}

/** firstUs: the first sample, from which results count their seconds. */
export function cureView(s: CureState, tUs: number, firstUs: number | null): CureView | null {
  if (s.fit === null) return null;
  const { metInS, exotherm } = outlookOf(s);
  return {
    sinceS: (tUs - s.sinceUs) / 1e6,
    ...batchView(s),
    equivalentAgeMin: s.ageMin,
    coldest: s.coldestC,
    source: s.source,
    metInS,
    metAtS: s.metUs === null ? null : (s.metUs - (firstUs ?? 0)) / 1e6,
    exotherm,
  };
}
