import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type SampleCounters, sampleStep, unwrap32 } from './clock.ts';

const WRAP = 2 ** 32;

describe('unwrap', () => {
  it('finds the nearest congruent number', () => {
    expect(unwrap32(0xffffffff, 0)).toBe(WRAP);
    expect(unwrap32(WRAP, 0xffffffff)).toBe(WRAP - 1);
    expect(unwrap32(5 * WRAP + 10, 20)).toBe(5 * WRAP + 20);
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

describe('samples in order', () => {
  /** Gives the steps of a story; what is not used leaves the last sample as it was. */
  function follow(...samples: SampleCounters[]) {
    let last: SampleCounters | null = null;
    return samples.map((sample) => {
      const step = sampleStep(last, sample);
      if (step.order !== 'repeat' && step.order !== 'back') last = { seq: step.seq, tick: step.tick };
      return step;
    });
  }

  it('goes on over both wraps and counts what is missing', () => {
    const steps = follow(
      { seq: 0xfffffffe, tick: 0xfffffff0 },
      { seq: 0xffffffff, tick: 4 },
      { seq: 0, tick: 24 },
      { seq: 5, tick: 124 },
    );
    expect(steps).toEqual([
      { order: 'first', seq: 0xfffffffe, tick: 0xfffffff0, missed: 0 },
      { order: 'next', seq: 0xffffffff, tick: WRAP + 4, missed: 0 },
      { order: 'next', seq: WRAP, tick: WRAP + 24, missed: 0 },
      { order: 'gap', seq: WRAP + 5, tick: WRAP + 124, missed: 4 },
    ]);
  });

  it('says when the device goes back, repeats or stands still', () => {
    const steps = follow(
      { seq: 1000, tick: 50_000 },
      { seq: 1000, tick: 50_000 },
      { seq: 0, tick: 20 },
      { seq: 1001, tick: 40_000 },
      { seq: 1001, tick: 50_000 },
      { seq: 1001, tick: 50_020 },
    );
    expect(steps.map((s) => s.order)).toEqual(['first', 'repeat', 'back', 'back', 'back', 'next']);
  });
});
