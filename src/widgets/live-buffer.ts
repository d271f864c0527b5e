import type { TraceWindow } from '../engine/messages.ts';

/**
 * The live trace as the page keeps it: lowest and highest of each tenth of a second, in typed arrays outside
 * the reactive graph. Twelve hours are 432 000 buckets, about 7 MB with one temperature. It is for drawing only:
 * the record is the engine's.
 */

export const BUCKET_S = 0.1;
const FIRST_CAPACITY = 8192;

/** Buckets of a chunk: the ends of a long stretch are asked of its chunks. */
const CHUNK = 512;

interface Ends {
  min: Float32Array;
  max: Float32Array;
}

interface Column extends Ends {
  /** Ends of each chunk. */
  readonly chunks: Ends;
}

const ends = (capacity: number): Ends => ({
  min: new Float32Array(capacity).fill(Number.NaN),
  max: new Float32Array(capacity).fill(Number.NaN),
});

const blank = (capacity: number): Column => ({
  ...ends(capacity),
  chunks: ends(Math.ceil(capacity / CHUNK)),
});

function grown(column: Column, capacity: number): Column {
  const next = blank(capacity);
  next.min.set(column.min);
  next.max.set(column.max);
  next.chunks.min.set(column.chunks.min);
  next.chunks.max.set(column.chunks.max);
  return next;
}

export interface FreshReadings {
  readonly s: Float64Array;
  readonly bar: Float32Array;
  /** A second pressure, bar; null: none is read. */
  readonly second: Float32Array | null;
  readonly temps: readonly { readonly channel: number; readonly c: Float32Array }[];
}

export class LiveBuffer {
  private capacity = FIRST_CAPACITY;
  private bar = blank(FIRST_CAPACITY);
  /** A second pressure; null: none was read. */
  private second: Column | null = null;
  private temps = new Map<number, Column>();
  /** Index of the newest bucket, -1 for none. Bucket i spans i/10…(i+1)/10 s from the first sample. */
  private newest = -1;
  /** Counts up with each change. */
  version = 0;
  /** Counts up when what was there before is no longer what it was: cleared, or filled from a record. */
  epoch = 0;

  clear(): void {
    this.capacity = FIRST_CAPACITY;
    this.bar = blank(FIRST_CAPACITY);
    this.second = null;
    this.temps = new Map();
    this.newest = -1;
    this.version++;
    this.epoch++;
  }

  /** Seconds of the newest bucket's end, 0 when empty. */
  get lastS(): number {
    return this.newest < 0 ? 0 : (this.newest + 1) * BUCKET_S;
  }

  append(fresh: FreshReadings): void {
    if (fresh.s.length === 0) return;
    for (const t of fresh.temps)
      if (!this.temps.has(t.channel)) this.temps.set(t.channel, blank(this.capacity));
    const { second } = fresh;
    if (second !== null) this.second ??= blank(this.capacity);
    for (let k = 0; k < fresh.s.length; k++) {
      const i = Math.floor(fresh.s[k]! / BUCKET_S + 1e-6);
      if (i < 0 || !Number.isFinite(i)) continue;
      this.reach(i);
      keep(this.bar, i, fresh.bar[k] ?? Number.NaN);
      if (second !== null) keep(this.second!, i, second[k] ?? Number.NaN);
      for (const t of fresh.temps) keep(this.temps.get(t.channel)!, i, t.c[k] ?? Number.NaN);
      if (i > this.newest) this.newest = i;
    }
    this.version++;
  }

  /** Takes over what the engine kept of a resumed run, once, before fresh readings follow. */
  load(window: TraceWindow): void {
    for (const series of window.series) {
      for (let k = 0; k < window.s.length; k++) {
        const i = Math.floor(window.s[k]! / BUCKET_S + 1e-6);
        if (i < 0) continue;
        this.reach(i);
        const column = this.columnOf(series);
        keep(column, i, series.min[k]!);
        keep(column, i, series.max[k]!);
        if (i > this.newest) this.newest = i;
      }
    }
    this.version++;
    this.epoch++;
  }

  /**
   * A window in at most `points` buckets; lowest and highest survive the merging.
   * @param places name of the place of a temperature channel
   */
  window(
    fromS: number,
    toS: number,
    points: number,
    places: ReadonlyMap<number, string | null>,
  ): TraceWindow {
    const count = Math.max(0, this.lastOf(toS) - this.firstOf(fromS) + 1);
    return this.strided(fromS, toS, Math.max(1, Math.ceil(count / Math.max(1, points))), places);
  }

  /**
   * A window in buckets merged by `stride`, a whole number: a piece of it is the same whichever window it is asked for in.
   */
  strided(
    fromS: number,
    toS: number,
    stride: number,
    places: ReadonlyMap<number, string | null>,
  ): TraceWindow {
    const from = this.firstOf(fromS);
    const to = this.lastOf(toS);
    const count = Math.max(0, to - from + 1);
    // Merged buckets start at whole multiples, so that a sliding window does not flicker.
    const start = Math.floor(from / stride) * stride;
    const n = count === 0 ? 0 : Math.floor((to - start) / stride) + 1;
    const s = new Float64Array(n);
    for (let k = 0; k < n; k++) s[k] = (start + k * stride) * BUCKET_S;
    const merge = (column: Column) => {
      const min = new Float32Array(n).fill(Number.NaN);
      const max = new Float32Array(n).fill(Number.NaN);
      for (let k = 0; k < n; k++) {
        const end = Math.min(this.newest, start + (k + 1) * stride - 1);
        for (let i = start + k * stride; i <= end; i++) {
          put({ min, max }, k, column.min[i]!);
          put({ min, max }, k, column.max[i]!);
        }
      }
      return { min, max };
    };
    return {
      fromS,
      toS,
      s,
      readings: count,
      series: [
        { name: 'bar', place: null, channel: -1, ...merge(this.bar) },
        ...(this.second === null
          ? []
          : [{ name: 'second' as const, place: null, channel: -2, ...merge(this.second) }]),
        ...[...this.temps].map(([channel, column]) => ({
          name: 'temperature' as const,
          place: places.get(channel) ?? null,
          channel,
          ...merge(column),
        })),
      ],
    };
  }

  /** Lowest and highest pressure between two times, bar; null: there is none. */
  barSpan(fromS: number, toS: number): { readonly low: number; readonly high: number } | null {
    return this.spanOf([this.bar], fromS, toS);
  }

  /** Lowest and highest of all temperatures between two times, °C; null: there is none. */
  temperatureSpan(fromS: number, toS: number): { readonly low: number; readonly high: number } | null {
    return this.spanOf([...this.temps.values()], fromS, toS);
  }

  private spanOf(columns: readonly Column[], fromS: number, toS: number) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    const take = ({ min, max }: Ends, i: number) => {
      if (min[i]! < low) low = min[i]!;
      if (max[i]! > high) high = max[i]!;
    };
    const to = this.lastOf(toS);
    for (const column of columns)
      for (let i = this.firstOf(fromS); i <= to; ) {
        const isWhole = i % CHUNK === 0 && i + CHUNK - 1 <= to;
        take(isWhole ? column.chunks : column, isWhole ? i / CHUNK : i);
        i += isWhole ? CHUNK : 1;
      }
    return low <= high ? { low, high } : null;
  }

  /** Made where it is asked for the first time; after a growth it is another one. */
  private columnOf({ name, channel }: TraceWindow['series'][number]): Column {
    if (name === 'bar') return this.bar;
    if (name === 'second') {
      this.second ??= blank(this.capacity);
      return this.second;
    }
    const column = this.temps.get(channel) ?? blank(this.capacity);
    this.temps.set(channel, column);
    return column;
  }

  private firstOf(fromS: number): number {
    return Math.max(0, Math.floor(fromS / BUCKET_S));
  }

  private lastOf(toS: number): number {
    return Math.min(this.newest, Math.ceil(toS / BUCKET_S));
  }

  private reach(i: number): void {
    if (i < this.capacity) return;
    let capacity = this.capacity;
    while (capacity <= i) capacity *= 2;
    this.bar = grown(this.bar, capacity);
    if (this.second !== null) this.second = grown(this.second, capacity);
    this.temps = new Map([...this.temps].map(([channel, column]) => [channel, grown(column, capacity)]));
    this.capacity = capacity;
  }
}

function keep(column: Column, i: number, value: number): void {
  put(column, i, value);
  put(column.chunks, Math.floor(i / CHUNK), value);
}

function put(column: Ends, i: number, value: number): void {
  if (Number.isNaN(value)) return;
  // A NaN compares false with everything, so an empty bucket takes the first value.
  if (!(column.min[i]! <= value)) column.min[i] = value;
  if (!(column.max[i]! >= value)) column.max[i] = value;
}
