import { expect, it } from 'vitest';
import type { SampleFrame } from '../link/frames.ts';
import {
  breakTraffic,
  createTraffic,
  judgeClock,
  judgeLines,
  judgeLost,
  judgeRate,
  judgeRestarts,
  takeRefused,
  takeSampleTraffic,
} from './traffic.ts';

const sample = (seq: number, ticks: number, status = 0): SampleFrame => ({
  t: 'S',
  seq,
  tick: Math.round(ticks) >>> 0,
  counts: [1],
  status,
});

/** So many seconds at a rate; the device's clock runs fast by `ppm`, lines come late by up to 5 ms. */
function stream(seconds: number, { hz = 50, ppm = 0, startTick = 0, lostEvery = 0, status = 0 } = {}) {
  const t = createTraffic();
  for (let k = 1; k <= seconds * hz; k++) {
    t.frames++;
    const s = k / hz;
    const lost = lostEvery > 0 && k % lostEvery === 0 ? 1 : 0;
    const late = ((k * 7) % 11) * 0.5e-3;
    takeSampleTraffic(t, sample(k, startTick + s * 1e4 * (1 + ppm / 1e6), status), (s + late) * 1e6, lost);
  }
  return t;
}

it('the rate is what came over the time in which it came, held against what the device keeps', () => {
  expect(judgeRate(stream(5), 50).reason).toBe('few');
  expect(judgeRate(stream(20), 50)).toMatchObject({ reason: 'kept' });
  expect(judgeRate(stream(20), 50).value).toBeCloseTo(50, 1);
  expect(judgeRate(stream(20), 54).reason).toBe('slow');
  expect(judgeRate(stream(20), 100).reason).toBe('too-slow');
  // Kept, and too slow for a forecast all the same.
  expect(judgeRate(stream(30, { hz: 4 }), 4).reason).toBe('slow');
  expect(judgeRate(stream(30, { hz: 1 }), 1).reason).toBe('too-slow');
});

it('a stretch that was not looked at is no time in which nothing came', () => {
  const t = stream(20);
  breakTraffic(t);
  for (let k = 0; k < 1000; k++) takeSampleTraffic(t, sample(9000 + k, 0), 500e6 + k * 20_000, 0);
  expect(judgeRate(t, 50).value).toBeCloseTo(50, 1);
});

it('a clock is told from the computer’s to some tens of ppm in a minute, over the wrap of its counter', () => {
  expect(judgeClock(stream(40)).reason).toBe('few');
  expect(judgeClock(stream(90))).toMatchObject({ reason: 'close' });
  const off = judgeClock(stream(90, { ppm: 3000, startTick: 2 ** 32 - 200_000 }));
  expect(off.reason).toBe('off');
  expect(Math.abs(off.value! - 3000)).toBeLessThan(60);
  expect(judgeClock(stream(90, { ppm: -30_000 })).reason).toBe('far-off');
});

it('missing samples, and those that the device itself dropped', () => {
  expect(judgeLost(stream(1)).reason).toBe('few');
  expect(judgeLost(stream(20))).toMatchObject({ reason: 'none', value: 0 });
  expect(judgeLost(stream(20, { lostEvery: 500 }))).toMatchObject({ reason: 'some', value: 2 });
  expect(judgeLost(stream(20, { lostEvery: 10 }))).toMatchObject({ reason: 'many', value: 100 });
  expect(judgeLost(stream(20, { status: 1 })).reason).toBe('many');
});

it('a refused line counts from the first frame on; before it the speed was looked for', () => {
  const t = createTraffic();
  takeRefused(t, 'garbage', Uint8Array.of(1), true);
  expect(judgeLines(t)).toMatchObject({ reason: 'few', value: 0 });
  t.frames = 1000;
  expect(judgeLines(t).reason).toBe('clean');
  takeRefused(t, 'partial', Uint8Array.of(1), false);
  expect(judgeLines(t).reason).toBe('clean');
  takeRefused(t, 'crc', Uint8Array.of(1), true);
  expect(judgeLines(t)).toMatchObject({ reason: 'some', value: 1, against: 1001 });
  for (let k = 0; k < 20; k++) takeRefused(t, 'crc', Uint8Array.of(2), true);
  expect(judgeLines(t).reason).toBe('many');
  expect([...t.refused].map(([reason, { lines }]) => [reason, lines])).toEqual([
    ['garbage', 1],
    ['partial', 1],
    ['crc', 21],
  ]);
});

it('without a restart a minute has to be listened', () => {
  expect(judgeRestarts(stream(20)).reason).toBe('few');
  const t = stream(70);
  expect(judgeRestarts(t).reason).toBe('none');
  t.restarts++;
  expect(judgeRestarts(t)).toMatchObject({ reason: 'restarted', value: 1 });
});
