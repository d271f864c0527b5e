import type { ResinSetup, Setup } from '../../job/setup.ts';
import type { CupDoubt } from '../codes.ts';
import type { WatchEvent } from '../events.ts';
import { round } from '../round.ts';
import type { ProbeNow } from './coldest.ts';
import { heatingOf } from './coldest.ts';
import { type CupCourse, courseOn, createCourse } from './cup-course.ts';
import { type CupHeat, greatestHeat, LEAST_RISE_K, riseOf } from './cup-heat.ts';
import { type CupSaid, type CupSeen, judgeCup, NOTHING_SAID } from './cup-judge.ts';
import { AS_THE_SHEET, type Batch, batchOf } from './cup-speed.ts';
import { fitSheet, minutesAt, type SheetFit } from './sheet.ts';

/**
 * The witness cup: a probe in a cup of the mixed resin, from mixing on. By its own course of temperature it tells how quick this
 * batch is against the resin's earlier ones (docs/science.md). Plain data.
 */
export interface Cup {
  readonly mixedUs: number;
  lastUs: number;
  lastC: number | null;
  /** The sheet's time at the cup's temperature since mixing (1 = all of it). */
  age: number;
  course: CupCourse;
  heat: CupHeat | null;
  riseK: number;
  /** It was not read for too long. */
  lost: boolean;
  /** Once the probe had the time to be put in, °C. */
  startC: number | null;
  /** The warmest that the cup, and since seating a probe on the sleeve, have read, °C. */
  mostC: number;
  sleeveMostC: number;
  /** What a probe on the pipe's wall read when the sleeve was seated, °C; null: none is there. */
  pipeFromC: number | null;
  said: CupSaid;
  /** What the count makes of it. */
  batch: Batch;
  /** The mark of the greatest heat was told. */
  marked: boolean;
}

/** By then the probe is in the cup; until then it has the pot's temperature, s (common practice, no source). */
const PUT_IN_S = 240;
const STEP_US = 1e6;
/** A longer way than this between two steps is a gap, µs. */
const GAP_US = 5e6;
/** A gap of so much of the time since mixing is no longer bridged, and never one under a minute. */
const GAP_SHARE = 0.05;
const GAP_LEAST_S = 60;
/** What the pot's temperature and the cup's first may differ by, K (common practice, no source): colder by some cooling ... */
const POT_K = 6;
/** ... warmer only where it goes on warming by itself, which is seen by now, in stretches. */
const SEEN_BY = 30;
/** Before seating the sleeve's probe may lie in a hand; over this it lies in reacting resin, °C. */
const NO_HAND_C = 40;
/** A thin sleeve against a cold pipe stays cooler than a cup of the same batch; where it does not, by this much, K. */
const SLEEVE_OVER_K = 5;

export const createCup = (mixedUs: number): Cup => ({
  mixedUs,
  lastUs: mixedUs,
  lastC: null,
  age: 0,
  course: createCourse(),
  heat: null,
  riseK: 0,
  lost: false,
  startC: null,
  mostC: -Number.MAX_VALUE,
  sleeveMostC: -Number.MAX_VALUE,
  pipeFromC: null,
  said: NOTHING_SAID,
  batch: AS_THE_SHEET,
  marked: false,
});

export const hasCup = (setup: Setup | null): boolean =>
  setup?.channels.some((c) => c.role === 'temperature' && c.place === 'cup') ?? false;

/** A sheet is fitted once for each resin that comes with a Setup. */
const fits = new WeakMap<ResinSetup, SheetFit | null>();

function fitOf(setup: Setup | null): SheetFit | null {
  const resin = setup?.resin ?? null;
  if (resin === null || resin.curedBy === 'light') return null;
  let fit = fits.get(resin);
  if (fit === undefined) {
    fit = fitSheet(resin);
    fits.set(resin, fit);
  }
  return fit;
}

/**
 * Goes on to tUs; at most once a second does it work.
 * @param probes with a fresh usable value
 * @param seated the sleeve is on the wall: from then on a probe on it reads the sleeve
 */
export function cupTick(
  s: Cup,
  tUs: number,
  probes: readonly ProbeNow[],
  setup: Setup | null,
  seated: boolean,
  emit: (event: WatchEvent) => void,
): void {
  if (tUs - s.lastUs < STEP_US || !hasCup(setup)) return;
  const fit = fitOf(setup);
  if (fit === null) return;
  for (const p of probes) followSleeve(s, p, seated);
  const c = probes.find((p) => p.place === 'cup')?.c ?? null;
  const sinceS = (tUs - s.mixedUs) / 1e6;
  if (c === null) {
    if (isLong((tUs - s.lastUs) / 1e6, sinceS)) s.lost = true;
    if (s.lost) tell(s, tUs, setup, emit);
    return;
  }
  const ended = take(s, tUs, c, setup, fit);
  if (!ended && s.said !== NOTHING_SAID) {
    // Between two stretches only a hotter sleeve is news.
    if (doubtOf(s, setup) === s.said.doubt) return;
  } else if (!ended) return;
  tell(s, tUs, setup, emit);
}

/** A wall that the resin has warmed has a sleeve on it that is hotter still. */
function followSleeve(s: Cup, { place, c }: ProbeNow, seated: boolean): void {
  if (place === 'pipe' && seated) s.pipeFromC ??= c;
  const isWarmed = place === 'pipe' && s.pipeFromC !== null && c > s.pipeFromC + SLEEVE_OVER_K;
  if (isWarmed || (place === 'sleeve' && (seated || c > NO_HAND_C)))
    s.sleeveMostC = Math.max(s.sleeveMostC, c);
}

/**
 * The probes that a count goes by. Where the sleeve was hotter than a cup of its batch nobody knows which of the two probes is
 * where: both are taken for the sleeve's, and the colder one counts.
 */
export function believedBeside(cup: Cup | null, probes: readonly ProbeNow[]): readonly ProbeNow[] {
  if (cup?.said.doubt !== 'cooler-than-sleeve') return probes;
  return probes.map((p) => (p.place === 'cup' ? { ...p, place: 'sleeve' } : p));
}

const isLong = (gapS: number, sinceS: number): boolean => gapS > Math.max(GAP_LEAST_S, GAP_SHARE * sinceS);

/** True where a stretch of the course was ended by it. */
function take(s: Cup, tUs: number, c: number, setup: Setup | null, fit: SheetFit): boolean {
  const sinceS = (tUs - s.mixedUs) / 1e6;
  const seconds = (tUs - s.lastUs) / 1e6;
  const before = s.lastC;
  s.lastUs = tUs;
  s.lastC = c;
  if (sinceS <= PUT_IN_S) {
    s.age += ageBy(fit, seconds, setup?.resin?.potC ?? c);
    return false;
  }
  s.startC ??= c;
  s.mostC = Math.max(s.mostC, c);
  if (seconds * 1e6 > GAP_US && isLong(seconds, sinceS)) s.lost = true;
  const mean = before === null ? c : (before + c) / 2;
  s.age += ageBy(fit, seconds, mean);
  if (!courseOn(s.course, seconds, mean, s.age)) return false;
  s.riseK = riseOf(s.course);
  // What has passed is not looked for again: a warmer day is no second peak.
  if (s.heat === null || !s.heat.passed)
    s.heat = greatestHeat(s.course, setup?.resin?.cup?.massG ?? null, (at) => minutesAt(fit, at));
  return true;
}

/** No sheet speaks of the heat of a cup that runs away: so far over its hottest point it counts no faster, K. */
const OVER_SHEET_K = 20;
const ageBy = (fit: SheetFit, seconds: number, c: number): number =>
  seconds / 60 / minutesAt(fit, Math.min(c, fit.hottestC + OVER_SHEET_K));

/** A resin that warms by itself within minutes of mixing, or a cup that was mixed before: the pot's temperature is not what it had until then. */
const isWarm = ({ startC }: Cup, setup: Setup | null): boolean => {
  const potC = setup?.resin?.potC;
  return potC !== undefined && startC !== null && startC > potC + POT_K;
};

function doubtOf(s: Cup, setup: Setup | null): CupDoubt | null {
  if (!s.lost && heatingOf(setup) === 'none' && s.sleeveMostC > s.mostC + SLEEVE_OVER_K)
    return 'cooler-than-sleeve';
  const potC = setup?.resin?.potC;
  if (potC !== undefined && s.startC !== null) {
    if (s.startC < potC - POT_K) return 'not-of-pot';
    const isStill = s.riseK < LEAST_RISE_K && s.course.means.length >= SEEN_BY;
    if (isWarm(s, setup) && isStill && s.heat === null) return 'not-of-pot';
  }
  return s.lost && !s.heat?.passed ? 'lost' : null;
}

function tell(s: Cup, tUs: number, setup: Setup | null, emit: (event: WatchEvent) => void): void {
  const { age, riseK, heat } = s;
  const before = s.said;
  const seen: CupSeen = {
    age,
    riseK,
    heat,
    doubt: doubtOf(s, setup),
    brief: s.course.means.length < SEEN_BY,
    warm: isWarm(s, setup),
  };
  const mark = setup?.resin?.cup?.mark ?? null;
  // What was slow when its probe was lost is no quicker for that.
  if (seen.doubt !== 'lost') s.batch = batchOf(seen, mark);
  const said = judgeCup(seen, mark);
  // What was late without its peak does not become less so by warming at last.
  const late = before.verdict === 'slow' || (before.verdict === 'no-reaction' && mark !== null);
  if (late && said.verdict === 'reacts') return;
  s.said = said;
  const isNew = said.verdict !== before.verdict || said.doubt !== before.doubt;
  const marks = heat?.passed === true && !s.marked;
  if (!isNew && !marks) return;
  s.marked ||= marks;
  const { times } = said;
  emit({
    tUs,
    e: 'cup',
    verdict: said.verdict,
    doubt: said.doubt,
    times: times && {
      least: round(times.least, 2),
      value: times.value === null ? null : round(times.value, 2),
      most: times.most === null ? null : round(times.most, 2),
    },
    heatAge: heat?.passed ? round(heat.age, 3) : null,
    riseK: round(riseK, 1),
  });
}
