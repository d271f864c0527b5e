import type { Line } from '../../job/setup.ts';

/** What the hold has seen that may speak against the declared line. */
export interface LineEvidence {
  readonly line: Line;
  /** Level when the hold became still and now, bar. */
  readonly startBar: number | null;
  readonly levelBar: number | null;
  readonly topUpsS: readonly number[];
  readonly nowS: number;
  /** Sure at the bound of a leak verdict: gas is lost, gas comes in, the pressure does not follow the gas temperature. */
  readonly loses: boolean;
  readonly gains: boolean;
  readonly held: boolean;
}

/** A regulator's pressure wanders by its droop and creep; beyond this the data speak against it, bar. */
const MOVED_BAR = 0.1;
/** A sure loss of gas needs to show in the pressure as well, bar. */
const LOST_BAR = 0.05;
/** Top-ups within ten minutes that no hand on a closed valve makes. */
const TOP_UPS = 4;
const WITHIN_S = 600;
/** What follows a top-up within this belongs to it, s. */
const SAME_S = 60;

/**
 * Whether the hold's data contradict the declared line (or tap: a reading that stands still while the gas warms is
 * the regulator's and not the packer's). A closed line is not fed: gas neither comes in, nor does the pressure stand
 * while the gas cools, nor is it filled up again and again. A regulator that feeds does not let the pressure sink for
 * good; one that relieves does not let it climb. An unknown line contradicts nothing.
 */
export function lineContradicted(e: LineEvidence): boolean {
  const { startBar, levelBar } = e;
  if (e.line === 'closed') return e.held || e.gains || topUps(e) >= TOP_UPS;
  if (e.line === 'unknown' || startBar === null || levelBar === null) return false;
  const fallen = startBar - levelBar;
  if (fallen > MOVED_BAR || (e.loses && fallen > LOST_BAR)) return true;
  return e.line === 'supplied-relieving' && -fallen > MOVED_BAR;
}

function topUps(e: LineEvidence): number {
  let last = Number.NEGATIVE_INFINITY;
  let count = 0;
  for (const t of e.topUpsS) {
    if (e.nowS - t > WITHIN_S || t - last < SAME_S) continue;
    last = t;
    count++;
  }
  return count;
}
