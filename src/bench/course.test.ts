import { expect, it } from 'vitest';
import { noise as normal } from '../estimate/testing/random.ts';
import { createCourse, judgeDrift, judgeNoise, restingBar, takeBlind, takePressure } from './course.ts';

const PER_COUNT = 1e-4;

/** @param bar of the line at a time, and of the noise on it (standard deviation) */
function course(seconds: number, bar: (s: number) => number, noise = 0, hz = 20) {
  const c = createCourse();
  const random = normal(7);
  for (let k = 0; k < seconds * hz; k++) {
    const counts = Math.round((bar(k / hz) + noise * random()) / PER_COUNT);
    takePressure(c, k / hz, counts * PER_COUNT, counts);
  }
  return c;
}

it('noise is that of the readings, in mbar and in counts, and no slope passes for it', () => {
  const still = judgeNoise(
    course(30, () => 0.5, 0.001),
    0,
  );
  expect(still.reason).toBe('quiet');
  expect(Math.abs(still.value! - 1)).toBeLessThan(0.1);
  expect(Math.abs(still.against! - 10)).toBeLessThan(1);
  // 2 mbar/s up and down.
  const moved = judgeNoise(
    course(60, (s) => 0.5 + 0.002 * Math.abs((s % 20) - 10), 0.001),
    0,
  );
  expect(Math.abs(moved.value! - 1)).toBeLessThan(0.1);
  expect(
    judgeNoise(
      course(30, () => 0.5, 0.005),
      0,
    ).reason,
  ).toBe('noisy');
  expect(
    judgeNoise(
      course(30, () => 0.5, 0.05),
      0,
    ).reason,
  ).toBe('too-noisy');
  expect(
    judgeNoise(
      course(5, () => 0.5, 0.001),
      0,
    ).reason,
  ).toBe('few');
});

it('counts that never move are named, and a channel that gives no pressure', () => {
  expect(
    judgeNoise(
      course(30, () => 0.5),
      0,
    ).reason,
  ).toBe('frozen');
  const c = course(30, () => 0.5, 0.001);
  for (let k = 0; k < 10; k++) takeBlind(c);
  expect(judgeNoise(c, 0).reason).toBe('no-reading');
});

it('drift is the slope of the longest rest, with its uncertainty', () => {
  const drifting = (perMin: number) =>
    judgeDrift(
      course(240, (s) => 0.001 * perMin * (s / 60), 0.0005),
      0,
    );
  expect(drifting(0).reason).toBe('steady');
  expect(drifting(0.6)).toMatchObject({ reason: 'drifts' });
  expect(drifting(0.6).value).toBeCloseTo(0.6, 1);
  expect(drifting(-2)).toMatchObject({ reason: 'drifts-far' });
  expect(drifting(0).against).toBeGreaterThan(0);
  expect(drifting(0).against).toBeLessThan(0.2);
});

it('a hand in between begins a new rest: what rested longest before is kept', () => {
  const pumped = (s: number) => (s < 200 ? 0 : s < 210 ? (s - 200) * 0.1 : 1);
  const c = course(240, pumped, 0.0005);
  expect(judgeDrift(c, 0)).toMatchObject({ reason: 'steady' });
  expect(restingBar(c)).toBeCloseTo(1, 2);
  expect(restingBar(course(206, pumped, 0.0005))).toBeNull();
  const short = course(100, pumped, 0.0005);
  expect(judgeDrift(short, 0)).toMatchObject({ reason: 'few' });
});

it('a slow source is judged too: one reading a second', () => {
  expect(
    judgeNoise(
      course(60, () => 0.5, 0.001, 1),
      0,
    ).reason,
  ).toBe('quiet');
  expect(
    judgeDrift(
      course(300, () => 0.5, 0.0005, 1),
      0,
    ).reason,
  ).toBe('steady');
});
