/**
 * The picture of a run, live and saved: the pyramid in memory, its closed buckets and all readings in side files.
 * A saved run opens by reading the buckets only; readings are fetched for narrow windows.
 */
import { crc32c } from './crc.ts';
import { createPyramid, type Pyramid, type ReadRows } from './pyramid.ts';
import type { Bucket } from './pyramid-level.ts';
import {
  bucketBytes,
  decodeBucket,
  decodeHeader,
  decodeRows,
  encodeBucket,
  encodeHeader,
  rowBytes,
  type SideFiles,
  writeRow,
} from './side-files.ts';
import type { ByteFile, PictureWindow, SeriesKey } from './types.ts';

/** The side files do not hold together: make them anew from the pages. */
export class SideFileError extends Error {
  override readonly name = 'SideFileError';
}

export interface TraceCache {
  readonly keys: readonly SeriesKey[];
  /** Readings held, one for each sample frame of the run. */
  readonly readings: number;
  /**
   * Readings that were found in the side files: whoever feeds the cache starts behind them. Equal to the run's
   * samples (scanRun) when nothing is to be made up.
   */
  readonly restored: number;
  readonly firstUs: number | null;
  readonly lastUs: number | null;
  /**
   * @param us sampling time on the run clock, µs; not before the last one
   * @param values one a key; NaN where there is no usable value
   * @param gap a gap lies before this reading; a silence longer than a second and than five times the last
   * interval counts as one anyway
   */
  append(us: number, values: ArrayLike<number>, gap?: boolean): void;
  /** Appends what came since the last flush to the side files; the files' owner flushes them to disk. */
  flush(): void;
  /** Closes the last bucket and flushes: the end of the run. */
  finish(): void;
  /** @throws SideFileError when readings on disk are not those that were written */
  picture(fromUs: number, toUs: number, points: number): PictureWindow;
}

const SILENCE_US = 1e6;
const SILENT_PERIODS = 5;

class Cache implements TraceCache {
  readonly restored: number;
  private readonly pyramid: Pyramid;
  private readonly stride: number;
  /** CRC of the readings of each closed bucket, and its first reading, to check what is read back. */
  private readonly firsts: number[] = [];
  private readonly crcs: number[] = [];
  private readonly checked: boolean[] = [];
  /** Readings not yet in the file: bytes as they will be written. */
  private pending = new Uint8Array(4096);
  private view = new DataView(this.pending.buffer);
  private pendingUsed = 0;
  private intervalUs = Number.POSITIVE_INFINITY;
  private lastAppended: number | null = null;
  /** CRC of the open bucket's readings as far as they lie before this place of the pending bytes. */
  private openCrc = 0;
  private openFrom = 0;

  constructor(
    readonly keys: readonly SeriesKey[],
    private readonly files: SideFiles,
  ) {
    this.pyramid = createPyramid(keys);
    this.stride = rowBytes(keys.length);
    this.restored = this.restore();
    this.lastAppended = this.pyramid.lastUs;
    this.readRows = this.readRows.bind(this);
  }

  get readings(): number {
    return this.pyramid.readings;
  }
  get firstUs(): number | null {
    return this.pyramid.firstUs;
  }
  get lastUs(): number | null {
    return this.pyramid.lastUs;
  }

  /** Takes in what the side files hold of whole, sound buckets, and cuts the rest. */
  private restore(): number {
    const { buckets, rows } = this.files;
    const bytes = buckets.read(0, buckets.size);
    const head = decodeHeader(bytes);
    if (head === null || JSON.stringify(head.keys) !== JSON.stringify(this.keys)) {
      buckets.truncate(0);
      rows.truncate(0);
      buckets.append(encodeHeader(this.keys));
      return 0;
    }
    const size = bucketBytes(this.keys.length);
    let at = head.headerBytes;
    for (; at + size <= bytes.length; at += size) {
      const found = decodeBucket(bytes, at, this.keys.length);
      if (found === null || found.bucket.first !== this.pyramid.readings) break;
      if ((found.bucket.first + found.bucket.count) * this.stride > rows.size) break;
      this.pyramid.restore(found.bucket);
      this.note(found.bucket, found.rowsCrc, false);
    }
    if (at < bytes.length) buckets.truncate(at);
    const kept = this.pyramid.closed * this.stride;
    if (kept < rows.size) rows.truncate(kept);
    return this.pyramid.closed;
  }

  private note(bucket: Bucket, crc: number, checked: boolean): void {
    this.firsts.push(bucket.first);
    this.crcs.push(crc);
    this.checked.push(checked);
  }

  append(us: number, values: ArrayLike<number>, gap = false): void {
    const before = this.lastAppended;
    const interval = before === null ? 0 : us - before;
    const silent = before !== null && interval > SILENCE_US && interval > SILENT_PERIODS * this.intervalUs;
    const closedBefore = this.pyramid.closed;
    this.pyramid.append(us, values, gap || silent);
    // A gap closes the bucket before this reading, so its CRC is complete without it.
    if (this.pyramid.closed > closedBefore && this.pyramid.closed < this.pyramid.readings) this.settle();
    this.push(us, values);
    if (this.pyramid.closed === this.pyramid.readings) this.settle();
    if (before !== null) this.intervalUs = interval;
    this.lastAppended = us;
  }

  private closedBuckets: Uint8Array[] = [];

  /** The bucket just closed, with the CRC of its readings. */
  private settle(): void {
    this.sum();
    for (const bucket of this.pyramid.takeClosed()) {
      this.closedBuckets.push(encodeBucket(bucket, this.openCrc));
      this.note(bucket, this.openCrc, true);
      this.openCrc = 0;
    }
  }

  /** Takes the readings that wait into the open bucket's CRC: many at once, as their bytes lie together. */
  private sum(): void {
    this.openCrc = crc32c(this.pending, this.openFrom, this.pendingUsed, this.openCrc);
    this.openFrom = this.pendingUsed;
  }

  private push(us: number, values: ArrayLike<number>): void {
    const need = this.pendingUsed + this.stride;
    if (need > this.pending.length) {
      const wider = new Uint8Array(need * 2);
      wider.set(this.pending.subarray(0, this.pendingUsed));
      this.pending = wider;
      this.view = new DataView(wider.buffer);
    }
    writeRow(this.view, this.pendingUsed, us, values, this.keys.length);
    this.pendingUsed = need;
  }

  flush(): void {
    if (this.pendingUsed > 0) {
      this.files.rows.append(this.pending.slice(0, this.pendingUsed));
      this.sum();
      this.pendingUsed = 0;
      this.openFrom = 0;
    }
    let written = 0;
    try {
      for (const bucket of this.closedBuckets) {
        this.files.buckets.append(bucket);
        written++;
      }
    } finally {
      // What a full disk refused waits for the next flush.
      this.closedBuckets.splice(0, written);
    }
  }

  finish(): void {
    this.pyramid.close();
    this.settle();
    this.flush();
  }

  picture(fromUs: number, toUs: number, points: number): PictureWindow {
    return this.pyramid.picture(fromUs, toUs, points, this.readRows);
  }

  private readRows: ReadRows = (first, n) => {
    const from = first * this.stride;
    const to = from + n * this.stride;
    const inFile = this.files.rows.size;
    const all = new Uint8Array(to - from);
    if (from < inFile) all.set(this.files.rows.read(from, Math.min(to, inFile) - from));
    if (to > inFile) {
      const start = Math.max(from, inFile);
      all.set(this.pending.subarray(start - inFile, to - inFile), start - from);
    }
    this.check(all, first, n);
    return decodeRows(all, this.keys.length);
  };

  /** Every bucket is checked once when its readings come back from disk. */
  private check(bytes: Uint8Array, first: number, n: number): void {
    let b = lastAtOrBefore(this.firsts, first);
    for (; b >= 0 && b < this.firsts.length && this.firsts[b]! < first + n; b++) {
      if (this.checked[b]) continue;
      const end = this.firsts[b + 1] ?? this.pyramid.closed;
      if (this.firsts[b]! < first || end > first + n) continue;
      const [at, to] = [(this.firsts[b]! - first) * this.stride, (end - first) * this.stride];
      if (crc32c(bytes, at, to) !== this.crcs[b])
        throw new SideFileError('readings in the side file are damaged');
      this.checked[b] = true;
    }
  }
}

/** Index of the last value <= x of an ascending list, or -1. */
function lastAtOrBefore(list: readonly number[], x: number): number {
  let lo = 0;
  let hi = list.length;
  while (lo < hi) {
    const mid = (lo + hi) >>> 1;
    if (list[mid]! <= x) lo = mid + 1;
    else hi = mid;
  }
  return lo - 1;
}

/**
 * Opens or begins the side files of a run. Files of other series, or damaged ones, are begun anew: `restored` says
 * how much is left to be fed.
 */
export function openTraceCache(keys: readonly SeriesKey[], files: SideFiles): TraceCache {
  return new Cache(keys, files);
}

/** The series of saved side files; null when there are none that can be used. */
export function seriesOf(buckets: ByteFile): readonly SeriesKey[] | null {
  return decodeHeader(buckets.read(0, Math.min(buckets.size, 1 << 16)))?.keys ?? null;
}
