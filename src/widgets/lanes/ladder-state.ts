import type { MarkedLimits } from './marks.ts';

/** What may be believed of the pressure. */
export type LadderTrust = 'none' | 'good' | 'stale' | 'lost' | 'over';

/** What the ladder aims at in a stage: a mark, the whole hold band, or nothing. */
export type Aim = 'seat' | 'working' | 'band' | null;

/** Where the pressure is going to be, sure enough to be shown, bar. */
export interface Ghost {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** It settles by itself; it settles if nobody acts on the alarm; warmth lifts it. */
  readonly by: 'settles' | 'left-open' | 'warmth';
  /** Ends over the ceiling, and a hand can still prevent it: red. */
  readonly isUrgent: boolean;
}

export interface LadderState {
  /** Reading, or the last one where it is lost; over the sensor's end: that end. bar */
  readonly bar: number | null;
  readonly trust: LadderTrust;
  /** End of the scale, bar (scale.ts). */
  readonly endBar: number;
  readonly limits: MarkedLimits | null;
  /** The ceiling from which it was lowered in this run, bar; null: it was not. */
  readonly loweredFromBar: number | null;
  readonly aim: Aim;
  readonly ghost: Ghost | null;
  /** A pressure that an alarm asks to let air out to, and what must be left, bar. */
  readonly order: { readonly toBar: number; readonly notUnderBar: number | null } | null;
  readonly rateBarPerS: number | null;
  /** A second pressure with its name: a mark at the column's edge; null: there is none, or it tells nothing. */
  readonly second: { readonly name: string; readonly bar: number } | null;
}
