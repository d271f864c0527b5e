import { expect, it } from 'vitest';
import { noise } from '../../estimate/testing/random.ts';
import { courseAdd, createCourse, levelAt, levelSd } from './course.ts';

const played = (seconds: number, bar: (s: number) => number, hz = 10) => {
  const k = createCourse();
  for (let i = 1; i <= seconds * hz; i++) courseAdd(k, i / hz, bar(i / hz), i / hz > 5 ? 10 : null);
  return k;
};

it('a level is the mean of the four seconds about it, and the air beside it', () => {
  const k = played(60, (s) => 0.1 - 0.0001 * s);
  expect(levelAt(k, 30)!.bar).toBeCloseTo(0.097, 4);
  expect(levelAt(k, 30)!.c).toBe(10);
  expect(levelAt(k, 2)!.c).toBeNull();
  expect(levelAt(k, 200)).toBeNull();
});

it('neither a steady nor a fading fall is scatter; noise is', () => {
  expect(
    levelSd(
      played(180, (s) => 0.1 - 0.00008 * s),
      0,
    )!,
  ).toBeLessThan(1e-6);
  expect(
    levelSd(
      played(180, (s) => 0.1 * Math.exp(-s / 1000)),
      0,
    )!,
  ).toBeLessThan(2e-5);
  const random = noise(3);
  // 1 mbar a reading, ten a second: 1 / sqrt(40) mbar a level.
  const sd = levelSd(
    played(400, () => 0.1 + 0.001 * random()),
    0,
  )!;
  expect(sd / (0.001 / Math.sqrt(40))).toBeGreaterThan(0.7);
  expect(sd / (0.001 / Math.sqrt(40))).toBeLessThan(1.3);
});

it('few levels have no scatter that is known', () => {
  expect(
    levelSd(
      played(20, () => 0.1),
      0,
    ),
  ).toBeNull();
  expect(
    levelSd(
      played(100, () => 0.1),
      200,
    ),
  ).toBeNull();
});
