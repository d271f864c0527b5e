/**
 * Lowest and highest value of every stretch of a trace, in levels: buckets of BASE readings, and above them nodes
 * of FACTOR buckets each. A picture of any window is put together from few nodes, and from the readings
 * themselves when the window is narrow. Buckets end at gaps, so that no bucket spans one; a value that was not
 * there is NaN, and a bucket of nothing but such values is NaN.
 */
import { type Bucket, bucketAt, higher, Level, lower, Picture } from './pyramid-level.ts';
import type { PictureWindow, SeriesKey } from './types.ts';

/** Readings a full bucket. */
export const BASE = 32;
/** Children a node. */
export const FACTOR = 8;

/** Readings of the trace in order: times on the run clock in µs, and a value a series, NaN for none. */
export interface Rows {
  readonly n: number;
  readonly us: Float64Array;
  readonly values: readonly Float32Array[];
}

/** Gives readings [first, first + n) of the trace: from memory, or from the side file. */
export type ReadRows = (first: number, n: number) => Rows;

export interface Pyramid {
  readonly keys: readonly SeriesKey[];
  /** Readings taken in. */
  readonly readings: number;
  /** Readings in closed buckets. */
  readonly closed: number;
  readonly firstUs: number | null;
  readonly lastUs: number | null;
  /**
   * Takes a reading in: time on the run clock in µs, not before the last one; a value a series, NaN for none.
   * @param gap a gap lies before this reading
   */
  append(us: number, values: ArrayLike<number>, gap?: boolean): void;
  /** Takes in a bucket as it was closed earlier (from the side file), behind all that is there. */
  restore(bucket: Bucket): void;
  /** Closes the open bucket, at the end of a run. */
  close(): void;
  /** Buckets closed since the last call, for the side file. */
  takeClosed(): readonly Bucket[];
  /**
   * The picture of [fromUs, toUs] with about `points` points (at most about twice as many), one reading more on
   * each side so that lines run to the edge.
   */
  picture(fromUs: number, toUs: number, points: number, rows: ReadRows): PictureWindow;
}

class PyramidOf implements Pyramid {
  readings = 0;
  closed = 0;
  firstUs: number | null = null;
  lastUs: number | null = null;
  private readonly levels: Level[];
  private fresh: Bucket[] = [];
  /** The open bucket. */
  private count = 0;
  private openFrom = 0;
  private openGap = false;
  private openMin: number[];
  private openMax: number[];

  constructor(readonly keys: readonly SeriesKey[]) {
    this.levels = [new Level(keys.length)];
    this.openMin = keys.map(() => Number.NaN);
    this.openMax = keys.map(() => Number.NaN);
  }

  append(us: number, values: ArrayLike<number>, gap = false): void {
    if (gap) this.close();
    if (this.count === 0) {
      this.openFrom = us;
      this.openGap = gap;
      this.openMin.fill(Number.NaN);
      this.openMax.fill(Number.NaN);
    }
    for (let s = 0; s < this.keys.length; s++) {
      const v = Math.fround(values[s]!);
      this.openMin[s] = lower(this.openMin[s]!, v);
      this.openMax[s] = higher(this.openMax[s]!, v);
    }
    this.firstUs ??= us;
    this.lastUs = us;
    this.count++;
    this.readings++;
    if (this.count === BASE) this.close();
  }

  restore(bucket: Bucket): void {
    this.close();
    this.firstUs ??= bucket.fromUs;
    this.lastUs = bucket.toUs;
    this.readings += bucket.count;
    this.closed += bucket.count;
    this.raise(bucket);
  }

  close(): void {
    const bucket = this.openBucket();
    if (bucket === null) return;
    this.count = 0;
    this.closed += bucket.count;
    this.fresh.push(bucket);
    this.raise(bucket);
  }

  takeClosed(): readonly Bucket[] {
    const { fresh } = this;
    this.fresh = [];
    return fresh;
  }

  private openBucket(): Bucket | null {
    if (this.count === 0) return null;
    return {
      fromUs: this.openFrom,
      toUs: this.lastUs!,
      first: this.readings - this.count,
      count: this.count,
      gap: this.openGap,
      min: this.openMin.slice(),
      max: this.openMax.slice(),
    };
  }

  /** Enters a closed bucket at every level: as a new node, or into the last node while that has room. */
  private raise(bucket: Bucket): void {
    let index = this.levels[0]!.n;
    this.levels[0]!.push(bucket);
    for (let k = 1; index > 0 || k < this.levels.length; k++) {
      const parent = Math.floor(index / FACTOR);
      let level = this.levels[k];
      if (level === undefined) {
        level = this.copyUp(k);
      } else if (parent === level.n) level.push(bucket);
      else level.widen(bucket);
      index = parent;
    }
  }

  /** A new top: one node over all of the level below. */
  private copyUp(k: number): Level {
    const below = this.levels[k - 1]!;
    const level = new Level(this.keys.length);
    for (let i = 0; i < below.n; i++) {
      const b = bucketAt(below, i);
      if (i % FACTOR === 0) level.push(b);
      else level.widen(b);
    }
    this.levels.push(level);
    return level;
  }

  picture(fromUs: number, toUs: number, points: number, rows: ReadRows): PictureWindow {
    const width = Math.max(0, toUs - fromUs) / Math.max(1, points);
    const base = this.levels[0]!;
    // Buckets that touch the window, and their neighbours.
    const lo = Math.max(0, firstWhere(base.n, (i) => base.to[i]! >= fromUs) - 1);
    const hi = Math.min(base.n, firstWhere(base.n, (i) => base.from[i]! > toUs) + 1);
    const open = this.openBucket();
    const firstRow = lo < hi ? base.first[lo]! : this.closed;
    const withOpen = open !== null && (hi === base.n || lo >= hi);
    const endRow = withOpen ? this.readings : hi > lo ? base.first[hi - 1]! + base.count[hi - 1]! : firstRow;
    const wanted = endRow - firstRow;
    // So few readings that buckets would be coarser than the picture.
    const exact = wanted <= BASE * points + 2 * BASE;
    const picture = new Picture(this.keys.length, width);
    if (exact) this.addRows(picture, rows(firstRow, wanted), base, lo, hi, open, fromUs, toUs);
    else {
      this.descend(picture, this.levels.length - 1, 0, lo, hi, width);
      if (withOpen) {
        const tail = new Level(this.keys.length);
        tail.push(open);
        picture.addNode(tail, 0);
      }
    }
    return {
      fromUs,
      toUs,
      us: Float64Array.from(picture.us),
      series: this.keys.map((key, s) => ({
        key,
        min: Float32Array.from(picture.min[s]!),
        max: Float32Array.from(picture.max[s]!),
      })),
      readings: picture.readings,
      exact: picture.single,
    };
  }

  /** Nodes [lo, hi) of the base, through the largest nodes that fit on one spot of the picture. */
  private descend(picture: Picture, k: number, i: number, lo: number, hi: number, width: number): void {
    const level = this.levels[k]!;
    const span = FACTOR ** k;
    for (let node = i; node < level.n; node++) {
      const from = node * span;
      if (from >= hi) return;
      const to = Math.min(from + span, this.levels[0]!.n);
      if (to <= lo) continue;
      const inside = from >= lo && to <= hi;
      if (k === 0 || (inside && level.to[node]! - level.from[node]! <= width)) picture.addNode(level, node);
      else this.descend(picture, k - 1, node * FACTOR, Math.max(lo, from), Math.min(hi, to), width);
    }
  }

  private addRows(
    picture: Picture,
    rows: Rows,
    base: Level,
    lo: number,
    hi: number,
    open: Bucket | null,
    fromUs: number,
    toUs: number,
  ): void {
    const offset = lo < hi ? base.first[lo]! : this.closed;
    // One reading beyond each edge.
    const a = Math.max(0, firstWhere(rows.n, (i) => rows.us[i]! >= fromUs) - 1);
    const b = Math.min(rows.n, firstWhere(rows.n, (i) => rows.us[i]! > toUs) + 1);
    const openGapRow = open?.gap === true ? open.first : -1;
    let bucket = lo;
    for (let i = a; i < b; i++) {
      const row = offset + i;
      while (bucket < hi && base.first[bucket]! + base.count[bucket]! <= row) bucket++;
      const gap = row === openGapRow || (bucket < hi && base.gap[bucket] === 1 && base.first[bucket] === row);
      picture.add(rows.us[i]!, rows.us[i]!, 1, gap, rows.values, rows.values, i);
    }
  }
}

/** First i in [0, n) where an ascending condition holds; n where it never does. */
function firstWhere(n: number, holds: (i: number) => boolean): number {
  let lo = 0;
  let hi = n;
  while (lo < hi) {
    const mid = (lo + hi) >>> 1;
    if (holds(mid)) hi = mid;
    else lo = mid + 1;
  }
  return lo;
}

export function createPyramid(keys: readonly SeriesKey[]): Pyramid {
  return new PyramidOf(keys);
}
