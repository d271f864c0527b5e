/**
 * Lowest and highest value of every stretch of a trace, in levels: buckets of BASE readings, and above them nodes
 * of FACTOR buckets each. A picture of any window is put together from few nodes, and from the readings
 * themselves when the window is narrow. Buckets end at gaps, so that no bucket spans one; a value that was not
 * there is NaN, and a bucket of nothing but such values is NaN.
 */
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

/** A closed bucket. */
export interface Bucket {
  readonly fromUs: number;
  readonly toUs: number;
  /** Number of its first reading in the trace, and how many it holds. */
  readonly first: number;
  readonly count: number;
  /** A gap lies before it. */
  readonly gap: boolean;
  readonly min: readonly number[];
  readonly max: readonly number[];
}

class Level {
  n = 0;
  from = new Float64Array(64);
  to = new Float64Array(64);
  first = new Float64Array(64);
  count = new Float64Array(64);
  gap = new Uint8Array(64);
  min: Float32Array[];
  max: Float32Array[];

  constructor(series: number) {
    this.min = Array.from({ length: series }, () => new Float32Array(64));
    this.max = Array.from({ length: series }, () => new Float32Array(64));
  }

  private grow(): void {
    const f64 = (a: Float64Array): Float64Array<ArrayBuffer> => {
      const b = new Float64Array(a.length * 2);
      b.set(a);
      return b;
    };
    const f32 = (a: Float32Array): Float32Array<ArrayBuffer> => {
      const b = new Float32Array(a.length * 2);
      b.set(a);
      return b;
    };
    this.from = f64(this.from);
    this.to = f64(this.to);
    this.first = f64(this.first);
    this.count = f64(this.count);
    const gap = new Uint8Array(this.gap.length * 2);
    gap.set(this.gap);
    this.gap = gap;
    this.min = this.min.map(f32);
    this.max = this.max.map(f32);
  }

  push(b: Bucket): void {
    if (this.n === this.from.length) this.grow();
    const i = this.n++;
    this.from[i] = b.fromUs;
    this.to[i] = b.toUs;
    this.first[i] = b.first;
    this.count[i] = b.count;
    this.gap[i] = b.gap ? 1 : 0;
    for (let s = 0; s < this.min.length; s++) {
      this.min[s]![i] = b.min[s]!;
      this.max[s]![i] = b.max[s]!;
    }
  }

  /** Widens the last node by a bucket that belongs to it. */
  widen(b: Bucket): void {
    const i = this.n - 1;
    this.to[i] = b.toUs;
    this.count[i] = this.count[i]! + b.count;
    for (let s = 0; s < this.min.length; s++) {
      this.min[s]![i] = lower(this.min[s]![i]!, b.min[s]!);
      this.max[s]![i] = higher(this.max[s]![i]!, b.max[s]!);
    }
  }
}

/** Of two values the lower; NaN stands for none. */
export const lower = (a: number, b: number): number => (b < a || Number.isNaN(a) ? b : a);
export const higher = (a: number, b: number): number => (b > a || Number.isNaN(a) ? b : a);

/** Collects the points of a picture, merging neighbours that fall on one spot. */
class Picture {
  readonly us: number[] = [];
  readonly min: number[][];
  readonly max: number[][];
  readings = 0;
  /** Every point is one reading. */
  single = true;
  private startUs = Number.NEGATIVE_INFINITY;
  private endUs = Number.NEGATIVE_INFINITY;

  constructor(
    private readonly series: number,
    private readonly width: number,
  ) {
    this.min = Array.from({ length: series }, () => []);
    this.max = Array.from({ length: series }, () => []);
  }

  private push(us: number): number {
    const last = this.us.length > 0 ? this.us[this.us.length - 1]! : Number.NEGATIVE_INFINITY;
    // A plot wants times unique and ascending; readings may share an arrival.
    this.us.push(us > last ? us : last + 1e-3);
    return this.us.length - 1;
  }

  /** A stretch of the trace whose values stand at place i of the given arrays. */
  add(
    fromUs: number,
    toUs: number,
    count: number,
    gapBefore: boolean,
    min: readonly Float32Array[],
    max: readonly Float32Array[],
    i: number,
  ): void {
    const begun = this.us.length > 0;
    this.readings += count;
    if (count > 1) this.single = false;
    if (gapBefore && begun) {
      this.push((this.endUs + fromUs) / 2);
      for (let s = 0; s < this.series; s++) {
        this.min[s]!.push(Number.NaN);
        this.max[s]!.push(Number.NaN);
      }
    }
    if (begun && !gapBefore && toUs - this.startUs <= this.width) {
      const k = this.us.length - 1;
      this.single = false;
      for (let s = 0; s < this.series; s++) {
        this.min[s]![k] = lower(this.min[s]![k]!, min[s]![i]!);
        this.max[s]![k] = higher(this.max[s]![k]!, max[s]![i]!);
      }
    } else {
      this.push(fromUs);
      this.startUs = fromUs;
      for (let s = 0; s < this.series; s++) {
        this.min[s]!.push(min[s]![i]!);
        this.max[s]!.push(max[s]![i]!);
      }
    }
    this.endUs = toUs;
  }

  addNode(level: Level, i: number): void {
    const gap = level.gap[i] === 1;
    this.add(level.from[i]!, level.to[i]!, level.count[i]!, gap, level.min, level.max, i);
  }
}

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

function bucketAt(level: Level, i: number): Bucket {
  return {
    fromUs: level.from[i]!,
    toUs: level.to[i]!,
    first: level.first[i]!,
    count: level.count[i]!,
    gap: level.gap[i] === 1,
    min: level.min.map((m) => m[i]!),
    max: level.max.map((m) => m[i]!),
  };
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
