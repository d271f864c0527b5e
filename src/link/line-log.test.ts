import { expect, it } from 'vitest';
import type { SampleFrame } from './frames.ts';
import { createLineLog } from './line-log.ts';

const sample = (seq: number): SampleFrame => ({ t: 'S', seq, tick: seq * 200, counts: [7], status: 0 });

it('gives what came since, in order, refused lines among them with reason and speed', () => {
  const log = createLineLog();
  log.begin();
  log.frame(sample(0), 10);
  log.stray('crc', Uint8Array.of(0x53, 0x0a), 20, 115_200);
  const first = log.since(0);
  expect(first).toMatchObject({ connection: 1, next: 2, missed: 0 });
  expect(first.lines).toEqual([
    { n: 0, tUs: 10, frame: sample(0) },
    { n: 1, tUs: 20, stray: 'crc', bytes: Uint8Array.of(0x53, 0x0a), baudRate: 115_200 },
  ]);
  expect(log.since(first.next).lines).toEqual([]);
  log.frame(sample(1), 30);
  expect(log.since(first.next).lines.map((l) => l.n)).toEqual([2]);
});

it('keeps the newest and says how many whoever looks late has missed', () => {
  const log = createLineLog(4);
  for (let k = 0; k < 10; k++) log.frame(sample(k), k);
  const late = log.since(2);
  expect(late.lines.map((l) => l.n)).toEqual([6, 7, 8, 9]);
  expect(late).toMatchObject({ missed: 4, next: 10 });
  expect(log.since(8).missed).toBe(0);
});

it('forgets with the next connection, counts on, and takes no number that was never given', () => {
  const log = createLineLog(4);
  log.frame(sample(0), 0);
  log.begin();
  expect(log.since(0)).toEqual({ connection: 1, lines: [], next: 1, missed: 1 });
  log.frame(sample(1), 1);
  expect(log.since(99)).toEqual({ connection: 1, lines: [], next: 2, missed: 0 });
});

it('keeps of a run-away line no more than the longest that there is', () => {
  const log = createLineLog();
  log.stray('long', new Uint8Array(5000), 0, null);
  const [line] = log.since(0).lines;
  expect(line !== undefined && 'bytes' in line && line.bytes.length).toBe(128);
});
