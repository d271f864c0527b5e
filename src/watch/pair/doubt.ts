/**
 * What two pressures of one line say of each other. Air flows from the outlet to the packer and never back through it, so signs alone
 * tell much: a packer that rises, or is full before anybody fills it, while its supply reads nothing, or less than the packer does.
 * Where they must agree they do within their uncertainty. A difference that a shut valve can make says nothing. Plain data.
 */
import type { SecondPressure } from '../../job/codes.ts';
import type { PairDoubt } from '../codes.ts';

export interface Doubts {
  /** Since when each is seen without a break, s of the samples; null: it is not. */
  since: { [D in PairDoubt]: number | null };
  /** Both were seen empty in this run, and none has risen yet. */
  bothEmpty: boolean;
  /** Told, and not yet taken back. */
  found: PairDoubt | null;
}

export const createDoubts = (): Doubts => ({
  since: { swapped: null, 'against-flow': null, apart: null },
  bothEmpty: false,
  found: null,
});

/** Each must last so long, s. */
const LASTS_S: { readonly [D in PairDoubt]: number } = { swapped: 0.5, 'against-flow': 1.5, apart: 5 };
/** Under this a line is as good as empty, over that it holds air, bar (common practice, no source). */
const EMPTY_BAR = 0.1;
const HOLDS_BAR = 0.3;
/** Two sensors of one pressure may be apart by this on the way, s of its slope: filters and sense lines are not the same (common practice, no source). */
const APART_S = 0.5;
/** Warmth makes no such rise in a packer whose valve is shut, bar/s. */
const RISES_BAR_S = 0.005;

export interface PairNow {
  readonly tS: number;
  readonly role: SecondPressure;
  /** Medians, bar. */
  readonly bar: number;
  readonly secondBar: number;
  /** Combined expanded uncertainty of the difference, bar. */
  readonly uBar: number;
  /** Slope of the packer's pressure that is sure, bar/s; 0: none is. */
  readonly risesBarPerS: number;
  /** The quicker of both slopes, without its sign, bar/s. */
  readonly movesBarPerS: number;
  /** Nobody has let air to the packer yet. */
  readonly preparing: boolean;
  /** Air is let out: a packer may feed the line, and its supply need not. */
  readonly down: boolean;
  /** Nothing but a wrong sensor makes them differ (must-agree.ts). */
  readonly mustAgree: boolean;
}

const tooFarApart = ({ bar, secondBar, uBar, movesBarPerS }: PairNow): boolean =>
  Math.abs(bar - secondBar) > uBar + APART_S * movesBarPerS;

/** Each by itself. */
const SEEN: { readonly [D in PairDoubt]: (d: Doubts, p: PairNow) => boolean } = {
  // The first rise of the run is the outlet's, wherever the valve stands; and nothing is full that nobody has filled.
  swapped: (d, p) =>
    p.role === 'outlet-pressure' &&
    (d.bothEmpty || p.preparing) &&
    !p.down &&
    p.bar > HOLDS_BAR &&
    p.secondBar < EMPTY_BAR + p.uBar,
  'against-flow': (_, p) =>
    p.role === 'outlet-pressure' && !p.down && p.risesBarPerS > RISES_BAR_S && p.bar - p.secondBar > p.uBar,
  apart: (_, p) => p.mustAgree && tooFarApart(p),
};

/** Most telling first. */
const ORDER: readonly PairDoubt[] = ['swapped', 'against-flow', 'apart'];

/** What is told is taken back when they agree again while air flows, or at rest where they are joined, for the same time. */
function agree(d: Doubts, p: PairNow): boolean {
  if (p.role === 'outlet-pressure' && p.risesBarPerS > RISES_BAR_S && p.secondBar - p.bar > p.uBar)
    return true;
  return d.found === 'apart' && p.mustAgree && Math.abs(p.bar - p.secondBar) < 0.9 * p.uBar;
}

export function doubtsReading(d: Doubts, p: PairNow): void {
  const second = p.secondBar;
  if (p.bar < EMPTY_BAR && second < EMPTY_BAR) d.bothEmpty = true;
  // Sound: the outlet was first.
  else if (second > HOLDS_BAR && p.bar < EMPTY_BAR + p.uBar) d.bothEmpty = false;
  for (const doubt of ORDER) {
    if (!SEEN[doubt](d, p)) d.since[doubt] = null;
    else d.since[doubt] ??= p.tS;
  }
  const told = ORDER.find((doubt) => d.since[doubt] !== null && p.tS - d.since[doubt]! >= LASTS_S[doubt]);
  if (told !== undefined) d.found ??= told;
  else if (d.found !== null && agree(d, p)) d.found = null;
}

/** Readings are missing: nothing lasts over them. */
export function doubtsBreak(d: Doubts): void {
  d.since = createDoubts().since;
}

/** They have differed where nothing but a wrong sensor makes them, s of the samples. */
export const apartForS = (d: Doubts, tS: number): number => (d.since.apart === null ? 0 : tS - d.since.apart);
