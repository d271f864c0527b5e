import { describe, expect, it } from 'vitest';
import { cadenceAdd, createCadence, fallen } from './cadence.ts';

/** Readings at these rates for so many seconds each; what is said of the last one. */
function saidAfter(askedHz: number, ...parts: readonly (readonly [hz: number, s: number])[]) {
  const c = createCadence();
  let t = 0;
  for (const [hz, s] of parts)
    for (let i = 0; i < hz * s; i++) {
      t += 1 / hz;
      cadenceAdd(c, t);
    }
  return fallen(c, 1 / askedHz);
}

describe('how often readings come', () => {
  it('a fall from 50 to 5 a second is told with both numbers, within five readings', () => {
    const told = saidAfter(50, [50, 10], [5, 1]);
    if (told === null || told === 'between') throw new Error(`told ${told}`);
    expect(1 / told.nowS).toBeCloseTo(5, 6);
    expect(1 / told.usualS).toBeCloseTo(50, 6);
  });

  it('what is as often as asked, as it always was, or often enough is no fall', () => {
    expect(saidAfter(5, [50, 10], [5, 10])).toBeNull();
    expect(saidAfter(50, [5, 20])).toBeNull();
    expect(saidAfter(200, [200, 5], [20, 5])).toBeNull();
    expect(saidAfter(50, [50, 10], [10, 5])).toBeNull();
    expect(saidAfter(50)).toBeNull();
  });

  it('is over when they come again, with a band between', () => {
    expect(saidAfter(20, [20, 10], [4, 5], [20, 1])).toBeNull();
    expect(saidAfter(20, [20, 10], [8.9, 5])).toBe('between');
  });

  it('some lost lines are no fall; nine of ten are', () => {
    for (const [every, told] of [
      [2, false],
      [10, true],
    ] as const) {
      const c = createCadence();
      for (let i = 0; i < 500; i++) cadenceAdd(c, i * 0.02);
      for (let i = 500; i < 1000; i += every) cadenceAdd(c, i * 0.02);
      expect(fallen(c, 0.02) !== null).toBe(told);
    }
  });

  it('a device that started anew is measured anew and still by what it kept before', () => {
    const c = createCadence();
    for (let i = 0; i < 100; i++) cadenceAdd(c, 100 + i * 0.02);
    for (let i = 0; i < 4; i++) cadenceAdd(c, i * 0.2);
    expect(fallen(c, 0.02)).toBeNull();
    cadenceAdd(c, 0.8);
    expect(fallen(c, 0.02)).toMatchObject({ usualS: expect.closeTo(0.02, 9) });
  });
});
