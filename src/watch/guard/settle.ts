/**
 * Where the line is going: keeps the long blocks of the present stretch of the fill, notices when the flow was
 * changed by a hand, and asks the bank of supply pressures (estimate/settle-bank.ts) at every new block.
 */

import { MAD_TO_SD, stepMedian } from '../../estimate/robust.ts';
import { bankInterval, excessFrom, excessSoft, excessUpTo, judgeBank } from '../../estimate/settle-bank.ts';
import { type BlockMeans, fittedPressure } from '../../estimate/subsonic.ts';
import type { Limits } from '../../job/setup.ts';
import { rowDrop, rowMerge } from './blocks.ts';
import { coarseStep, sampleSd } from './clean.ts';
import type { GuardState, RecentBelief, SettleBelief } from './types.ts';

/** Air pressure taken for absolute pressures, bar. 0.1 bar of altitude moves a settling forecast by a few mbar. */
export const AIR_BAR = 1.013;
/** Critical ratio of a line of valves, couplings and hose (ISO 6358-1 gives 0.2-0.5 for valves, less for hoses). */
export const CRITICAL = 0.25;
export const LONG_S = 0.2;
const LONG_MOST = 56;
/** Floor under the scatter of a long block, bar: what the model itself is wrong by over a stretch. */
const MODEL_SD = 0.00025;
/**
 * An open supply stands at least this far over the ceiling and at least so high, bar: a compressor's pressure under a
 * hand valve. What is nearer is a regulator set too high.
 */
const OPEN_OVER_BAR = 2.2;
const OPEN_LEAST_BAR = 4.3;

function openFrom(ceiling: number): number {
  return Math.max(ceiling + OPEN_OVER_BAR, OPEN_LEAST_BAR);
}

/** Fading of the heat of compression: time constants tried, s. */
const FADE_S = [4, 14] as const;
/** What an open supply is allowed besides: slow fading too, and a packer that gives way by this share a bar. */
const SOFT_FADE_S = [4, 12, 36] as const;
const SOFT = 0.05;
/** And a receiver that runs down while it fills: together with the heat a fading of up to this. */
const SOFT_HEAT = 0.55;
/** Over a few seconds heat that fades slowly is a straight line too: one time, so long that it adds nothing. */
const NO_FADE_S = [1e4] as const;

/** Steps from the present level to the candidates, bar: close where it may settle soon, wide beyond; and between them. */
const STEPS = [0.003, 0.016, 0.05, 0.12, 0.26, 0.55, 1.15] as const;
const FINER_STEPS = [0.008, 0.03, 0.08, 0.18, 0.38, 0.8] as const;

interface Candidates {
  /** Absolute bar, ascending, with the ceiling and open supplies among them. */
  readonly always: readonly number[];
  /** Only where one of the others beside it is not hopeless. */
  readonly finer: readonly number[];
}

function candidates(ceiling: number, level: number): Candidates {
  const open = Math.max(openFrom(ceiling), level + OPEN_OVER_BAR);
  const always: number[] = [];
  let under = true;
  for (const step of STEPS) {
    const p = level + step;
    if (under && p > ceiling) {
      if (ceiling > level) always.push(ceiling + AIR_BAR);
      under = false;
    }
    always.push(p + AIR_BAR);
  }
  if (under) always.push(ceiling + AIR_BAR);
  const finer = FINER_STEPS.map((step) => level + step + AIR_BAR);
  const top = Math.max(level + 1.15, ceiling);
  if (open - top > 0.5) {
    always.push(top + 0.3 * (open - top) + AIR_BAR);
    finer.push(top + 0.65 * (open - top) + AIR_BAR);
  }
  always.push(open + AIR_BAR, open + 5 + AIR_BAR);
  finer.push(open + 1.8 + AIR_BAR);
  return { always, finer };
}

/**
 * Standard deviation of a reading that stands for its share in means and slopes, bar: where neighbours err together,
 * blocks scatter more than their readings do, and that is what counts.
 */
export function meanSd(s: GuardState): number {
  const plain = sampleSd(s.clean, s.stepBar);
  const n = s.long.n[s.long.n.length - 1];
  if (n === undefined || s.long.n.length < 8) return plain;
  return Math.max(plain, Math.min(4 * plain, ((s.longSecond * MAD_TO_SD) / Math.sqrt(6)) * Math.sqrt(n)));
}

/** Measured scatter of a long block: the part that its samples make smaller, bar², times them; and the part that stays. */
interface Scatter {
  readonly samples: number;
  readonly floor: number;
}

function scatterOf(s: GuardState, typical: number): Scatter {
  const seen = (s.longSecond * MAD_TO_SD) / Math.sqrt(6);
  const prior = sampleSd(s.clean, s.stepBar) / Math.sqrt(typical);
  const sd2 = Math.max(seen * seen, prior * prior);
  // A step that the noise does not dither is an error that no mean of the block makes smaller.
  const coarse = coarseStep(s.clean, s.stepBar);
  return { samples: sd2 * typical, floor: MODEL_SD * MODEL_SD + (coarse * coarse) / 12 };
}

/** Variance of the mean of a block of so many samples, bar². */
function varianceOf(scatter: Scatter, samples: number): number {
  return scatter.samples / samples + scatter.floor;
}

/** Long blocks from that one on as the bank takes them: absolute pressures with their variances. */
function blocksFrom(s: GuardState, from: number, scatter: Scatter): BlockMeans {
  const row = s.long;
  const t = row.t.slice(from);
  const p = row.p.slice(from);
  const variance = row.p.slice(from);
  for (let i = 0; i < t.length; i++) {
    p[i] = p[i]! + AIR_BAR;
    variance[i] = varianceOf(scatter, row.n[from + i]!);
  }
  return { t, p, variance };
}

/** A long block was completed: notices surprises, then judges the bank. */
export function longBlock(s: GuardState, limits: Limits | null): void {
  const row = s.long;
  let n = row.t.length;
  const typical = row.n[n - 1]!;
  if (n >= 3) {
    const d2 = Math.abs(row.p[n - 1]! - 2 * row.p[n - 2]! + row.p[n - 3]!);
    s.longSecond = Math.max(2e-4, stepMedian(s.longSecond, d2, n < 30 ? 0.15 : 0.05));
  }
  surprise(s, n - 1, typical);
  if (n > LONG_MOST) {
    if (s.from > n / 2) {
      rowDrop(row, s.from);
      s.from = 0;
    } else {
      const age = row.t[s.from]!;
      rowMerge(row, LONG_MOST - 6, 0.04, Math.ceil(6 / LONG_S) * typical);
      s.from = row.t.findIndex((t) => t >= age);
      if (s.from < 0) s.from = 0;
    }
    n = row.t.length;
  }
  const rate = s.motion?.rate ?? 0;
  s.recent = null;
  if (limits === null || rate < 0.0008) {
    s.belief = null;
    return;
  }
  if (n - s.from >= 6) s.belief = judge(s, limits, typical);
  if (limits.cue && row.p[n - 1]! > limits.workingBar) s.recent = judgeRecent(s, limits, typical);
}

/** Shortest and longest stretch of the recent question, s, and the rise that makes it long enough, in block sds. */
const RECENT_LEAST_S = 1.4;
const RECENT_MOST_S = 9;
const RECENT_RISE = 80;

/**
 * Over the band the question is not only 'under the ceiling' but 'soon': a regulator that was set a little high ends
 * within this of the present level, bar.
 */
function nearTop(limits: Limits, level: number): number {
  return Math.min(limits.ceilingBar, level + Math.max(0.04, 0.3 * (limits.ceilingBar - limits.workingBar)));
}

function judgeRecent(s: GuardState, limits: Limits, typical: number): RecentBelief | null {
  const ceiling = limits.ceilingBar;
  const row = s.long;
  const to = row.t.length;
  const scatter = scatterOf(s, typical);
  const sd = Math.sqrt(varianceOf(scatter, typical));
  const last = row.t[to - 1]!;
  let first = to - 1;
  while (first > 0) {
    const span = last - row.t[first]!;
    if (span > RECENT_MOST_S || (span >= RECENT_LEAST_S && row.p[to - 1]! - row.p[first]! > RECENT_RISE * sd))
      break;
    first--;
  }
  if (to - first < 6) return null;
  const level = row.p[to - 1]!;
  const grid = candidates(ceiling, level);
  const bank = judgeBank(blocksFrom(s, first, scatter), grid.always, CRITICAL, NO_FADE_S, grid.finer);
  if (bank === null) return null;
  return {
    bar: bank.best.p1 - AIR_BAR,
    nearExcess: excessUpTo(bank, nearTop(limits, level) + AIR_BAR),
    openExcess: excessFrom(bank, openFrom(ceiling) + AIR_BAR),
  };
}

function judge(s: GuardState, limits: Limits, typical: number): SettleBelief | null {
  const ceiling = limits.ceilingBar;
  const row = s.long;
  const to = row.t.length;
  const blocks = blocksFrom(s, s.from, scatterOf(s, typical));
  const grid = candidates(ceiling, row.p[to - 1]!);
  const bank = judgeBank(blocks, grid.always, CRITICAL, FADE_S, grid.finer);
  if (bank === null) return null;
  // A stretch that no candidate fits is too long: the packer was still limp, or the air was warming. Keep its later part.
  if (bank.reduced > 3 && blocks.t.length > 10) s.from += Math.ceil(blocks.t.length / 5);
  const { low, high } = bankInterval(bank, 2);
  const underExcess = excessUpTo(bank, ceiling + AIR_BAR);
  let openExcess = excessFrom(bank, openFrom(ceiling) + AIR_BAR);
  // Only where an alarm hangs on it: could it be an open supply that fills a packer which gives way?
  if (underExcess > 6 && openExcess > 4)
    for (const p1 of [openFrom(ceiling), openFrom(ceiling) + 2])
      openExcess = Math.min(openExcess, excessSoft(bank, blocks, p1 + AIR_BAR, SOFT_FADE_S, SOFT, SOFT_HEAT));
  return {
    atS: row.t[to - 1]!,
    bar: bank.best.p1 - AIR_BAR,
    low: low - AIR_BAR,
    high: high - AIR_BAR,
    underExcess,
    openExcess,
    nearExcess: excessUpTo(bank, nearTop(limits, row.p[to - 1]!) + AIR_BAR),
    fit: bank.best,
    reduced: bank.reduced,
  };
}

/** Was the new block foreseen? Two in a row that were not, on the same side, begin a new stretch. */
function surprise(s: GuardState, i: number, typical: number): void {
  const b = s.belief;
  if (b === null || i - s.from < 6) return;
  const row = s.long;
  const foreseen = fittedPressure(b.fit, row.t[i]!) - AIR_BAR;
  const sd = Math.sqrt(2 * varianceOf(scatterOf(s, typical), row.n[i]!));
  const z = (row.p[i]! - foreseen) / sd;
  const sign = z > 4 ? 1 : z < -4 ? -1 : 0;
  if (sign !== 0 && sign === s.surpriseSign) s.surprises++;
  else s.surprises = sign === 0 ? 0 : 1;
  s.surpriseSign = sign;
  if (s.surprises >= 2 || Math.abs(z) > 12) {
    s.from = Math.max(s.from, i - 1);
    s.surprises = 0;
    s.surpriseSign = 0;
    s.belief = null;
    s.agreeSettle = 0;
  }
}
