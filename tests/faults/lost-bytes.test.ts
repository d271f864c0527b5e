import { expect, it } from 'vitest';
import { encodeFrame } from '../../src/link/encode.ts';
import { compareBytes, lostBetween } from './lost-bytes.ts';

const line = (seq: number) =>
  Buffer.from(encodeFrame({ t: 'S', seq, tick: 200 * seq, status: 0, counts: [4000 + (seq % 7), 40_000] }));
const lines = (from: number, to: number) =>
  Buffer.concat(Array.from({ length: to - from }, (_, i) => line(from + i)));

it('a record that holds all of it from somewhere on has lost nothing', () => {
  const tap = lines(0, 100);
  const head = lines(0, 10).length;
  const { losses, foreign, from, to } = compareBytes(tap, tap.subarray(head, tap.length - 50));
  expect({ losses, foreign, from, to }).toEqual({ losses: [], foreign: 0, from: head, to: tap.length - 50 });
});

it('finds each missing piece with its place and size', () => {
  const parts = [lines(0, 30), lines(30, 34), lines(34, 60), lines(60, 61), lines(61, 90)] as const;
  const tap = Buffer.concat([...parts]);
  const { losses, foreign } = compareBytes(tap, Buffer.concat([parts[0], parts[2], parts[4]]));
  expect(foreign).toBe(0);
  // Neighbours begin alike: where a piece is missing, its first bytes may be taken for the next one's.
  expect(losses.map((l) => l.bytes)).toEqual([parts[1].length, parts[3].length]);
  const middle = parts[0].length + parts[1].length + 10;
  expect(lostBetween(losses, 0, middle)).toBe(parts[1].length);
  expect(lostBetween(losses, middle, tap.length)).toBe(parts[3].length);
});

it('bytes that never were on this line are counted apart', () => {
  const tap = lines(0, 20);
  const strange = Buffer.from('?'.repeat(60));
  const { losses, foreign } = compareBytes(tap, Buffer.concat([lines(0, 10), strange, lines(10, 20)]));
  expect(losses).toEqual([]);
  expect(foreign).toBe(60);
});

it('a record of nothing has lost nothing that it began with', () => {
  expect(compareBytes(lines(0, 3), Buffer.alloc(0))).toEqual({ losses: [], foreign: 0, from: 0, to: 0 });
});
