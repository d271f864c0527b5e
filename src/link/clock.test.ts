import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SampleClock, unwrap16, unwrap32 } from './clock.ts';

const WRAP = 2 ** 32;

describe('unwrap', () => {
  it('finds the nearest congruent number', () => {
    expect(unwrap32(0xffffffff, 0)).toBe(WRAP);
    expect(unwrap32(WRAP, 0xffffffff)).toBe(WRAP - 1);
    expect(unwrap32(5 * WRAP + 10, 20)).toBe(5 * WRAP + 20);
    expect(unwrap16(0xffff, 0)).toBe(0x10000);
    expect(unwrap16(0x10000, 0xffff)).toBe(0xffff);
  });

  it('undoes any walk of steps under half the range', () => {
    const half = 2 ** 31 - 1;
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: half })), fc.nat(0xffffffff), (steps, start) => {
        let truth = start;
        let seen = start;
        for (const step of steps) {
          truth += step;
          seen = unwrap32(seen, truth % WRAP);
          expect(seen).toBe(truth);
        }
      }),
    );
  });
});

describe('SampleClock', () => {
  it('goes on over both wraps and counts what is missing', () => {
    const clock = new SampleClock();
    expect(clock.step({ seq: 0xfffffffe, tick: 0xfffffff0 })).toMatchObject({ order: 'first', missed: 0 });
    expect(clock.step({ seq: 0xffffffff, tick: 4 })).toMatchObject({ order: 'next', tick: WRAP + 4 });
    expect(clock.step({ seq: 0, tick: 24 })).toMatchObject({ order: 'next', seq: WRAP, missed: 0 });
    const gap = clock.step({ seq: 5, tick: 124 });
    expect(gap).toMatchObject({ order: 'gap', seq: WRAP + 5, missed: 4 });
    expect(gap.deviceS).toBeCloseTo((WRAP + 124) * 1e-4, 9);
  });

  it('says when the device goes back, and stays where it was', () => {
    const clock = new SampleClock();
    clock.step({ seq: 1000, tick: 50_000 });
    expect(clock.step({ seq: 1000, tick: 50_000 }).order).toBe('repeat');
    expect(clock.step({ seq: 0, tick: 20 }).order).toBe('back');
    expect(clock.step({ seq: 1001, tick: 40_000 }).order).toBe('back');
    expect(clock.step({ seq: 1001, tick: 50_020 }).order).toBe('next');
    clock.restart();
    expect(clock.step({ seq: 0, tick: 20 })).toMatchObject({ order: 'first', seq: 0, tick: 20 });
  });
});
