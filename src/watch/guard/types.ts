/**
 * Shapes of the guard's memory and of its context. Plain data throughout: it is snapshotted with the watch. Each part of
 * the guard works on this memory, so the shapes lie under all of them and import none.
 */

import type { SubsonicFit } from '../../estimate/subsonic.ts';
import type { Limits, Line, Reaction, Tap } from '../../job/setup.ts';
import type { Stage } from '../codes.ts';
import type { AlarmValues, Bounded } from '../events.ts';
import type { TooFast } from '../view.ts';
import type { BlockRow } from './blocks.ts';
import type { CleanState } from './clean.ts';

export interface GuardContext {
  readonly limits: Limits | null;
  readonly tap: Tap;
  readonly line: Line;
  readonly reaction: Reaction;
  readonly stage: Stage;
  readonly ventOpen: boolean;
  /** Age of the hold that the crew has said, s; null or left out: none, or it was read off the data. */
  readonly holdS?: number | null;
  /** The sensor has jumped, or reads too low by the dial gauge: no level of it is to be counted down to. */
  readonly doubtful?: boolean;
  /** A hose behind a closed end fills, as it was announced: no packer is on it. */
  readonly hoseRise?: boolean;
  /** An alarm asks for air: the hold leaks, or is under its floor or soon will be. */
  readonly topUpAsked?: boolean;
}

/** What the bank of supply pressures says, gauge bar; kept between its evaluations. */
export interface SettleBelief {
  readonly atS: number;
  readonly bar: number;
  readonly low: number;
  readonly high: number;
  /** Chi-square by which everything that settles under the ceiling is worse, and by which an open supply is. */
  readonly underExcess: number;
  readonly openExcess: number;
  /** Chi-square by which everything that settles within a little of the present level is worse. */
  readonly nearExcess: number;
  /** The best fit, absolute bar. */
  readonly fit: SubsonicFit;
  readonly reduced: number;
}

export interface RecentBelief {
  readonly bar: number;
  readonly nearExcess: number;
  readonly openExcess: number;
}

/** Motion over the last moments, from the short blocks. */
export interface Motion {
  readonly atS: number;
  /** bar/s now and its standard deviation. */
  readonly rate: number;
  readonly sd: number;
  /** Fastest steady rise of the last two seconds, bar/s: what a stop is seen against. */
  readonly before: number;
  /** Slope of the stretch that ended 0.4 s ago, bar/s. */
  readonly ago: number;
  /** Middle of the window: level and time. */
  readonly bar: number;
  readonly midS: number;
}

export type RisingKind = 'settle' | 'left-band' | 'hand-time' | 'opened';

export interface StopMemory {
  /** Rise after the slope began to fall, as seconds of the slope before: hand and after-rise together. */
  readonly reachS: number;
  /** Fall instead of a rise, before a hose: its drop while air flowed. */
  readonly dropS: number;
  readonly atS: number;
}

/** The search for the knee (knee.ts). */
export interface KneeState {
  /** Limp line so far: sums over long blocks about the first. */
  n: number;
  t0: number;
  st: number;
  sp: number;
  stt: number;
  stp: number;
  /** Time of the last block that is in it or must not be, s. */
  last: number;
  /** A steepening under way, and the limp line before it: its slope, a point on it and how well it is known. */
  found: {
    fromBar: number;
    atS: number;
    limp: number;
    limpS: number;
    limpBar: number;
    limpSd: number;
  } | null;
  told: boolean;
  /** A stop has parted this fill. */
  parted: boolean;
  /** Level while nothing flows, bar; when the flow began, s, and the jump of the reading as it did, bar. */
  restBar: number | null;
  flowS: number | null;
  jumpBar: number | null;
}

export interface GuardState {
  readonly v: 1;
  clean: CleanState;
  short: BlockRow;
  long: BlockRow;
  /** Running median of |second difference| of long blocks, bar: their measured scatter. */
  longSecond: number;
  /** First long block of the present stretch: since the last change of flow that was noticed. */
  from: number;
  /** Blocks in a row that the fit did not foresee, and the sign of the surprise. */
  surprises: number;
  surpriseSign: number;
  lastS: number | null;
  lastBar: number;
  stepBar: number;
  uBar: number;
  motion: Motion | null;
  /** Slopes of the moments before, see motion.ts. */
  before: number[];
  belief: SettleBelief | null;
  /** The same question asked of the last seconds alone, near and over the working pressure: old blocks hide a creep. */
  recent: RecentBelief | null;
  /** Ends of the settle interval of the last seconds, bar, oldest first: an interval that keeps moving up is a creep. */
  forecasts: { atS: number; low: number; high: number }[];
  /** Level at which the reading lay still in the band or over it before this rise began, bar; null: it did not. */
  rested: number | null;
  /** Since when the rise is slower than it was, and since when the level is over the band's edge, s. */
  slowSince: number | null;
  overSince: number | null;
  /** Evaluations in a row that agreed to an alarm of this kind. */
  agreeSettle: number;
  agreeBand: number;
  rising: { kind: RisingKind; values: AlarmValues } | null;
  /** Time since when nothing flows; null while something does. */
  stillSince: number | null;
  /** Since when the pressure rises without a break, s, and from where, bar; null: it does not. */
  inflow: { readonly sinceS: number; readonly fromBar: number } | null;
  /** A rise under way: slope at its best, level and time where it began to fall. */
  fastest: number;
  slowFromS: number | null;
  slowFromBar: number;
  stops: StopMemory[];
  cue: Bounded | null;
  tooFast: TooFast | null;
  /** Since when the rise is too fast, s. */
  fastSince: number | null;
  knee: Bounded | null;
  kneeState: KneeState;
}
