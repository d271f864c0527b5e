import { ar1Inflation, lag1 } from '../estimate/ar1.ts';
import { fitLine } from '../estimate/line.ts';
import { median } from '../estimate/robust.ts';
import { type FindingOf, found } from './findings.ts';
import { DRIFT_LISTENED_S, DRIFT_MBAR_MIN, NOISE_LISTENED_S, NOISE_MBAR } from './limits.ts';

/** A second of readings, or of a slow device the next few. */
export interface Block {
  readonly tS: number;
  readonly bar: number;
  /** Scatter of a reading, from one to the next: a slow change does not pass for noise. */
  readonly sdBar: number;
  readonly sdCounts: number;
  /** Lowest to highest count. */
  readonly spanCounts: number;
}

interface OpenBlock {
  readonly fromS: number;
  n: number;
  sumBar: number;
  min: number;
  max: number;
  diffs: number;
  bar2: number;
  counts2: number;
}

/** The pressure's course: stretches in which it rests, and what noise and drift they show. */
export interface Course {
  open: OpenBlock | null;
  last: { readonly bar: number; readonly counts: number } | null;
  /** The rest that goes on. */
  rest: Block[];
  /** The longest rest that is over. */
  longest: readonly Block[];
  /** Channel and samples of it in a row that gave no pressure. */
  blind: number;
}

const BLOCK_S = 1;
const LEAST_IN_BLOCK = 4;
/** A quarter of an hour. */
const MOST_BLOCKS = 900;
/** Of the newest rest: so many blocks tell its noise. */
const NOISE_BLOCKS = 60;
/** From one second to the next, and from the first to the last of a rest, bar: more is a hand or a leak (common practice, no source). */
const STILL_BAR = 0.004;
const STILL_NOISES = 5;
const REST_BAR = 0.03;
/** Samples without a pressure in a row: that is no odd one. */
const BLIND = 10;

export const createCourse = (): Course => ({ open: null, last: null, rest: [], longest: [], blind: 0 });

/** Nothing of what comes next continues what came. */
export function breakCourse(c: Course): void {
  if (c.rest.length > c.longest.length) c.longest = c.rest;
  c.rest = [];
  c.open = null;
  c.last = null;
}

/** A sample whose channel gave a pressure. */
export function takePressure(c: Course, tS: number, bar: number, counts: number): void {
  c.blind = 0;
  const o = c.open;
  if (o !== null && tS - o.fromS >= BLOCK_S && o.n >= LEAST_IN_BLOCK) {
    close(c, o, tS);
    c.open = null;
  }
  c.open ??= { fromS: tS, n: 0, sumBar: 0, min: counts, max: counts, diffs: 0, bar2: 0, counts2: 0 };
  const block = c.open;
  block.n++;
  block.sumBar += bar;
  block.min = Math.min(block.min, counts);
  block.max = Math.max(block.max, counts);
  if (c.last !== null) {
    block.diffs++;
    block.bar2 += (bar - c.last.bar) ** 2;
    block.counts2 += (counts - c.last.counts) ** 2;
  }
  c.last = { bar, counts };
}

/** A sample whose channel gave none. */
export function takeBlind(c: Course): void {
  c.blind++;
  if (c.blind === BLIND) breakCourse(c);
}

function close(c: Course, o: OpenBlock, toS: number): void {
  // Differences of white noise scatter by √2 more than it does.
  const sd = (squares: number): number => (o.diffs === 0 ? 0 : Math.sqrt(squares / o.diffs / 2));
  const block: Block = {
    tS: (o.fromS + toS) / 2,
    bar: o.sumBar / o.n,
    sdBar: sd(o.bar2),
    sdCounts: sd(o.counts2),
    spanCounts: o.max - o.min,
  };
  const before = c.rest.at(-1);
  const first = c.rest[0];
  const still = Math.max(STILL_BAR, (STILL_NOISES * block.sdBar * Math.SQRT2) / Math.sqrt(o.n));
  const moved =
    before !== undefined &&
    first !== undefined &&
    (Math.abs(block.bar - before.bar) > still || Math.abs(block.bar - first.bar) > REST_BAR);
  if (moved) {
    if (c.rest.length > c.longest.length) c.longest = c.rest;
    c.rest = [];
  }
  c.rest.push(block);
  if (c.rest.length > MOST_BLOCKS) c.rest.shift();
}

const longest = (c: Course): readonly Block[] => (c.rest.length >= c.longest.length ? c.rest : c.longest);

const lasting = (blocks: readonly Block[]): number =>
  blocks.length < 2 ? 0 : blocks.at(-1)!.tS - blocks[0]!.tS;

/** Where the line stands now, bar: the mean of the last seconds; null while it moves or nothing is read. */
export function restingBar(c: Course): number | null {
  const newest = c.rest.slice(-3);
  return newest.length < 3 ? null : newest.reduce((s, b) => s + b.bar, 0) / newest.length;
}

export function judgeNoise(c: Course, channel: number | null): FindingOf<'noise'> {
  if (c.blind >= BLIND) return found('noise', 'no-reading', null, null, null, channel);
  const blocks = longest(c).slice(-NOISE_BLOCKS);
  if (lasting(blocks) < NOISE_LISTENED_S) return found('noise', 'few', null, null, null, channel);
  const mbar = 1000 * median(blocks.map((b) => b.sdBar));
  const counts = median(blocks.map((b) => b.sdCounts));
  const span = median(blocks.map((b) => b.spanCounts));
  // Not one count in all of it: too coarse to see noise, or a sensor that hangs.
  const frozen = blocks.every((b) => b.spanCounts === 0);
  const reason = frozen
    ? 'frozen'
    : mbar <= NOISE_MBAR.good
      ? 'quiet'
      : mbar <= NOISE_MBAR.doubtful
        ? 'noisy'
        : 'too-noisy';
  return found('noise', reason, mbar, counts, span, channel);
}

/** The slope of the longest rest, with an uncertainty that knows that its seconds hang together. */
export function judgeDrift(c: Course, channel: number | null): FindingOf<'drift'> {
  const blocks = longest(c);
  const s = lasting(blocks);
  if (s < DRIFT_LISTENED_S) return found('drift', 'few', null, null, s, channel);
  const t = blocks.map((b) => b.tS);
  const fit = fitLine(
    t,
    blocks.map((b) => b.bar * 1000),
  );
  if (fit === null) return found('drift', 'few', null, null, s, channel);
  const residuals = blocks.map((b) => b.bar * 1000 - fit.intercept - fit.slope * b.tS);
  const slope = 60 * fit.slope;
  const u = 2 * 60 * fit.sdSlope * Math.sqrt(ar1Inflation(lag1(residuals)));
  const off = Math.abs(slope);
  const reason =
    off > DRIFT_MBAR_MIN.doubtful
      ? 'drifts-far'
      : off > DRIFT_MBAR_MIN.good
        ? 'drifts'
        : off + u > DRIFT_MBAR_MIN.doubtful
          ? 'unsure'
          : 'steady';
  return found('drift', reason, slope, u, s, channel);
}
