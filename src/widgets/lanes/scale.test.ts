import { expect, it } from 'vitest';
import { multiples, scaleEnd, stepsOf } from './scale.ts';

it('ends at 1.22 times rated while readings stay under it', () => {
  expect(scaleEnd(1.8, 0)).toBeCloseTo(2.196, 9);
  expect(scaleEnd(1.8, 1.8)).toBeCloseTo(2.196, 9);
  expect(scaleEnd(1.8, 2.1)).toBeCloseTo(2.196, 9);
});

it('grows in steps, never creeps, and shows every reading below its end', () => {
  const ends = new Set<number>();
  for (let bar = 0; bar <= 9; bar += 0.01) {
    const end = scaleEnd(1.8, bar);
    expect(end).toBeGreaterThan(bar);
    ends.add(Math.round(end * 1000));
  }
  expect([...ends]).toEqual([2196, 3074, 4304, 6026, 8436, 11811]);
});

it('does not shrink within a stage, and comes back without it', () => {
  const grown = scaleEnd(1.8, 3);
  expect(scaleEnd(1.8, 0.5, grown)).toBe(grown);
  expect(scaleEnd(1.8, 0.5)).toBeLessThan(grown);
});

it('has whole ends where no limit is set', () => {
  expect(scaleEnd(null, 0)).toBe(1);
  expect(scaleEnd(null, 0.97)).toBe(2);
  expect(scaleEnd(null, 3.5)).toBe(4);
  expect(scaleEnd(null, 40)).toBeGreaterThanOrEqual(40);
});

it('counts in steps of people, with a rung each 0.1 bar up to 2.6 bar and each 0.2 over it', () => {
  expect(stepsOf(2.196)).toEqual({ numeral: 0.5, rung: 0.1, digits: 1 });
  expect(stepsOf(2.6)).toEqual({ numeral: 0.5, rung: 0.1, digits: 1 });
  expect(stepsOf(3.07)).toEqual({ numeral: 1, rung: 0.2, digits: 0 });
  // psi and kPa of the same scale
  expect(stepsOf(31.85)).toEqual({ numeral: 10, rung: 2, digits: 0 });
  expect(stepsOf(219.6)).toEqual({ numeral: 50, rung: 10, digits: 0 });
  expect(stepsOf(1)).toEqual({ numeral: 0.2, rung: 0.05, digits: 1 });
});

it('has every multiple under the end, and not the end itself', () => {
  expect(multiples(0.5, 2.196)).toEqual([0, 0.5, 1, 1.5, 2]);
  expect(multiples(0.5, 2, 1)).toEqual([0.5, 1, 1.5]);
});
