import { expect, it } from 'vitest';
import { createRise, riseAdd, riseTimeS } from './rise.ts';

const straight = (barPerS: number, seconds: number) => {
  const r = createRise();
  for (let t = 0; t <= seconds; t += 0.02) riseAdd(r, t, barPerS * t);
  return r;
};

it('times between two levels of a rise, between its points', () => {
  expect(riseTimeS(straight(0.5, 4), 0.4, 1.4)).toBeCloseTo(2, 2);
  expect(riseTimeS(straight(0.5, 4), 0.4, 2.4)).toBeNull();
});

it('what falls back or stands adds nothing, and a step is passed at once', () => {
  const r = createRise();
  for (const [t, p] of [
    [0, 0],
    [1, 1],
    [2, 0.4],
    [3, 1.004],
    [4, 1.2],
  ] as const)
    riseAdd(r, t, p);
  expect(r.p).toEqual([0, 1, 1.2]);
  expect(riseTimeS(r, 0.5, 1.1)).toBeCloseTo(2, 6);
});
