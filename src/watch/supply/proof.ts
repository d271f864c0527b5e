/**
 * Proof of the supply before the packer is on the hose: the end of the line is closed, the supply is opened, and the small
 * volume locks up at the regulator's closed-end pressure. Setting a regulator against a closed hose is common practice, no
 * source. Whether the end is closed is asked, and checked: by the time of the rise and what goes on rising after it (a packer takes
 * far longer than a hose), by what is left when the valve is shut (an open end empties at once), and by the first fill after it (supply.ts).
 */
import type { LineEnd, SupplyReason } from '../codes.ts';
import type { Bounded, WatchEvent } from '../events.ts';
import type { SupplyWord } from '../inputs.ts';
import { bar3 } from '../round.ts';
import { courseAdd, courseFrom, courseLine, courseMean, courseS, createCourse, standing } from './course.ts';
import { isCreepTold, judgeSupply } from './judge.ts';
import { breakOff, figures, supplyEvent } from './proof-event.ts';
import { createRise, riseAdd, riseTimeS } from './rise.ts';
import type { Outcome, Proof, ProofContext, ProofPhase } from './types.ts';

/** Of lock-up: between these shares a proof and the first fill after it are compared. */
export const PACE = { from: 0.2, to: 0.95 } as const;

/** Over this a line is not empty, bar, beside the reading's own uncertainty (a zero may lie as far off). */
const EMPTY_BAR = 0.05;
/** A rise begins so far over the start, bar. */
export const RISEN_BAR = 0.05;
/**
 * A hose of 25 m and 6 mm holds 0.7 l, a packer 6-100 l. What takes longer than this is asked about, s: not to nine tenths but nearly
 * all the way, since a reading before the hose comes near the regulator's at once and shows only by the rest that air flows on.
 */
const RISE_ASKED_S = 3;
const RISEN_SHARE = 0.985;
/** What goes on rising faster than this behind a closed end may be a packer's fill, bar/s (12 mbar/min; common practice, no source). */
const FILLS_BAR_S = 0.0002;
/**
 * It still rises where the last second and a half brought more than this share; a hose has come to rest by GAINS_ON_S, and then a smaller
 * share is asked about. (A packer of 22 l behind a wide hose gains a fourteenth of what it reads: it was over its rating with nothing asked.)
 */
const GAINED_SHARE = 0.1;
const GAINED_S = 1.5;
const GAINS_ON_S = 5;
const GAINS_ON_SHARE = 0.03;
/** Locked up: over so many seconds the slope is under this share of a second of the level itself, or under the least, bar/s. */
const STILL_S = 5;
const STILL_SHARE = 0.02;
const STILL_BAR_S = 0.002;
/** There is a knee: a slope that is no smaller than this share of the fastest is still the rise. */
const KNEE_SHARE = 0.1;
/** The slope of the later half is the same up to this share of it. */
const FADES_SHARE = 0.1;
/** A rise that does not come to rest within this has a leak or an open end, s. */
const NEVER_STILL_S = 90;
/** Nobody waits longer than this for a supply to be opened, s. */
const NO_RISE_S = 300;
/** The creep is watched for so long, or for so long where it cannot be told by then, s. */
const WATCH_S = 30;
const WATCH_MOST_S = 60;
const NOT_KNOWN: Bounded = { value: 0, low: 0, high: 0 };
/** Off what it stood at by more than this it is set anew, bar and share of the level. */
const MOVED_BAR = 0.03;
const MOVED_SHARE = 0.03;
/**
 * Less than this share of the level is left when a hose shares its air with a packer: 0.7 l with 6 l or more leave a tenth. What is let out
 * for a regulator that had overshot comes back within so long, µs.
 */
const GONE_SHARE = 0.5;
const COMES_BACK_US = 8e6;
/** With the valve shut so long, a line that lost more than this is open or leaks, s and bar. */
const TIGHT_S = 5;
const TIGHT_BAR = 0.05;

/** Seconds that a phase needs; null: a hand ends it. The watch has the means of the time of standing still behind it already. */
export function phaseS({ phase }: Proof): number | null {
  if (phase === 'watching') return WATCH_S - STILL_S / 2;
  return phase === 'tight' ? TIGHT_S : null;
}

type Emit = (event: WatchEvent) => void;

/** @param startBar level now, bar; null: no reading */
export function beginProof(
  end: LineEnd,
  inPrepare: boolean,
  startBar: number | null,
  ctx: ProofContext,
  emit: Emit,
): Proof | null {
  const reason: SupplyReason | null = !inPrepare
    ? 'not-in-prepare'
    : startBar === null
      ? 'no-reading'
      : startBar > EMPTY_BAR + ctx.uBar
        ? 'not-empty'
        : null;
  const bar = startBar === null ? null : bar3(startBar);
  if (reason !== null || startBar === null) {
    emit(supplyEvent(ctx.tUs, 'refused', { reason, end, bar }));
    return null;
  }
  emit(supplyEvent(ctx.tUs, 'begun', { end, bar }));
  return {
    end,
    phase: 'open',
    sinceUs: ctx.tUs,
    startBar,
    rise: createRise(),
    course: createCourse(),
    fastest: 0,
    riseS: null,
    askedUs: null,
    slowSaid: false,
    found: null,
    shutBar: null,
    topBar: startBar,
    goneUs: null,
  };
}

function enter(p: Proof, phase: ProofPhase, tUs: number): void {
  p.phase = phase;
  p.sinceUs = tUs;
}

/** The line was emptied before the proof was whole: it waits for the next rise. */
function beginAgain(p: Proof, tUs: number): void {
  p.rise = createRise();
  p.course = createCourse();
  p.fastest = 0;
  p.riseS = null;
  p.found = null;
  p.askedUs = null;
  p.shutBar = null;
  enter(p, 'open', tUs);
}

function ask(p: Proof, ctx: ProofContext, bar: number, emit: Emit): void {
  if (p.askedUs !== null || p.slowSaid || ctx.beforeValve) return;
  p.askedUs = ctx.tUs;
  emit(supplyEvent(ctx.tUs, 'asked', { ...figures(p), reason: 'slow-rise', end: p.end, bar: bar3(bar) }));
}

/** Locked up: it moves little, and no less than it did. What still settles has a slope that fades. */
function lockedUp(p: Proof): boolean {
  const line = courseLine(p.course, STILL_S);
  const later = courseLine(p.course, STILL_S / 2);
  if (line === null || later === null) return false;
  const most = Math.min(STILL_SHARE * Math.abs(line.meanY), KNEE_SHARE * p.fastest);
  const slow = Math.abs(line.slope) <= Math.max(STILL_BAR_S, most);
  return slow && Math.abs(later.slope - line.slope) <= STILL_BAR_S / 2 + FADES_SHARE * Math.abs(line.slope);
}

function rising(p: Proof, ctx: ProofContext, tS: number, bar: number, emit: Emit): Outcome {
  const forS = (ctx.tUs - p.sinceUs) / 1e6;
  riseAdd(p.rise, tS, bar);
  if (!courseAdd(p.course, tS, bar)) return 'goes-on';
  p.fastest = Math.max(p.fastest, courseLine(p.course, 1)?.slope ?? 0);
  const gained = courseLine(p.course, GAINED_S);
  const share = forS > GAINS_ON_S ? GAINS_ON_SHARE : GAINED_SHARE;
  if (forS > RISE_ASKED_S && gained !== null && gained.slope * GAINED_S > share * bar) ask(p, ctx, bar, emit);
  if (lockedUp(p)) return lock(p, ctx, tS, bar, emit);
  return forS > NEVER_STILL_S ? breakOff(p, 'never-still', ctx.tUs, bar, emit) : 'goes-on';
}

function lock(p: Proof, ctx: ProofContext, tS: number, bar: number, emit: Emit): Outcome {
  // The end of the rise, and its heat, are no creep.
  courseFrom(p.course, tS - STILL_S / 2);
  const level = courseMean(p.course, STILL_S / 2) ?? bar;
  const rise = level - p.startBar;
  p.riseS = riseTimeS(p.rise, p.startBar + RISEN_BAR, p.startBar + RISEN_SHARE * rise);
  if (p.riseS !== null && p.riseS > RISE_ASKED_S) ask(p, ctx, bar, emit);
  enter(p, 'watching', ctx.tUs);
  judge(p, ctx);
  emit(supplyEvent(ctx.tUs, 'locked', { ...figures(p), bar: bar3(bar) }));
  return 'goes-on';
}

/** Until it was watched for long enough a slope is the end of the rise and its heat: its level is judged, and no creep is told. */
function judge(p: Proof, ctx: ProofContext): void {
  const now = standing(p.course);
  if (now === null || ctx.limits === null) return;
  const told = courseS(p.course) < WATCH_S ? { ...now, creep: NOT_KNOWN } : now;
  p.found = { ...now, ...judgeSupply(told, ctx.limits, ctx.uBar) };
}

const standsTooHigh = ({ found }: Proof): boolean =>
  found?.verdict === 'over-ceiling' || found?.verdict === 'over-working';

/** So far it stands from where its course leads, bar; 0: there. It was set anew, or the line was emptied. */
function movedBy(p: Proof, bar: number): number {
  const line = courseLine(p.course, courseS(p.course));
  const level = courseMean(p.course, 1);
  if (line === null || level === null) return 0;
  const least = Math.max(MOVED_BAR, MOVED_SHARE * line.meanY);
  const here = line.intercept + line.slope * p.course.t[p.course.t.length - 1]!;
  if (bar < here - 3 * least) return bar - here;
  return Math.abs(level - here) > least ? level - here : 0;
}

function watching(p: Proof, ctx: ProofContext, tS: number, bar: number, emit: Emit): Outcome {
  riseAdd(p.rise, tS, bar);
  if (!courseAdd(p.course, tS, bar)) return 'goes-on';
  const by = movedBy(p, bar);
  if (by !== 0) {
    // The regulator was set higher, or the level before was only the flow's into a packer.
    if (by > 0) ask(p, ctx, bar, emit);
    // What falls while the valve is to be shut has an open end, or leaks; a regulator that stood too high is being lowered.
    else if (p.phase === 'shut' && !standsTooHigh(p)) return breakOff(p, 'end-leaks', ctx.tUs, bar, emit);
    p.course = createCourse();
    p.found = null;
    enter(p, 'rising', ctx.tUs);
    return 'goes-on';
  }
  judge(p, ctx);
  // A packer behind the hose fills on; a regulator that creeps so fast is asked about, too.
  if (p.found !== null && p.found.creep.low > FILLS_BAR_S) ask(p, ctx, bar, emit);
  if (p.phase === 'shut') return 'goes-on';
  const forS = courseS(p.course);
  const told = p.found !== null && ctx.limits !== null && isCreepTold(p.found, ctx.limits);
  if (forS < (told ? WATCH_S : WATCH_MOST_S) || p.askedUs !== null) return 'goes-on';
  if (ctx.beforeValve) return prove(p, ctx, emit);
  enter(p, 'shut', ctx.tUs);
  return 'goes-on';
}

function tight(p: Proof, ctx: ProofContext, tS: number, bar: number, emit: Emit): Outcome {
  courseAdd(p.course, tS, bar);
  const level = courseMean(p.course, 1);
  if (level === null || p.shutBar === null) return 'goes-on';
  const lost = p.shutBar - level;
  const most = Math.max(TIGHT_BAR, 2 * ctx.uBar);
  if (lost > most) return breakOff(p, 'end-leaks', ctx.tUs, bar, emit);
  return ctx.tUs - p.sinceUs < TIGHT_S * 1e6 ? 'goes-on' : prove(p, ctx, emit);
}

function prove(p: Proof, ctx: ProofContext, emit: Emit): Outcome {
  const { found } = p;
  if (found === null) return breakOff(p, 'never-still', ctx.tUs, null, emit);
  emit(supplyEvent(ctx.tUs, 'proved', figures(p)));
  enter(p, 'vent', ctx.tUs);
  const from = p.startBar;
  const rise = found.lockUp.value - from;
  const paceS = riseTimeS(p.rise, from + PACE.from * rise, from + PACE.to * rise);
  return { ...found, uBar: ctx.uBar, paceS };
}

/** What was said of one rise is not said of the next: where air has gone and does not come back a packer may have been coupled. */
function followTop(p: Proof, ctx: ProofContext, bar: number, empty: boolean, emit: Emit): void {
  if (empty || bar >= GONE_SHARE * p.topBar) {
    p.goneUs = null;
    p.topBar = Math.max(p.topBar, bar);
    return;
  }
  p.goneUs ??= ctx.tUs;
  if (!p.slowSaid || ctx.tUs - p.goneUs < COMES_BACK_US) return;
  p.slowSaid = false;
  ask(p, ctx, bar, emit);
}

/** Takes a usable reading. @param bar median of three */
export function proofReading(p: Proof, tS: number, bar: number, ctx: ProofContext, emit: Emit): Outcome {
  const empty = bar < p.startBar + RISEN_BAR;
  if (p.phase === 'rising' || p.phase === 'watching') followTop(p, ctx, bar, empty, emit);
  switch (p.phase) {
    case 'open':
      if (!empty) {
        enter(p, 'rising', ctx.tUs);
        return rising(p, ctx, tS, bar, emit);
      }
      return ctx.tUs - p.sinceUs > NO_RISE_S * 1e6 ? breakOff(p, 'no-rise', ctx.tUs, bar, emit) : 'goes-on';
    case 'rising':
      if (empty) beginAgain(p, ctx.tUs);
      else return rising(p, ctx, tS, bar, emit);
      return 'goes-on';
    case 'shut':
      // Shut, and before anybody could say so it was empty: the end is open. Or the vent was opened, and nothing is shown.
      if (empty) return breakOff(p, 'end-leaks', ctx.tUs, bar, emit);
      return watching(p, ctx, tS, bar, emit);
    case 'watching':
      if (empty) beginAgain(p, ctx.tUs);
      else return watching(p, ctx, tS, bar, emit);
      return 'goes-on';
    case 'tight':
      return tight(p, ctx, tS, bar, emit);
    case 'vent':
      if (!empty) return 'goes-on';
      emit(supplyEvent(ctx.tUs, 'vented', { bar: bar3(bar) }));
      return 'over';
    default:
      return p.phase satisfies never;
  }
}

/** @param bar level now, bar; null: none */
export function proofWord(p: Proof, said: SupplyWord, bar: number | null, tUs: number, emit: Emit): Outcome {
  switch (said) {
    case 'slow-valve':
      p.askedUs = null;
      p.slowSaid = true;
      return 'goes-on';
    case 'packer-on':
      return breakOff(p, 'packer-on', tUs, bar, emit);
    case 'turned':
      return 'goes-on'; // seen by itself while the supply is open
    case 'stop':
      return p.phase === 'vent' ? 'over' : breakOff(p, 'stopped', tUs, bar, emit);
    case 'valve-shut':
      if (p.phase !== 'shut' || bar === null) return 'goes-on';
      p.shutBar = bar;
      p.course = createCourse();
      enter(p, 'tight', tUs);
      return 'goes-on';
    default:
      return said satisfies never;
  }
}

/** The stage changed, or readings are missing. */
export function proofEnds(p: Proof, reason: 'stage' | 'gap' | 'device', tUs: number, emit: Emit): void {
  if (p.phase !== 'vent') breakOff(p, reason, tUs, null, emit);
}

/** A question that nobody answers for so long is answered by the air that comes in, µs. */
const ANSWER_US = 15e6;

/** The rise is a hose's, as far as anybody can tell: the guard of a packer's fill has no say in it. */
export const isHoseRise = (p: Proof | null): boolean => p !== null && p.askedUs === null;

/** The air that comes in was announced, by a proof that nobody doubts, or has had no time yet to answer for. */
export const isAnnounced = (p: Proof | null, tUs: number): boolean =>
  p !== null && (p.askedUs === null || tUs - p.askedUs < ANSWER_US);
