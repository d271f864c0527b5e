import { isClosed } from '../../link/status.ts';
import type { LossCause, Stage } from '../codes.ts';
import { isOver as isStageOver } from '../stages/stages.ts';
import type { Signal } from './signal.ts';

/** The shown number is stale after half a second or two sample periods, whichever is longer, s. */
export function staleAfterS(s: Signal): number {
  return Math.max(0.5, 2 * s.period.periodS);
}

/** Age of the last usable pressure, s; null: there was none. */
export function ageS(s: Signal, tUs: number): number | null {
  return s.lastUsableUs === null ? null : (tUs - s.lastUsableUs) / 1e6;
}

export function isStale(s: Signal, tUs: number): boolean {
  const age = ageS(s, tUs);
  return age === null || age > staleAfterS(s);
}

/**
 * Longest silence before the pressure counts as lost: 1 s while air may flow; 5 s in a hold at rest and after the
 * work, where a few seconds without a frame are no danger unless air comes in all the same, s.
 */
function silenceS(s: Signal, { stage, atRest, airComesIn }: LossContext): number {
  const slow = isStageOver(stage) || (stage === 'hold' && atRest);
  return Math.max(slow && !airComesIn ? 5 : 1, 5 * s.period.periodS);
}

/** How long frames may come without a usable value (open, fault, far under zero), s. */
const FAULTY_S = 0.5;
/** At or under this the packer was empty when the crew disconnected, bar. */
const EMPTY_BAR = 0.05;

/** What the watch knows of the run that bears on a lost reading. */
export interface LossContext {
  readonly stage: Stage;
  /** Since when the run is in that stage, µs. */
  readonly stageSinceUs: number;
  /** A closed segment is open: nothing flows. */
  readonly atRest: boolean;
  /** Air was coming in when the pressure was last seen. */
  readonly airComesIn: boolean;
  /** The pressure came back after the vent was closed, or the sensor reads too low: a line at zero is none. */
  readonly emptyDoubted: boolean;
}

/**
 * Why there is no usable pressure now, or null. A port that went away counts at once. Pure, and blind to
 * suppression; the delays are here because they hang on stage and sample period.
 */
export function lossCause(s: Signal, ctx: LossContext, tUs: number): LossCause | null {
  if (s.firstUs === null || putAway(s, ctx)) return null;
  if (s.stranger !== null) return s.stranger;
  if (s.portLost) return 'port';
  if (s.badSinceUs !== null && s.badFrames >= 3 && tUs - s.badSinceUs >= FAULTY_S * 1e6) return s.badCause;
  // Over the span is no good reading and no lost one.
  const since = Math.max(s.lastUsableUs ?? s.firstUs, s.overUs ?? 0);
  if (tUs - since < silenceS(s, ctx) * 1e6) return null;
  if (s.badSinceUs !== null) return s.badCause;
  if (s.resetUs !== null && s.resetUs >= since) return 'reset';
  if (s.strayUs !== null && s.strayUs >= since) return 'garbage';
  if (s.link !== null && s.link !== 'streaming') return 'port';
  return 'silence';
}

/**
 * The gear is being put away with nothing inflated, so that no reading is missed: the crew has said 'done' and the
 * line read zero since; or it closed the port itself. No alarm, only a grey number.
 */
function putAway(s: Signal, { stage, stageSinceUs, emptyDoubted }: LossContext): boolean {
  if (s.bar === null || Math.abs(s.bar) > EMPTY_BAR) return false;
  const readSince = s.lastUsableUs !== null && s.lastUsableUs >= stageSinceUs;
  if (stage === 'done' && readSince && !emptyDoubted) return true;
  const outside = stage === 'prepare' || isStageOver(stage);
  return outside && s.link !== null && isClosed(s.link) && !s.portLost;
}
