/** The parts of the pyramid: buckets in columns, a level of them, and the picture put together from them. */

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

export class Level {
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
export class Picture {
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

export function bucketAt(level: Level, i: number): Bucket {
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
