/**
 * What lies between regulator and packer, as two pressures show it by their signs: whether anything drives air, whether the outlet gives
 * any (it droops under where it stood), and whether the packer rises by it. How open the line is they do not tell: a limp packer and a
 * hose that is filling first take as much as a nearly shut valve leaves.
 */
import type { PairPath } from '../codes.ts';

/** A slope this many of its standard deviations over the least one is flow, bar/s. */
const FLOWS = 3;
const FLOWS_BAR_S = 0.002;
/** The outlet is this far under where it stood: it gives air, bar. */
const DROOPS_BAR = 0.05;
/** A difference of the two that drives flow, beside their uncertainty, bar. */
const DRIVES_BAR = 0.05;

export interface PathNow {
  readonly bar: number;
  readonly outletBar: number;
  /** Expanded uncertainty of the difference, bar. */
  readonly uBar: number;
  /** Slope of the packer's pressure and its standard deviation, bar/s. */
  readonly rate: number;
  readonly sd: number;
  /** Where the outlet stood before the fill, bar; null: it was not seen to stand. */
  readonly stoodBar: number | null;
}

/** null: nothing is to be told. */
export function pathOf({ bar, outletBar, uBar, rate, sd, stoodBar }: PathNow): PairPath | null {
  const gap = outletBar - bar;
  if (rate - FLOWS * sd > FLOWS_BAR_S) return 'flows';
  if (gap <= Math.max(uBar, DRIVES_BAR)) return Math.abs(gap) <= uBar ? 'level' : null;
  if (stoodBar === null) return null;
  // At its closed-end level it gives nothing; under that it gives air, and yet the packer does not rise.
  return outletBar > stoodBar - DROOPS_BAR ? 'blocked' : 'escapes';
}
