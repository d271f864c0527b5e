/** Shapes of a proof of the supply. Plain data: they are snapshotted with the watch. */
import type { Limits } from '../../job/setup.ts';
import type { LineEnd } from '../codes.ts';
import type { Course, Standing } from './course.ts';
import type { SupplyJudgement } from './judge.ts';
import type { Rise } from './rise.ts';

export const PROOF_PHASES = [
  'open', // waits for the supply to be opened
  'rising',
  'watching', // locked up: is there a creep?
  'shut', // waits for the word that the valve is shut
  'tight', // the valve is shut: does the line hold?
  'vent', // proved: waits for the line to be emptied
] as const;
export type ProofPhase = (typeof PROOF_PHASES)[number];

/** A proof under way. Plain data. */
export interface Proof {
  readonly end: LineEnd;
  phase: ProofPhase;
  /** Since when it is in this phase, run clock, µs. */
  sinceUs: number;
  /** Level before the supply was opened, bar. */
  readonly startBar: number;
  rise: Rise;
  course: Course;
  /** Fastest slope of the rise, bar/s, over two means. */
  fastest: number;
  riseS: number | null;
  /** Since when it is asked whether the packer is on the hose, run clock, µs; null: it is not, or somebody has answered. */
  askedUs: number | null;
  slowSaid: boolean;
  /** Highest level so far, bar, and since when half of it is gone, run clock, µs; null: it is not. */
  topBar: number;
  goneUs: number | null;
  found: (SupplyJudgement & Standing) | null;
  /** Level when the valve was said to be shut, bar. */
  shutBar: number | null;
}

/** A supply that was proved: what the fills of this run are held against. */
export interface ProvedSupply extends SupplyJudgement, Standing {
  /** Expanded uncertainty of the reading then, bar. */
  readonly uBar: number;
  /** Time between the shares of PACE, s: the same of the first fill shows whether the packer was on. */
  readonly paceS: number | null;
}

export interface ProofContext {
  readonly tUs: number;
  readonly limits: Limits | null;
  readonly uBar: number;
  /** The sensor sits before the last valve: it sees the regulator whatever stands behind. */
  readonly beforeValve: boolean;
}

export type Outcome = 'goes-on' | 'over' | ProvedSupply;
