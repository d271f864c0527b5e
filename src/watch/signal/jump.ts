import { median3 } from '../../estimate/robust.ts';
import type { Tap } from '../../job/setup.ts';
import { isAtZero } from './zero.ts';

/**
 * Has the sensor itself jumped? A connector, a wire or a bridge that gives way moves a reading at once and leaves its slope
 * as it was: before and after the step the fill, or the rest, is the same. Air does neither. A burst goes on falling or ends
 * near zero, a vent changes the slope, a hose's drop comes and goes with the flow.
 */
export interface Jump {
  /** Readings of the last seconds, s and bar, each the median of three, oldest first; two hundredths apart at least. */
  t: number[];
  p: number[];
  /** Place of the oldest that still counts: those before it are dropped many at a time. */
  from: number;
  /** The last raw readings, at most three. */
  raw: number[];
  /** Steps that stand, together, bar; null: none. */
  standingBar: number | null;
  /** Since when the line has stood at zero, s; null: it does not. */
  zeroS: number | null;
}

/** Readings are kept so far apart and so long, s. */
const SPACING_S = 0.0195;
const KEEP_S = 3.6;
/** Least step that is told, bar, and in standard deviations of a reading. */
const LEAST_BAR = 0.1;
const LEAST_SD = 8;
/**
 * What is slower may be air, bar/s. In a flow that goes on as before, twice the steepest fill that is known of; air that
 * comes in lets no level fall, so that downwards it need be steeper only than a vent that is opened beside the valve. At rest
 * a hand may open a small packer's valve wide for a moment, or its vent in a let-down: 4 l gain 1.6 bar/s through 20 m of
 * 6 mm hose from 6 bar, and lose 3 from 1.8 bar through a bore of 6 mm (choked flow, ISO 6358).
 */
const STEEPEST = { flow: 1.2, flowDown: 0.65, rest: 2.4, ventedDown: 5 } as const;
/**
 * A step takes no longer than this, s and sample periods: one or two; more where the sensor's own filter smears it, which
 * leaves a tail. There the steepest part of it tells: least of the step, bar, that goes faster than any air.
 */
const WITHIN = [
  { s: 0.05, periods: 1.2, isSmeared: false },
  { s: 0.11, periods: 2.2, isSmeared: false },
  { s: 0.2, periods: 3.2, isSmeared: true },
  { s: 0.3, periods: 3.2, isSmeared: true },
  { s: 0.5, periods: 5.2, isSmeared: true },
  { s: 0.8, periods: 5.2, isSmeared: true },
  { s: 1.2, periods: 5.2, isSmeared: true },
] as const;
const WIDEST_S = 1.2;
/** A wider one is for a level that falls while air comes in, s. */
const WIDEST_OTHER_S = 0.5;
/** So much of the least step is left by noise between two readings. */
const SHARP_SHARE = 0.7;
/** Stretches before and after the step, s, and readings in each: at the packer, and before a hose. */
const STRETCH_S = { packer: 0.45, hose: 1 } as const;
const LEAST_READINGS = 4;
/** The slopes are one within this share of them, and so many of their standard deviations. */
const SAME_SHARE = 0.2;
const SAME_SD = 3;
/** Before a hose a step by a valve changes the flow by at least the step's share of the pressure; half of it is the limit. */
const HOSE_SHARE = 0.5;
/** There both slopes must be those of a flow, bar/s: at rest a valve that is opened a little makes a step too. */
const FLOW = 0.03;
/** The stretches are straight lines but for noise: their scatter as a share of the step. */
const STRAIGHT = 0.1;
/** A fall at rest that leaves less than this share is a burst or a hose. */
const LEFT_SHARE = 0.5;
/** An opposite step takes the one that stands away where so much of it is left at most. */
const BACK_SHARE = 0.25;
/** The line stands at zero for so long that a pressure on its way through is none, s. */
const ZERO_S = 5;
/** Old readings are dropped so many at a time. */
const DROPPED = 64;
/** Readings further apart than so many spacings are no stretch. */
const GAP = 4;

export function createJump(): Jump {
  return { t: [], p: [], from: 0, raw: [], standingBar: null, zeroS: null };
}

/** Forget the readings, keep the step that stands: after a gap, or where the same numbers mean something else. */
export function jumpRestart(j: Jump): void {
  j.t.length = 0;
  j.p.length = 0;
  j.from = 0;
  j.raw.length = 0;
}

/** The sensor was compared, zeroed or changed: the step is known. */
export function jumpSettled(j: Jump): void {
  jumpRestart(j);
  j.standingBar = null;
  j.zeroS = null;
}

interface Line {
  readonly n: number;
  readonly slope: number;
  readonly atBar: number;
  readonly midS: number;
  readonly sd: number;
  readonly slopeSd: number;
}

/** Straight line through the readings [from, to). */
function lineOf(j: Jump, from: number, to: number): Line | null {
  const n = to - from;
  if (n < LEAST_READINGS) return null;
  let midS = 0;
  let atBar = 0;
  for (let i = from; i < to; i++) {
    midS += j.t[i]! / n;
    atBar += j.p[i]! / n;
  }
  let stt = 0;
  let stp = 0;
  for (let i = from; i < to; i++) {
    stt += (j.t[i]! - midS) ** 2;
    stp += (j.t[i]! - midS) * (j.p[i]! - atBar);
  }
  const slope = stp / stt;
  let rss = 0;
  for (let i = from; i < to; i++) rss += (j.p[i]! - atBar - slope * (j.t[i]! - midS)) ** 2;
  const sd = Math.sqrt(rss / (n - 2));
  return { n, slope, atBar, midS, sd, slopeSd: sd / Math.sqrt(stt) };
}

/**
 * Takes a usable reading.
 * @param watching the packer is filled, held or let down: else nothing is looked for
 * @param down no air is to come in any more: a line at zero is compared by itself
 */
export function jumpReading(
  j: Jump,
  tS: number,
  bar: number,
  uBar: number,
  tap: Tap,
  watching: boolean,
  down: boolean,
): void {
  const n = j.t.length;
  const last = n > j.from ? j.t[n - 1] : undefined;
  const before = n - 1 > j.from ? j.t[n - 2] : undefined;
  if (last !== undefined && before !== undefined && tS - last > Math.max(GAP * (last - before), 0.5))
    jumpRestart(j);
  j.raw.push(bar);
  if (j.raw.length > 3) j.raw.shift();
  followZero(j, tS, uBar, down);
  if (last !== undefined && tS - last < SPACING_S) return;
  j.t.push(tS);
  j.p.push(j.raw.length < 3 ? bar : median3(j.raw[0]!, j.raw[1]!, j.raw[2]!));
  while (tS - j.t[j.from]! > KEEP_S) j.from++;
  if (j.from >= DROPPED) {
    j.t.splice(0, j.from);
    j.p.splice(0, j.from);
    j.from = 0;
  }
  if (!watching) return;
  const found = stepAt(j, tap, down);
  if (found === null) return;
  // What came before the step tells nothing of what comes after it.
  jumpRestart(j);
  const sum = (j.standingBar ?? 0) + found;
  j.standingBar =
    j.standingBar !== null && Math.abs(sum) <= BACK_SHARE * Math.abs(j.standingBar) ? null : sum;
}

/**
 * A sensor that read too high and shows zero where no air is to be is right again. One that reads too low shows zero while
 * there is still air: only a comparison tells.
 */
function followZero(j: Jump, tS: number, uBar: number, down: boolean): void {
  if (j.standingBar === null || j.standingBar < 0) return;
  const [a, b, c] = j.raw;
  const level = a === undefined || b === undefined || c === undefined ? null : median3(a, b, c);
  if (!down || level === null || !isAtZero(level, uBar)) j.zeroS = null;
  else if (j.zeroS === null) j.zeroS = tS;
  else if (tS - j.zeroS >= ZERO_S) jumpSettled(j);
}

/** The step that lies one stretch back, bar; null: there is none. */
function stepAt(j: Jump, tap: Tap, down: boolean): number | null {
  const oldest = j.from;
  const n = j.t.length;
  if (n - oldest < 2 * LEAST_READINGS) return null;
  const atPacker = tap === 'packer';
  const stretchS = atPacker ? STRETCH_S.packer : STRETCH_S.hose;
  const end = j.t[n - 1]!;
  const period = (end - j.t[oldest]!) / (n - oldest - 1);
  // The stretch is about so many periods long: from there it is looked for both ways.
  let first = Math.max(oldest, Math.min(n - LEAST_READINGS, n - Math.floor(stretchS / period)));
  while (first > oldest && end - j.t[first - 1]! < stretchS) first--;
  while (first < n - LEAST_READINGS && end - j.t[first]! >= stretchS) first++;
  if (first - oldest < LEAST_READINGS) return null;
  // Most readings stand near the ones before them.
  const near = Math.max(oldest, first - 1 - Math.ceil(WIDEST_S / period) - 2);
  if (Math.abs(j.p[first]! - j.p[near]!) < LEAST_BAR / 2) return null;
  const after = lineOf(j, first, n);
  let found: number | null = null;
  for (const { s, periods, isSmeared } of WITHIN) {
    const withinS = Math.max(s, periods * period);
    let to = first;
    while (to > oldest && j.t[first]! - j.t[to - 1]! < withinS - 1e-6) to--;
    // The last one before the step still belongs to the stretch before it.
    let from = to;
    while (from > oldest && (j.t[to - 1]! - j.t[from - 1]! < stretchS || to - from < LEAST_READINGS)) from--;
    const before = lineOf(j, from, to);
    if (after === null || before === null) break;
    const between = stepBetween(before, after, atPacker);
    if (between === null) continue;
    const { step, flows } = between;
    // A hand at the vent makes such a fall, and a surge of the supply such a rise before a hose.
    if (isSmeared && (down || (step > 0 && !atPacker))) continue;
    const fallsInFlow = flows && step < 0 && before.slope > 0;
    if (s > WIDEST_OTHER_S && !fallsInFlow) continue;
    const steepest = fallsInFlow
      ? STEEPEST.flowDown
      : flows
        ? STEEPEST.flow
        : down && step < 0
          ? STEEPEST.ventedDown
          : STEEPEST.rest;
    if (!isSmeared && Math.abs(step) < steepest * withinS) continue;
    // A pause of the flow falls behind its slope, and no level falls.
    const slope = fallsInFlow ? 0 : (before.slope + after.slope) / 2;
    const part = Math.min(LEAST_BAR, SHARP_SHARE * Math.abs(step));
    if (!isTooSteep(j, to - 1, first, slope, Math.sign(step), part, steepest)) continue;
    // A wider look has less of the step in the line before it.
    if (found === null || Math.abs(step) > Math.abs(found)) found = step;
  }
  return found;
}

/**
 * Does so much of a step go faster than air between two of the readings [from, to]? Lines through what lies before and
 * behind it may show a step where a hand has opened the valve wide for a moment.
 */
function isTooSteep(
  j: Jump,
  from: number,
  to: number,
  slope: number,
  sign: number,
  leastBar: number,
  steepest: number,
): boolean {
  for (let i = from; i < to; i++)
    for (let k = i + 1; k <= to; k++) {
      const s = j.t[k]! - j.t[i]!;
      const bar = (j.p[k]! - j.p[i]! - slope * s) * sign;
      if (bar >= leastBar && bar >= steepest * s) return true;
    }
  return false;
}

/** The step between two lines of one slope, bar, and whether it is one of a flow; null: there is none. */
function stepBetween(
  before: Line,
  after: Line,
  atPacker: boolean,
): { readonly step: number; readonly flows: boolean } | null {
  const sd = Math.max(before.sd, after.sd);
  const slope = (before.slope + after.slope) / 2;
  const step = after.atBar - before.atBar - slope * (after.midS - before.midS);
  const size = Math.abs(step);
  if (size < Math.max(LEAST_BAR, LEAST_SD * sd) || sd > STRAIGHT * size) return null;
  const least = Math.min(Math.abs(before.slope), Math.abs(after.slope));
  const most = Math.max(Math.abs(before.slope), Math.abs(after.slope));
  const high = Math.max(before.atBar, after.atBar);
  const share = atPacker ? SAME_SHARE : Math.min(SAME_SHARE, (HOSE_SHARE * size) / Math.max(high, size));
  const doubt = SAME_SD * Math.hypot(before.slopeSd, after.slopeSd);
  const differ = Math.abs(after.slope - before.slope);
  if (differ > share * most + doubt) return null;
  // A doubt as wide as the slopes themselves tells nothing of a flow.
  const flows = least >= FLOW && doubt < least / 2;
  if (flows) return { step, flows };
  // From an empty line up it is the air that begins.
  if (!atPacker || (step > 0 && before.atBar < LEAST_BAR)) return null;
  return step < 0 && after.atBar < LEFT_SHARE * before.atBar ? null : { step, flows };
}
