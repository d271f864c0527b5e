/**
 * The byte form of a run's two side files: `.pyr` holds the closed buckets of the pyramid, `.val` the readings in
 * physical units as they were derived when they were recorded. Both are a convenience: raw counts in the pages
 * are the evidence, and side files that are missing, behind or damaged are made anew from them.
 */
import { crc32c } from './crc.ts';
import type { Rows } from './pyramid.ts';
import type { Bucket } from './pyramid-level.ts';
import { type ByteFile, SERIES_NAMES, type SeriesKey } from './types.ts';

/** The two side files of one run. */
export interface SideFiles {
  /** `.pyr` */
  readonly buckets: ByteFile;
  /** `.val` */
  readonly rows: ByteFile;
}

/** "Sbarpyra" in ASCII. */
const MAGIC = Uint8Array.of(0x53, 0x62, 0x61, 0x72, 0x70, 0x79, 0x72, 0x61);
const FORMAT = 1;
const MAX_HEADER = 1 << 16;
const MAX_SERIES = 8;

const pad8 = (n: number): number => (n + 7) & ~7;
const viewOf = (b: Uint8Array): DataView => new DataView(b.buffer, b.byteOffset, b.byteLength);

/** Bytes of one reading in `.val`: f64 µs, then f32 a series, up to a multiple of 8. */
export const rowBytes = (series: number): number => pad8(8 + 4 * series);

/** Bytes of one bucket in `.pyr`. */
export const bucketBytes = (series: number): number => pad8(32 + 8 * series);

export function encodeHeader(keys: readonly SeriesKey[]): Uint8Array {
  const json = new TextEncoder().encode(JSON.stringify(keys));
  const out = new Uint8Array(pad8(16 + json.length + 4));
  const view = viewOf(out);
  out.set(MAGIC);
  view.setUint16(8, FORMAT, true);
  view.setUint16(10, keys.length, true);
  view.setUint32(12, json.length, true);
  out.set(json, 16);
  view.setUint32(out.length - 4, crc32c(out, 0, out.length - 4), true);
  return out;
}

const isKey = (k: unknown): k is SeriesKey => {
  if (typeof k !== 'object' || k === null) return false;
  const { name, place, channel } = k as Record<string, unknown>;
  const named = (SERIES_NAMES as readonly unknown[]).includes(name);
  return named && (place === null || typeof place === 'string') && Number.isInteger(channel);
};

/** The series of a side file and the length of its header; null when it is none that this program can use. */
export function decodeHeader(bytes: Uint8Array): { keys: readonly SeriesKey[]; headerBytes: number } | null {
  if (bytes.length < 24 || MAGIC.some((m, i) => bytes[i] !== m)) return null;
  const view = viewOf(bytes);
  const length = view.getUint32(12, true);
  const headerBytes = pad8(16 + length + 4);
  if (view.getUint16(8, true) !== FORMAT || length > MAX_HEADER || headerBytes > bytes.length) return null;
  if (view.getUint32(headerBytes - 4, true) !== crc32c(bytes, 0, headerBytes - 4)) return null;
  try {
    const keys: unknown = JSON.parse(new TextDecoder().decode(bytes.subarray(16, 16 + length)));
    if (!Array.isArray(keys) || keys.length !== view.getUint16(10, true) || keys.length > MAX_SERIES)
      return null;
    return keys.every(isKey) ? { keys, headerBytes } : null;
  } catch {
    return null;
  }
}

export function encodeBucket(b: Bucket, rowsCrc: number): Uint8Array {
  const series = b.min.length;
  const out = new Uint8Array(bucketBytes(series));
  const view = viewOf(out);
  view.setFloat64(0, b.fromUs, true);
  view.setFloat64(8, b.toUs, true);
  view.setUint32(16, b.first, true);
  view.setUint16(20, b.count, true);
  view.setUint16(22, b.gap ? 1 : 0, true);
  view.setUint32(24, rowsCrc, true);
  for (let s = 0; s < series; s++) {
    view.setFloat32(32 + 4 * s, b.min[s]!, true);
    view.setFloat32(32 + 4 * (series + s), b.max[s]!, true);
  }
  // The CRC stands before the values, over all but itself.
  view.setUint32(28, crc32c(out, 32, out.length, crc32c(out, 0, 28)), true);
  return out;
}

/** The bucket at `at` and the CRC of its readings; null when it is damaged. */
export function decodeBucket(
  bytes: Uint8Array,
  at: number,
  series: number,
): { bucket: Bucket; rowsCrc: number } | null {
  const size = bucketBytes(series);
  if (at + size > bytes.length) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset + at, size);
  const crc = crc32c(bytes, at + 32, at + size, crc32c(bytes, at, at + 28));
  if (view.getUint32(28, true) !== crc) return null;
  const min: number[] = [];
  const max: number[] = [];
  for (let s = 0; s < series; s++) {
    min.push(view.getFloat32(32 + 4 * s, true));
    max.push(view.getFloat32(32 + 4 * (series + s), true));
  }
  const bucket = {
    fromUs: view.getFloat64(0, true),
    toUs: view.getFloat64(8, true),
    first: view.getUint32(16, true),
    count: view.getUint16(20, true),
    gap: view.getUint16(22, true) === 1,
    min,
    max,
  };
  return { bucket, rowsCrc: view.getUint32(24, true) };
}

export function writeRow(
  view: DataView,
  at: number,
  us: number,
  values: ArrayLike<number>,
  series: number,
): void {
  view.setFloat64(at, us, true);
  for (let s = 0; s < series; s++) view.setFloat32(at + 8 + 4 * s, values[s]!, true);
}

/** Rows of `.val`, as many as the bytes hold. */
export function decodeRows(bytes: Uint8Array, series: number): Rows {
  const stride = rowBytes(series);
  const n = Math.floor(bytes.length / stride);
  const view = viewOf(bytes);
  const us = new Float64Array(n);
  const values = Array.from({ length: series }, () => new Float32Array(n));
  for (let i = 0, at = 0; i < n; i++, at += stride) {
    us[i] = view.getFloat64(at, true);
    for (let s = 0; s < series; s++) values[s]![i] = view.getFloat32(at + 8 + 4 * s, true);
  }
  return { n, us, values };
}
