/**
 * What lies between regulator and packer, as two pressures show it: flow through a restriction (ISO 6358), so that the packer's slope over
 * what the pair drives tells how open the line is. How far that is from its widest in this fill tells a valve that was nearly
 * shut, or a hose that is kinked: which of the two no pressure tells. Plain data.
 */
import { subsonicShare } from '../../physics/orifice.ts';
import type { PairPath } from '../codes.ts';

export interface Path {
  /** Openness of the line, 1/s: the packer's relative slope over the share of choked flow; its widest in this fill. */
  widest: number;
  now: PairPath | null;
}

export const createPath = (): Path => ({ widest: 0, now: null });

/** Critical ratio of hoses with their fittings: between 0.2 and 0.45 (ISO 6358; makers' sheets, value from memory). */
const CRITICAL = 0.3;
/** A line that passes less than this share of what it did is narrow (common practice, no source). */
const NARROW_SHARE = 0.25;
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
  readonly airBar: number;
  /** Slope of the packer's pressure and its standard deviation, bar/s. */
  readonly rate: number;
  readonly sd: number;
  /** Where the outlet stood before the fill, bar; null: it was not seen to stand. */
  readonly stoodBar: number | null;
}

export function pathReading(p: Path, now: PathNow): void {
  const { bar, outletBar, uBar, airBar, rate, sd, stoodBar } = now;
  const gap = outletBar - bar;
  const drives = gap > Math.max(uBar, DRIVES_BAR);
  if (rate - FLOWS * sd > FLOWS_BAR_S) {
    // Where nothing surely drives it, its openness is not to be told.
    if (!drives) {
      p.now = 'flows';
      return;
    }
    const p1 = outletBar + airBar;
    const open = rate / (p1 * subsonicShare((bar + airBar) / p1, CRITICAL));
    p.widest = Math.max(p.widest, open);
    p.now = open < NARROW_SHARE * p.widest ? 'narrow' : 'flows';
    return;
  }
  if (!drives) p.now = Math.abs(gap) <= uBar ? 'level' : null;
  else if (stoodBar === null) p.now = null;
  // At its closed-end level it gives nothing; under that it gives air, and yet the packer does not rise.
  else p.now = outletBar > stoodBar - DROOPS_BAR ? 'blocked' : 'escapes';
}
