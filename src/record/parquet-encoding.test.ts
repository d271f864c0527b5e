import { describe, expect, it } from 'vitest';
import {
  createSheet,
  Distinct,
  putDeltas,
  putDoubles,
  putRuns,
  roomFor,
  type Sheet,
} from './parquet-encoding.ts';

// Examples of the format's own text: github.com/apache/parquet-format, Encodings.md. Whole pages are held against two
// readers in trace-parquet.test.ts.

function sheetOf(put: (sheet: Sheet) => void): number[] {
  const sheet = createSheet(roomFor(1000));
  put(sheet);
  return [...sheet.bytes.subarray(0, sheet.at)];
}

describe('runs', () => {
  it('pack 0 to 7 in three bits each as 10001000 11000110 11111010 (Encodings.md, RLE/bit-packing hybrid)', () => {
    const values = Int32Array.of(0, 1, 2, 3, 4, 5, 6, 7);
    expect(sheetOf((s) => putRuns(s, values, 8, 3))).toEqual([3, 0b10001000, 0b11000110, 0b11111010]);
  });

  it('tell eight equal ones and more by their number', () => {
    const values = new Int32Array(100).fill(4);
    expect(sheetOf((s) => putRuns(s, values, 100, 3))).toEqual([200, 1, 4]);
  });

  it('fill the last group up', () => {
    const values = Int32Array.of(1, 0, 1);
    expect(sheetOf((s) => putRuns(s, values, 3, 1))).toEqual([3, 0b101]);
  });
});

describe('differences', () => {
  const header = [0x80, 0x01, 4];

  it('of 1, 2, 3, 4, 5 need no bits (Encodings.md, delta encoding, example 1; blocks of 128 here)', () => {
    const values = Float64Array.of(1, 2, 3, 4, 5);
    expect(sheetOf((s) => putDeltas(s, values, 5, 32))).toEqual([...header, 5, 2, 2, 0, 0, 0, 0]);
  });

  it('of 7, 5, 3, 1, 2, 3, 4, 5 are -2 and two bits each (example 2)', () => {
    const values = Float64Array.of(7, 5, 3, 1, 2, 3, 4, 5);
    // Relative to -2: 0 0 0 3 3 3 3, two bits each, the low ones first; the miniblock has 32 of them.
    const packed = [0b11000000, 0b00111111, 0, 0, 0, 0, 0, 0];
    expect(sheetOf((s) => putDeltas(s, values, 8, 32))).toEqual([...header, 8, 14, 3, 2, 0, 0, 0, ...packed]);
  });

  it('wrap at 32 bits, and go on beyond them at 64', () => {
    const ends = Float64Array.of(-(2 ** 31), 2 ** 31 - 1);
    expect(sheetOf((s) => putDeltas(s, ends, 2, 32)).slice(-5)).toEqual([1, 0, 0, 0, 0]);
    expect(sheetOf((s) => putDeltas(s, ends, 2, 64)).slice(-9)).toEqual([
      0xfe, 0xff, 0xff, 0xff, 0x1f, 0, 0, 0, 0,
    ]);
  });

  it('of nothing are a header', () => {
    expect(sheetOf((s) => putDeltas(s, new Float64Array(0), 0, 64))).toEqual([...header, 0, 0]);
  });
});

it('doubles are numbers of the unit, and a zero has no sign', () => {
  const out = sheetOf((s) => putDoubles(s, Float64Array.of(1500, -0), 2, 1000));
  expect([...new Float64Array(Uint8Array.from(out).buffer)]).toEqual([1.5, 0]);
});

describe('the distinct ones', () => {
  const distinct = new Distinct(64);

  it('are named in order of their first places', () => {
    const values = Float64Array.from({ length: 16 }, (_, i) => [7, 7, -3, 2 ** 40][i % 4]!);
    expect(distinct.find(values, 16)).toBe(3);
    expect([...distinct.values.subarray(0, 3)]).toEqual([7, -3, 2 ** 40]);
    expect([...distinct.indices.subarray(0, 8)]).toEqual([0, 0, 1, 2, 0, 0, 1, 2]);
  });

  it('are not named where more than a quarter differ', () => {
    expect(
      distinct.find(
        Float64Array.from({ length: 16 }, (_, i) => i),
        16,
      ),
    ).toBeNull();
  });
});
