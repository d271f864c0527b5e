import { expect, it } from 'vitest';
import { createWallClock } from './wall-clock.ts';

function bench() {
  const at = { utcMs: 1_700_000_000_000, us: 0 };
  const wall = createWallClock(
    () => at.utcMs,
    () => at.us,
  );
  /** Lets both clocks run, the wall clock by `offMs` more. */
  const pass = (seconds: number, offMs = 0) => {
    at.us += seconds * 1e6;
    at.utcMs += seconds * 1000 + offMs;
    return wall.jumpS();
  };
  return { pass };
}

it('a sleep or a set clock is a jump of so many seconds, told once', () => {
  const { pass } = bench();
  expect(pass(1)).toBeNull();
  expect(pass(0.05, 3_600_000)).toBe(3600);
  expect(pass(0.05)).toBeNull();
  expect(pass(0.05, -7_249)).toBe(-7.2);
  expect(pass(0.05, 1999)).toBeNull();
  // Too fast for a drift: the two steps are one jump.
  expect(pass(0.05, 10)).toBe(2);
});

it('clocks that drift apart slowly never jump, however far; a slow drift does not hide a jump', () => {
  const { pass } = bench();
  for (let i = 0; i < 10_000; i++) expect(pass(0.05, 0.04)).toBeNull();
  expect(pass(0.05, 2100)).toBe(2.1);
});
