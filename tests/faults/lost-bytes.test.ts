import { expect, it } from 'vitest';
import { encodeFrame } from '../../src/link/encode.ts';
import { compareBytes, lostBetween } from './lost-bytes.ts';

const line = (seq: number) =>
  Buffer.from(encodeFrame({ t: 'S', seq, tick: 200 * seq, status: 0, counts: [4000 + (seq % 7), 40_000] }));
const lines = (from: number, to: number) =>
  Buffer.concat(Array.from({ length: to - from }, (_, i) => line(from + i)));

const greeting = (id: string) =>
  Buffer.concat([
    Buffer.from(`H,1,${id},x\n`),
    ...[0, 1, 2].map((n) => Buffer.from(`C,${n},press,hose,ratio,1,16,4000,36000,1a2b3c4d\n`)),
  ]);

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
  expect(losses).toEqual([
    { at: parts[0].length, bytes: parts[1].length },
    { at: parts[0].length + parts[1].length + parts[2].length, bytes: parts[3].length },
  ]);
  const middle = parts[0].length + parts[1].length + 10;
  expect(lostBetween(losses, 0, middle)).toBe(parts[1].length);
  expect(lostBetween(losses, middle, tap.length)).toBe(parts[3].length);
});

it('a line that was cut off, and garbage, are in both or lost', () => {
  const cut = line(20).subarray(0, 9);
  const noise = Buffer.from([1, 2, 3, 200, 10, 77]);
  const tap = Buffer.concat([lines(0, 20), cut, lines(40, 60), noise, lines(60, 80)]);
  expect(compareBytes(tap, tap)).toMatchObject({ losses: [], foreign: 0 });
  const clean = Buffer.concat([lines(0, 20), lines(41, 60), lines(61, 80)]);
  expect(compareBytes(tap, clean).losses.map((l) => l.bytes)).toEqual([
    cut.length + line(40).length,
    noise.length + line(60).length,
  ]);
});

it('another device’s greeting, alike but for its name, brings nothing out of step', () => {
  const own = greeting('own');
  const tap = Buffer.concat([own, lines(0, 30), own, lines(30, 60), own, lines(60, 90)]);
  const other = greeting('other');
  const record = Buffer.concat([own, lines(0, 30), other, own, lines(30, 60), own, lines(60, 90)]);
  expect(compareBytes(tap, record)).toMatchObject({ losses: [], foreign: other.length });
});

it('bytes that never were on this line are counted apart', () => {
  const strange = Buffer.from(`${'?'.repeat(60)}\n`);
  const { losses, foreign } = compareBytes(
    lines(0, 20),
    Buffer.concat([lines(0, 10), strange, lines(10, 20)]),
  );
  expect(losses).toEqual([]);
  expect(foreign).toBe(61);
});

it('a record of nothing has lost nothing that it began with', () => {
  expect(compareBytes(lines(0, 3), Buffer.alloc(0))).toEqual({ losses: [], foreign: 0, from: 0, to: 0 });
});
