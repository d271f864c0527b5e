import { expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { courseAdd, courseFrom, courseLine, courseMean, courseS, createCourse, standing } from './course.ts';

/** Seconds of a level, with noise that is correlated by `phi` from reading to reading. */
function course(seconds: number, bar: (t: number) => number, { hz = 20, sd = 0, phi = 0, seed = 3 } = {}) {
  const c = createCourse();
  const random = noise(seed);
  let e = 0;
  for (let n = 0; n <= seconds * hz; n++) {
    e = phi * e + Math.sqrt(1 - phi * phi) * sd * random();
    courseAdd(c, n / hz, bar(n / hz) + e);
  }
  return c;
}

it('means of half a second lie in their middles, two minutes of them at most', () => {
  const c = course(10, (t) => t, { hz: 100 });
  expect(courseS(c)).toBe(10);
  expect(c.t[0]).toBeCloseTo(0.25, 6);
  expect(c.p[0]).toBeCloseTo(0.245, 6);
  expect(courseLine(c, 5)!.slope).toBeCloseTo(1, 9);
  expect(courseMean(c, 2)).toBeCloseTo(8.995, 6);
  expect(courseMean(c, 11)).toBeNull();
  courseFrom(c, 7);
  expect(courseS(c)).toBe(3);
  expect(courseS(course(200, () => 1))).toBe(120);
});

it('holds the true level and slope in 95 of 100 courses, though the noise is correlated', () => {
  let level = 0;
  let slope = 0;
  const runs = 400;
  for (let i = 0; i < runs; i++) {
    const found = standing(course(30, () => 1.5, { sd: 0.003, phi: 0.9, seed: 100 + i }))!;
    if (found.creep.low <= 0 && found.creep.high >= 0) slope++;
    if (found.lockUp.low <= 1.5 && found.lockUp.high >= 1.5) level++;
  }
  // 95 % of 400, less what chance takes in one of a thousand.
  expect(slope).toBeGreaterThan(362);
  expect(level).toBeGreaterThan(362);
});

it('of a creep the level is that at which it began', () => {
  const { lockUp, creep } = standing(course(30, (t) => 1.5 + 0.002 * t, { sd: 0.001 }))!;
  expect(creep.low).toBeGreaterThan(0);
  // The first mean is a quarter of a second old in its middle.
  expect(lockUp.value).toBeCloseTo(1.5005, 3);
  expect(lockUp.high - lockUp.low).toBeLessThan(0.002);
  expect(standing(course(2, () => 1))).toBeNull();
});
