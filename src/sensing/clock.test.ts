import fc from 'fast-check';
import { expect, it } from 'vitest';
import { createClock, sampleTime, untie } from './clock.ts';

it('ties to the first arrival, then follows the device clock whatever the arrivals do', () => {
  const c = createClock();
  expect(sampleTime(c, 1000, 5_000_000)).toBe(5);
  expect(sampleTime(c, 1500, 5_090_000)).toBeCloseTo(5.05, 9);
  expect(sampleTime(c, 2000, 5_090_100)).toBeCloseTo(5.1, 9);
});

it('goes through the wrap of the 32-bit counter', () => {
  const c = createClock();
  sampleTime(c, 0xffff_ff00, 0);
  expect(sampleTime(c, 0x0000_0100, 51_200)).toBeCloseTo(0.0512, 9);
});

it('a night between two samples is counted by the device (59 h, short of half the counter)', () => {
  const c = createClock();
  sampleTime(c, 0, 0);
  const hours = 59;
  expect(sampleTime(c, hours * 36_000_000, hours * 3600e6)).toBeCloseTo(hours * 3600, 6);
});

it('a clock that goes back, runs away or stands still is not believed', () => {
  const c = createClock();
  sampleTime(c, 100_000, 1_000_000);
  expect(sampleTime(c, 50, 1_050_000)).toBeCloseTo(1.05, 9); // back: tied again
  expect(sampleTime(c, 550, 1_100_000)).toBeCloseTo(1.1, 9);
  expect(sampleTime(c, 550 + 100_000, 1_150_000)).toBeCloseTo(1.15, 9); // 10 s in 50 ms
  expect(sampleTime(c, 550 + 100_000, 1_200_000)).toBeCloseTo(1.2, 9); // still
});

it('a pause that the counter cannot hold is counted by the tablet', () => {
  const c = createClock();
  sampleTime(c, 0, 0);
  // Five days: the counter has wrapped and shows ten hours.
  const days = 5 * 86_400;
  expect(sampleTime(c, (days * 10_000) >>> 0, days * 1e6)).toBeCloseTo(days, 6);
});

it('ties again after a reset, still ascending', () => {
  const c = createClock();
  sampleTime(c, 0, 1_000_000);
  sampleTime(c, 5000, 1_000_100); // half a second ahead of its arrival: the first came late
  untie(c);
  const t = sampleTime(c, 12, 1_000_200);
  expect(t).toBeGreaterThan(1.5);
  expect(t).toBeLessThan(1.6);
});

it('never stands and never goes back, for any ticks and arrivals', () => {
  const arrivals = fc.integer({ min: 0, max: 5_000_000 });
  const tick = fc.oneof(fc.integer({ min: 0, max: 0xffff_ffff }), fc.integer({ min: 0, max: 2000 }));
  fc.assert(
    fc.property(fc.array(fc.tuple(tick, arrivals), { maxLength: 60 }), (steps) => {
      const c = createClock();
      let us = 0;
      let last = Number.NEGATIVE_INFINITY;
      for (const [t, wait] of steps) {
        us += wait;
        const s = sampleTime(c, t, us);
        expect(s).toBeGreaterThan(last);
        last = s;
      }
    }),
    { seed: 11 },
  );
});
