import { describe, expect, it } from 'vitest';
import { openTraceCache, SideFileError, seriesOf, type TraceCache } from './trace-cache.ts';
import type { ByteFile, SeriesKey } from './types.ts';

const KEYS: SeriesKey[] = [
  { name: 'bar', place: null, channel: 0 },
  { name: 'temperature', place: 'sleeve', channel: 1 },
  { name: 'temperature', place: null, channel: 2 },
];

class Bytes implements ByteFile {
  data = new Uint8Array(0);
  get size(): number {
    return this.data.length;
  }
  append(bytes: Uint8Array): void {
    const all = new Uint8Array(this.data.length + bytes.length);
    all.set(this.data);
    all.set(bytes, this.data.length);
    this.data = all;
  }
  truncate(size: number): void {
    this.data = this.data.slice(0, size);
  }
  read(offset: number, length: number): Uint8Array {
    if (offset + length > this.data.length) throw new Error('past the end');
    return this.data.slice(offset, offset + length);
  }
}

const row = (i: number): [number, number[]] => [
  i * 20_000 + (i >= 1000 ? 90e6 : 0),
  [1 + (i % 17) / 16, i % 5 ? Number.NaN : 20 + (i % 9) / 8, 12],
];

function feed(cache: TraceCache, from: number, to: number): void {
  for (let i = from; i < to; i++) {
    cache.append(...row(i));
    if (i % 25 === 24) cache.flush();
  }
}

describe('trace cache', () => {
  it('opens again with the very same picture, wide and narrow', () => {
    const files = { buckets: new Bytes(), rows: new Bytes() };
    const live = openTraceCache(KEYS, files);
    expect(live.restored).toBe(0);
    feed(live, 0, 3010);
    live.finish();
    const saved = openTraceCache(KEYS, files);
    expect([saved.restored, saved.readings, saved.firstUs]).toEqual([3010, 3010, 0]);
    for (const [from, to, points] of [
      [0, 160e6, 10],
      [0, 160e6, 1500],
      [15e6, 115e6, 60],
      [20e6, 21e6, 500],
    ] as const)
      expect(saved.picture(from, to, points)).toEqual(live.picture(from, to, points));
    // Silence without a mark of its own is a gap all the same.
    expect([...saved.picture(0, 160e6, 10).series[0]!.max].filter(Number.isNaN)).toHaveLength(1);
    expect(seriesOf(files.buckets)).toEqual(KEYS);
  });

  it('shows while recording what is not in the files yet', () => {
    const live = openTraceCache(KEYS, { buckets: new Bytes(), rows: new Bytes() });
    for (let i = 0; i < 700; i++) {
      live.append(...row(i));
      if (i === 300) live.flush();
    }
    const w = live.picture(0, 14e6, 2000);
    expect(w.readings).toBe(700);
    expect([...w.series[0]!.min]).toEqual(Array.from({ length: 700 }, (_, i) => Math.fround(row(i)[1][0]!)));
  });

  it('goes on after a crash behind the last whole bucket, and ends up the same', () => {
    const whole = { buckets: new Bytes(), rows: new Bytes() };
    const first = openTraceCache(KEYS, whole);
    feed(first, 0, 2000);
    first.finish();
    for (const [lostBuckets, lostRows] of [
      [0, 0],
      [5, 0],
      [0, 3000],
      [61, 17],
      [9000, 0],
    ] as const) {
      const files = { buckets: new Bytes(), rows: new Bytes() };
      feed(openTraceCache(KEYS, files), 0, 1900);
      files.buckets.truncate(Math.max(0, files.buckets.size - lostBuckets));
      files.rows.truncate(files.rows.size - lostRows);
      const again = openTraceCache(KEYS, files);
      expect(again.restored).toBeLessThanOrEqual(1900);
      feed(again, again.restored, 2000);
      again.finish();
      expect(files.rows.data).toEqual(whole.rows.data);
      expect(again.picture(0, 200e6, 300)).toEqual(first.picture(0, 200e6, 300));
    }
  });

  it('begins anew when the series are others', () => {
    const files = { buckets: new Bytes(), rows: new Bytes() };
    feed(openTraceCache(KEYS, files), 0, 500);
    const other = openTraceCache(KEYS.slice(0, 2), files);
    expect([other.restored, files.rows.size]).toEqual([0, 0]);
  });

  it('tells damaged buckets at opening and damaged readings when they are read', () => {
    const files = { buckets: new Bytes(), rows: new Bytes() };
    const live = openTraceCache(KEYS, files);
    feed(live, 0, 640);
    live.finish();
    const rows = files.rows.data.slice();
    files.rows.data[100 * 24 + 9]! ^= 1;
    expect(() => openTraceCache(KEYS, files).picture(0, 20e6, 2000)).toThrow(SideFileError);
    files.rows.data = rows;
    const size = files.buckets.size;
    files.buckets.data[size - 56 * 6 + 33]! ^= 1;
    expect(openTraceCache(KEYS, files).restored).toBe(64 * 7);
  });
});
