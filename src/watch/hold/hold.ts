import { warmthBarPerK } from '../../job/sensor-warmth.ts';
import type { Limits, Setup } from '../../job/setup.ts';
import type { Reading } from '../../sensing/reading.ts';
import { HOLD_BEGINS } from '../codes.ts';
import { heatingOf } from '../cure/coldest.ts';
import type { CureState } from '../cure/cure.ts';
import { cureWarmth } from '../cure/warmth.ts';
import type { Bounded, LeakFigure, WatchEvent } from '../events.ts';
import { bar3, boundedTo, round } from '../round.ts';
import type { Levels } from '../signal/levels.ts';
import { levelAgo, levelNow } from '../signal/levels.ts';
import type { HoldView } from '../view.ts';
import { lineContradicted } from './contradict.ts';
import type { Floor } from './floor.ts';
import { floorOf } from './floor.ts';
import type { LeakContext, LeakState } from './leak.ts';
import { createLeak, isNotGas, leakFigure, leakReading, leakTrim, NO_LEAK } from './leak.ts';
import type { LiftState } from './lift.ts';
import { createLift, endsUnder, liftForecast, liftReading, liftRestart } from './lift.ts';
import type { Past } from './past.ts';
import { createPast, pastAdd } from './past.ts';
import type { Segment } from './segment.ts';
import { createSegment, segmentStep } from './segment.ts';
import type { Trend } from './trend.ts';
import { bandExit, createTrend, trendAdd, trendClear, trendRise } from './trend.ts';

/** One hold, from entering the stage to leaving it. Plain data. */
export interface HoldState {
  sinceUs: number;
  /** Time between beginning and being noticed that is still to be judged, µs. */
  creditUs: number;
  /** Time in the band, µs. */
  bandUs: number;
  minBar: number | null;
  maxBar: number | null;
  /** Sampling time of the last usable pressure, s, and whether it was in the band and still. */
  lastS: number | null;
  lastIn: boolean;
  still: boolean;
  /** Since when the packer has been at rest after the fill, s; null: not yet. */
  filledS: number | null;
  startBar: number | null;
  /** It began off the working pressure, and has not come to it since. */
  offWorking: 'under' | 'over' | null;
  /** What fill and top-ups left behind; null until the packer has come to rest. */
  past: Past | null;
  /** Level when the last segment was closed, bar. */
  closedBar: number | null;
  segment: Segment;
  leak: LeakState;
  figure: LeakFigure;
  /** The strongest claim of any segment: what the hold's summary says. */
  best: LeakFigure;
  /** Lowest pressure of closed segments: free of a let-down that was noticed late, bar. */
  stillMinBar: number | null;
  judgedS: number | null;
  lift: LiftState;
  forecast: HoldView['lift'];
  liftTold: boolean;
  trend: Trend;
  exit: HoldView['bandExit'];
  /** By the cure's forecast the rise ends under the ceiling; and when it was asked last, s. */
  eases: boolean;
  easesS: number | null;
  contradicted: boolean;
  /** Looks in a row that spoke against the line. */
  against: number;
  /** Lower edge of the band and its parts; null: no limits. */
  floor: Floor | null;
}

/** What the hold needs of the rest at each reading. */
export interface HoldContext {
  readonly setup: Setup | null;
  readonly levels: Levels;
  /** Scatter of the thinned means, bar. */
  readonly noiseBar: number;
  readonly ventOpen: boolean;
  /** The guard's word that no air flows. */
  readonly still: boolean;
  /** Free-inflation pressure seen at the fill's knee; null or absent: not seen. */
  readonly knee?: Bounded | null;
  /** The cure, whose forecast of its own warmth is asked when a rise nears the ceiling; null or absent: none. */
  readonly cure?: CureState | null;
}

type Emit = (event: WatchEvent) => void;

/** Without a known floor a packer counts as inflated over this, bar. */
const INFLATED_BAR = 0.1;
/** The heat of the fill fades fast at first: it is not extrapolated, s. */
const TREND_AFTER_S = 120;
/** Leak and lift are judged this often, s. */
const JUDGE_S = 60;
/** A top-up or a flow is noticed after about three seconds; what came since is no leak, s. */
const NOTICED_S = 5;
/** The cure is asked where a rise may reach the ceiling within this, s. */
const ASK_CURE_S = 600;
/** Until a Setup is there. */
const UNKNOWN_AIR: Setup['air'] = { bar: 1.01325, uBar: 0.05, source: 'assumed' };
/** Looks in a row that must speak against the line. */
const AGAINST = 2;

/** sinceUs: when it began; tUs: when it was noticed, later where it was read off the data. */
export function createHold(sinceUs: number, tUs: number): HoldState {
  return {
    sinceUs,
    creditUs: tUs - sinceUs,
    bandUs: 0,
    minBar: null,
    maxBar: null,
    lastS: null,
    lastIn: false,
    still: false,
    filledS: null,
    startBar: null,
    offWorking: null,
    past: null,
    closedBar: null,
    segment: createSegment(),
    leak: createLeak(),
    figure: NO_LEAK,
    best: NO_LEAK,
    stillMinBar: null,
    judgedS: null,
    lift: createLift(),
    forecast: null,
    liftTold: false,
    trend: createTrend(),
    exit: null,
    eases: false,
    easesS: null,
    contradicted: false,
    against: 0,
    floor: null,
  };
}

/** The reading is the packer's own pressure only at these taps. */
export function tapSeesPacker(setup: Setup | null): boolean {
  return setup !== null && (setup.tap === 'packer' || setup.tap === 'hose');
}

function inBand(bar: number, limits: Limits | null, floorBar: number | null): boolean {
  const floor = floorBar ?? INFLATED_BAR;
  return bar >= floor && (limits === null || bar <= limits.ceilingBar);
}

/** Not said is wet; a Setup of before it was asked was judged as dry. */
const isWet = (setup: Setup | null): boolean => (setup?.wetness ?? 'dry') !== 'dry';

function leakContext(h: HoldState, setup: Setup | null): LeakContext {
  return {
    tap: setup?.tap ?? 'unknown',
    line: setup?.line ?? 'unknown',
    air: setup?.air ?? UNKNOWN_AIR,
    volume: setup?.volume ?? null,
    ground: setup?.ground ?? null,
    exotherm: setup?.resin?.exotherm ?? 'unknown',
    heating: heatingOf(setup),
    wet: isWet(setup),
    sensorBarPerK: warmthBarPerK(setup?.channels.find((c) => c.role === 'pressure')),
    past: h.past,
  };
}

/**
 * A hold may be begun far from the working pressure, for a reason; that it was is not over by being said. It is over when
 * the working pressure is come to.
 */
function offWorking(h: HoldState, bar: number, uBar: number, limits: Limits | null): HoldState['offWorking'] {
  if (limits === null || !limits.cue) return null;
  const { workingBar } = limits;
  const slack = Math.max(HOLD_BEGINS.overBar, uBar);
  if (h.lastS === null) {
    if (bar > workingBar + slack) return 'over';
    return bar < HOLD_BEGINS.share * workingBar - slack ? 'under' : null;
  }
  if (h.offWorking === 'under') return bar < workingBar - slack ? 'under' : null;
  return h.offWorking === 'over' && bar > workingBar ? 'over' : null;
}

/** Takes a usable pressure (median of three). `fresh` tells that the levels have a new mean. */
export function holdReading(
  h: HoldState,
  reading: Reading,
  bar: number,
  fresh: boolean,
  longestUs: number,
  ctx: HoldContext,
  emit: Emit,
): void {
  const { setup } = ctx;
  const limits = setup?.limits ?? null;
  const sees = tapSeesPacker(setup);
  h.floor = floorOf(limits, ctx.knee ?? null);
  const floorBar = h.floor?.bar ?? null;
  if (h.lastS !== null && h.lastIn) {
    const dt = (reading.tS - h.lastS) * 1e6;
    if (dt <= longestUs) h.bandUs += dt;
  }
  if (sees) h.offWorking = offWorking(h, bar, reading.uBar, limits);
  if (fresh) stepSegment(h, reading, ctx, emit);
  h.still = ctx.still || h.segment.open;
  if (h.creditUs > 0) {
    // A hold that was read off the data was still and in its band while it was being noticed.
    if (sees && inBand(bar, limits, floorBar) && h.still) h.bandUs += h.creditUs;
    h.creditUs = 0;
  }
  h.lastS = reading.tS;
  // Behind a hose the value is the packer's only while no air flows.
  h.lastIn = sees && inBand(bar, limits, floorBar) && (h.still || setup?.tap === 'packer');
  if (sees) {
    if (h.minBar === null || bar < h.minBar) h.minBar = bar;
    if (h.maxBar === null || bar > h.maxBar) h.maxBar = bar;
  }
  if (h.segment.open && sees) {
    // Three seconds back, before a fall that is only now being noticed.
    const before = fresh ? levelAgo(ctx.levels, 3) : null;
    if (before !== null && (h.stillMinBar === null || before < h.stillMinBar)) h.stillMinBar = before;
    leakReading(h.leak, reading, bar, (setup?.air ?? UNKNOWN_AIR).bar, h.past);
    liftReading(h.lift, reading, bar);
  }
  const settled = h.filledS !== null && reading.tS - h.filledS >= TREND_AFTER_S;
  if (sees && settled && trendAdd(h.trend, reading.tS, bar)) {
    h.exit = bandExit(h.trend, floorBar, limits?.ceilingBar ?? null);
    askCure(h, reading.tS, ctx);
    // A warning needs its figures at once.
    if (h.easesS !== null) foresee(h, reading.tUs, ctx, emit);
  }
  // At once for what can never be told here, then once a minute.
  if (h.judgedS === null || reading.tS - h.judgedS >= JUDGE_S) {
    h.judgedS = reading.tS;
    judge(h, reading.tUs, reading.tS, ctx, emit);
  }
}

/** A forecast of the cure costs some milliseconds: it is asked once a minute, and only while a rise nears the ceiling. */
function askCure(h: HoldState, tS: number, ctx: HoldContext): void {
  const { exit } = h;
  if (exit === null || exit.direction === 'down' || exit.inS.value > ASK_CURE_S) {
    h.eases = false;
    h.easesS = null;
    return;
  }
  if (h.easesS !== null && tS - h.easesS < JUDGE_S) return;
  h.easesS = tS;
  const { setup, cure } = ctx;
  if (setup === null || cure === undefined || cure === null) return;
  h.eases =
    endsUnder(
      h.lift,
      { air: setup.air, wet: isWet(setup), ceilingBar: setup.limits?.ceilingBar ?? null },
      cureWarmth(cure),
    ) ?? false;
}

function stepSegment(h: HoldState, reading: Reading, ctx: HoldContext, emit: Emit): void {
  if (!h.segment.open && (levelNow(ctx.levels) ?? 0) < INFLATED_BAR) return;
  const step = segmentStep(h.segment, ctx.levels, ctx.noiseBar, ctx.ventOpen, reading.tS);
  if (step === null) return;
  emit({ tUs: reading.tUs, e: 'segment', what: step.what, why: step.why });
  if (step.what === 'opened') {
    h.filledS ??= reading.tS;
    h.startBar ??= levelNow(ctx.levels);
    rested(h, reading.tS, levelNow(ctx.levels));
    h.leak = createLeak();
    liftRestart(h.lift);
    return;
  }
  // A top-up is noticed late: the level before it.
  h.closedBar = levelAgo(ctx.levels, 3) ?? levelNow(ctx.levels);
  trendClear(h.trend);
  h.exit = null;
  leakTrim(h.leak, reading.tS - NOTICED_S);
  settle(h, reading.tUs, ctx.setup, emit);
  // Air let in warms the gas, air let out cools it: the settling begins anew.
  h.filledS = null;
}

/** The packer is at rest at that level: the whole fill, or what has come or gone since the last segment, begins to fade. */
function rested(h: HoldState, tS: number, bar: number | null): void {
  const first = h.past === null;
  h.past ??= createPast(tS);
  if (first || bar === null || h.closedBar === null) {
    if (first) pastAdd(h.past, tS, 1);
    return;
  }
  pastAdd(h.past, tS, (bar - h.closedBar) / Math.max(INFLATED_BAR, bar));
}

/** Gives the segment's last figure before it is closed, if it says more than the last one told. */
function settle(h: HoldState, tUs: number, setup: Setup | null, emit: Emit): void {
  takeFigure(h, leakFigure(h.leak, leakContext(h, setup)), tUs, emit);
}

/** How much a figure says; of two that say as much the later one is kept. */
function claim(figure: LeakFigure): number {
  if (figure.verdict === 'leaking') return 3;
  if (figure.verdict === 'tight' || figure.verdict === 'cannot-be-seen') return 2;
  return figure.mbarPerMin === null ? 0 : 1;
}

function takeFigure(h: HoldState, figure: LeakFigure, tUs: number, emit: Emit): void {
  const changed = figure.verdict !== h.figure.verdict || figure.reason !== h.figure.reason;
  h.figure = figure;
  if (claim(figure) >= claim(h.best)) h.best = figure;
  if (changed) emit({ tUs, e: 'leak', leak: figure });
}

function judge(h: HoldState, tUs: number, tS: number, ctx: HoldContext, emit: Emit): void {
  const { setup } = ctx;
  takeFigure(h, leakFigure(h.leak, leakContext(h, setup)), tUs, emit);
  const against = lineContradicted({
    line: setup?.line ?? 'unknown',
    startBar: h.startBar,
    levelBar: levelNow(ctx.levels),
    topUpsS: h.segment.topUpsS,
    nowS: tS,
    loses: h.leak.called,
    gains: h.leak.gains,
    held: h.leak.held,
  });
  // Two looks in a row: raised only when sure.
  h.against = against ? h.against + 1 : 0;
  h.contradicted = h.against >= AGAINST;
  foresee(h, tUs, ctx, emit);
}

function foresee(h: HoldState, tUs: number, { setup }: HoldContext, emit: Emit): void {
  h.forecast = liftForecast(h.lift, {
    tap: setup?.tap ?? 'unknown',
    line: setup?.line ?? 'unknown',
    air: setup?.air ?? UNKNOWN_AIR,
    wet: isWet(setup),
    // What the sheet foretells it foretells of air.
    resin: isNotGas(heatingOf(setup)) ? null : (setup?.resin ?? null),
    groundC: setup?.ground?.c ?? null,
    ceilingBar: setup?.limits?.ceilingBar ?? null,
    floorBar: h.floor?.bar ?? null,
    exit: h.exit,
    rising: trendRise(h.trend),
  });
  tellLift(h, tUs, setup, emit);
}

/** Told once when the peak may pass the ceiling, and again only after it no longer did. */
function tellLift(h: HoldState, tUs: number, setup: Setup | null, emit: Emit): void {
  const f = h.forecast;
  const ceiling = setup?.limits?.ceilingBar ?? null;
  const passes = f !== null && ceiling !== null && f.peakBar.high > ceiling;
  if (passes && !h.liftTold) {
    emit({
      tUs,
      e: 'lift',
      peakBar: boundedTo(f.peakBar, 3),
      ceilingInS: f.ceilingInS === null ? null : boundedTo(f.ceilingInS, 0),
      adviceHighBar: f.adviceHighBar === null ? null : bar3(f.adviceHighBar),
      adviceLowBar: f.adviceLowBar === null ? null : bar3(f.adviceLowBar),
    });
  }
  h.liftTold = passes;
}

/** A hole in the readings: nothing is counted across it and the segment ends. */
export function holdHole(h: HoldState, tUs: number, setup: Setup | null, emit: Emit): void {
  h.lastS = null;
  trendClear(h.trend);
  h.exit = null;
  if (!h.segment.open) return;
  h.segment.open = false;
  h.closedBar = h.leak.openedS === null ? null : h.leak.lastBar;
  emit({ tUs, e: 'segment', what: 'closed', why: 'gap' });
  settle(h, tUs, setup, emit);
}

/**
 * Leaves the hold: closes what is open and gives the summary, which the state then holds, too. A let-down that was
 * read off the data is noticed late: its fall is no part of the hold.
 */
export function holdEnd(
  h: HoldState,
  tUs: number,
  why: 'stage' | 'end',
  noticedLate: boolean,
  setup: Setup | null,
  emit: Emit,
): void {
  if (h.segment.open) {
    h.segment.open = false;
    emit({ tUs, e: 'segment', what: 'closed', why });
    settle(h, tUs, setup, emit);
  }
  h.figure = h.best;
  if (noticedLate && h.stillMinBar !== null) h.minBar = h.stillMinBar;
  emit({
    tUs,
    e: 'hold',
    fromUs: h.sinceUs,
    minutesInBand: round(h.bandUs / 60e6, 2),
    minBar: h.minBar === null ? null : bar3(h.minBar),
    maxBar: h.maxBar === null ? null : bar3(h.maxBar),
    leak: h.figure,
  });
}

export function holdView(h: HoldState, tUs: number): HoldView {
  return {
    sinceS: (tUs - h.sinceUs) / 1e6,
    minutesInBand: h.bandUs / 60e6,
    minBar: h.minBar,
    maxBar: h.maxBar,
    still: h.still,
    leak: h.figure,
    bandExit: h.exit,
    lift: h.forecast,
    floor: h.floor,
  };
}
