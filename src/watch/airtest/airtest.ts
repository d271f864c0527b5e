/**
 * Air test of the finished repair between two plugs, on the transducer of the run: brought up over the test pressure, left to
 * stabilise, let down to it, and its drop timed (EN 1610 LA-LD, ASTM F1417: job/air-test.ts). The times count by themselves, from what
 * the pressure does; the hand says that it begins, and that it stops. Every attempt is told, whatever came of it.
 */
import { type AirTestSpec, airTestSpec, differenceU, isOverPlugs } from '../../job/air-test.ts';
import type { Setup } from '../../job/setup.ts';
import type { AirTestReason } from '../codes.ts';
import type { WatchEvent } from '../events.ts';
import type { AirTestWord } from '../inputs.ts';
import { round } from '../round.ts';
import { courseAdd, createCourse, LEVEL_S, levelAt } from './course.ts';
import { type Drop, dropBetween, isFineEnough, judgeDrop } from './judge.ts';
import type { AirTest, AirTestContext, AirTestRun } from './types.ts';

type Emit = (event: WatchEvent) => void;
type Told = Extract<WatchEvent, { e: 'air-test' }>;

export const createAirTest = (): AirTest => ({ phase: 'idle', attempt: 0, run: null, result: null });

/** The test pressure is met from this share of the allowed drop under it to as far over it, or this share of itself. */
const UNDER_SHARE = 0.1;
const OVER_SHARE = 0.2;
const OVER_OF_START = 0.05;
/** Under a quarter of the test pressure the pipe is empty again; a sensor's zero may be off by so much, bar (common practice, no source). */
const EMPTY_SHARE = 0.25;
const EMPTY_BAR = 0.003;
/** What has stood at the test pressure for so long and falls out of it goes by a leak: it is timed from there, s. */
const STOOD_S = 5;
/** Out of the test pressure sooner so often, and it does not hold it. */
const MOST_FALLS = 3;
/** Missing for longer than this, the pressure is not timed, s. */
const GAP_S = 5;
/** What came in within so many seconds, as a share of the allowed drop, was let in. */
const CAME_IN_S = 5;
const CAME_IN_SHARE = 0.3;
/** Temperature of pipe air where nothing is known of it, °C. */
const USUAL_C = 10;

const mbar2 = (bar: number): number => round(bar * 1000, 2);

/** The test pressure, as near as a hand is asked to come. */
export function startBand({ startBar, dropBar }: AirTestSpec): {
  readonly low: number;
  readonly high: number;
} {
  return {
    low: startBar - UNDER_SHARE * dropBar,
    high: startBar + Math.max(OVER_SHARE * dropBar, OVER_OF_START * startBar),
  };
}

/** The test that the Setup names; null: none, or an input of it is missing. */
export const specOf = (setup: Setup | null): AirTestSpec | null =>
  setup?.airTest === undefined ? null : airTestSpec(setup.airTest);

function tell(a: AirTest, what: Told['what'], tUs: number, told: Partial<Told>, emit: Emit): void {
  const { run } = a;
  emit({
    tUs,
    e: 'air-test',
    what,
    attempt: a.attempt,
    reason: null,
    verdict: null,
    method: run?.method ?? null,
    startMbar: null,
    dropMbar: null,
    allowedMbar: run === null ? null : mbar2(run.spec.dropBar),
    uMbar: null,
    warmedK: null,
    seconds: null,
    ...told,
  });
}

/** Why a test cannot begin; null: nothing speaks against it. */
function refusal(
  inStage: boolean,
  hasReading: boolean,
  setup: Setup | null,
): { readonly reason: AirTestReason } | Omit<AirTestRun, 'probed'> {
  const spec = specOf(setup);
  const ch = setup?.channels.find((c) => c.role === 'pressure');
  if (!inStage) return { reason: 'not-in-stage' };
  if (spec === null || setup?.airTest === undefined) return { reason: 'no-plan' };
  if (isOverPlugs(spec)) return { reason: 'over-plugs' };
  if (!hasReading || ch === undefined) return { reason: 'no-reading' };
  const supplied = setup.channels.some((c) => c.index === ch.partner && c.role === 'supply');
  const sensorUBar = differenceU(ch, spec, supplied);
  if (!isFineEnough(sensorUBar, spec.dropBar)) return { reason: 'sensor-too-coarse' };
  return {
    method: setup.airTest.method,
    spec,
    sensorUBar,
    stabilisedS: 0,
    settledFromS: null,
    falls: 0,
    startS: null,
    lastS: null,
    course: createCourse(),
  };
}

function begin(
  a: AirTest,
  probed: boolean,
  inStage: boolean,
  hasReading: boolean,
  { setup, tUs }: AirTestContext,
  emit: Emit,
): void {
  if (a.run !== null) return;
  const made = refusal(inStage, hasReading, setup);
  if ('reason' in made) {
    tell(a, 'refused', tUs, { reason: made.reason }, emit);
    a.result = { verdict: null, reason: made.reason, dropBar: null, uBar: null };
    return;
  }
  a.attempt++;
  a.run = { ...made, probed };
  a.result = null;
  a.phase = 'fill';
  tell(a, 'begun', tUs, {}, emit);
}

/** Ends the attempt; what stands between the plugs is to be let out. */
function over(a: AirTest, result: NonNullable<AirTest['result']>): void {
  a.result = result;
  a.run = null;
  a.phase = 'vent';
}

function breakOff(a: AirTest, reason: AirTestReason, tUs: number, emit: Emit): void {
  if (a.run === null) return;
  tell(a, 'broken-off', tUs, { reason }, emit);
  over(a, { verdict: null, reason, dropBar: null, uBar: null });
}

/** @param hasReading the pressure is read now */
export function airTestSaid(
  a: AirTest,
  said: AirTestWord,
  inStage: boolean,
  hasReading: boolean,
  ctx: AirTestContext,
  emit: Emit,
): void {
  switch (said) {
    case 'begin':
    case 'begin-probed':
      begin(a, said === 'begin-probed', inStage, hasReading, ctx, emit);
      return;
    case 'not-held':
      breakOff(a, 'not-held', ctx.tUs, emit);
      return;
    case 'stop':
      breakOff(a, 'stopped', ctx.tUs, emit);
      return;
    default:
      said satisfies never;
  }
}

/** Readings are missing, another sensor or Setup reads, another stage began, or the run ended. */
export function airTestBreaks(
  a: AirTest,
  reason: 'gap' | 'device' | 'stage' | 'end',
  tUs: number,
  emit: Emit,
): void {
  breakOff(a, reason, tUs, emit);
  if (reason === 'stage' && a.phase === 'vent') a.phase = 'idle';
}

/** The drop so far, or at the end of the time; null: not known yet. */
export function dropSoFar({ run }: AirTest, setup: Setup | null): Drop | null {
  if (run === null || run.startS === null || run.lastS === null) return null;
  const toS = Math.min(run.startS + run.spec.seconds, run.lastS - LEVEL_S / 2);
  if (toS - run.startS < LEVEL_S) return null;
  return dropBetween(run.course, run.startS, toS, {
    sensorUBar: run.sensorUBar,
    absoluteBar: (setup?.air.bar ?? 1.013) + run.spec.startBar,
    aboutC: setup?.ground?.c ?? USUAL_C,
  });
}

function judged(a: AirTest, run: AirTestRun, drop: Drop, tUs: number, isEnd: boolean, emit: Emit): void {
  const { spec } = run;
  const { verdict, reason } = judgeDrop(drop, spec.dropBar);
  // Before the end nothing but a drop that is surely too large is told.
  if (!isEnd && verdict !== 'failed') return;
  const startBar = levelAt(run.course, run.startS!)?.bar ?? spec.startBar;
  tell(
    a,
    'judged',
    tUs,
    {
      verdict,
      reason,
      startMbar: mbar2(startBar),
      dropMbar: mbar2(drop.dropBar),
      uMbar: mbar2(drop.uBar),
      warmedK: drop.warmedK === null ? null : round(drop.warmedK, 2),
      seconds: round(Math.min(spec.seconds, run.lastS! - LEVEL_S / 2 - run.startS!), 0),
    },
    emit,
  );
  over(a, { verdict, reason, dropBar: drop.dropBar, uBar: drop.uBar });
}

/** Air was let in while the drop is timed: no leak, and no warmth, makes such a rise. */
function cameIn({ course: { t, p }, startS, spec }: AirTestRun): boolean {
  const last = p.length - 1;
  const before = last - CAME_IN_S;
  if (before < 0 || startS === null || t[before]! < startS) return false;
  return p[last]! - p[before]! > CAME_IN_SHARE * spec.dropBar;
}

function timing(a: AirTest, run: AirTestRun, ctx: AirTestContext, emit: Emit): void {
  if (cameIn(run)) {
    breakOff(a, 'air-came-in', ctx.tUs, emit);
    return;
  }
  const drop = dropSoFar(a, ctx.setup);
  const isEnd = run.lastS! >= run.startS! + run.spec.seconds + LEVEL_S / 2 + 1;
  if (drop !== null) judged(a, run, drop, ctx.tUs, isEnd, emit);
  else if (isEnd) breakOff(a, 'gap', ctx.tUs, emit);
}

/** Standing at the test pressure with the valve shut, until its time begins. */
function settle(a: AirTest, run: AirTestRun, tS: number, bar: number, tUs: number, emit: Emit): void {
  const band = startBand(run.spec);
  const isIn = bar >= band.low && bar <= band.high;
  if (isIn) run.settledFromS ??= tS;
  const stoodS = run.settledFromS === null ? 0 : tS - run.settledFromS;
  if (isIn && stoodS < run.spec.settleS) {
    a.phase = 'settle';
    return;
  }
  if (isIn || (bar < band.low && stoodS >= STOOD_S)) {
    run.startS = tS;
    a.phase = 'timing';
    tell(a, 'timed', tUs, { startMbar: mbar2(bar), seconds: round(run.spec.seconds, 0) }, emit);
    return;
  }
  if (a.phase === 'settle' && bar < band.low && ++run.falls >= MOST_FALLS) {
    breakOff(a, 'not-held', tUs, emit);
    return;
  }
  run.settledFromS = null;
  a.phase = 'adjust';
}

/** Takes a usable reading in the stage of the test. @param bar without spikes */
export function airTestReading(a: AirTest, tS: number, bar: number, ctx: AirTestContext, emit: Emit): void {
  const { run } = a;
  if (run === null) {
    const spec = specOf(ctx.setup);
    if (a.phase !== 'vent' || (spec !== null && bar > Math.max(EMPTY_BAR, EMPTY_SHARE * spec.startBar)))
      return;
    a.phase = 'idle';
    tell(a, 'vented', ctx.tUs, {}, emit);
    return;
  }
  const { spec } = run;
  if (run.lastS !== null && tS - run.lastS > GAP_S) {
    breakOff(a, 'gap', ctx.tUs, emit);
    return;
  }
  const passedS = run.lastS === null ? 0 : tS - run.lastS;
  run.lastS = tS;
  const whole = courseAdd(run.course, tS, bar, run.probed ? ctx.airC : null);
  switch (a.phase) {
    case 'fill':
      if (bar >= spec.initialBar) a.phase = 'stabilise';
      return;
    case 'stabilise':
      // Topped up meanwhile it goes on; under the test pressure it waits.
      if (bar >= spec.startBar) run.stabilisedS += passedS;
      if (run.stabilisedS < spec.stabiliseS) return;
      a.phase = 'adjust';
      tell(a, 'stabilised', ctx.tUs, { seconds: round(run.stabilisedS, 0) }, emit);
      return;
    case 'adjust':
    case 'settle':
      settle(a, run, tS, bar, ctx.tUs, emit);
      return;
    case 'timing':
      if (whole) timing(a, run, ctx, emit);
      return;
    case 'idle':
    case 'vent':
      return;
    default:
      a.phase satisfies never;
  }
}
