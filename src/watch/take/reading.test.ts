import { describe, expect, it } from 'vitest';
import { Script } from '../testing/script.ts';

/** Limits of the tests' packer: working 1.8, ceiling 2.48 bar. A hand of 0.6 s is in time up to about 0.9 bar/s. */
const inflating = () => new Script().flow(3, 0).say({ c: 'stage', to: 'inflate' });
const rise =
  (barPerS: number, from = 0) =>
  (t: number) =>
    from + barPerS * t;

describe('cues in the record', () => {
  it('the count-down is told once a fill, when it is ten seconds off', () => {
    const s = inflating().flow(30, rise(0.055));
    const [cue, ...more] = s.of('cue');
    expect(more).toEqual([]);
    expect(cue!.closeInS).toBeLessThanOrEqual(10);
    expect(cue!.closeInS).toBeGreaterThan(6);
    expect(cue!.tUs / 1e6 + cue!.closeInS).toBeGreaterThan(3 + 1.8 / 0.055 - 2);
    // Three seconds of rest and the next rise is another fill.
    s.flow(5, 0.055 * 30)
      .flow(3, rise(-0.5, 0.055 * 30))
      .flow(4, 0.1)
      .flow(28, rise(0.055, 0.1));
    expect(s.of('cue')).toHaveLength(2);
  });

  it('too fast is told once a fill with its numbers, and raises nothing', () => {
    const s = inflating().flow(1.5, rise(1.1)).flow(6, 1.65);
    const told = s.of('too-fast');
    expect(told).toHaveLength(1);
    const { lateBar, rateBarPerS, mostBarPerS } = told[0]!;
    expect(rateBarPerS).toBeCloseTo(1.1, 1);
    expect(mostBarPerS).toBeGreaterThan(0.8);
    expect(mostBarPerS).toBeLessThan(1.1);
    expect(lateBar).toBeGreaterThan(0);
    expect(lateBar).toBeLessThan(0.3);
    expect(s.heard()).not.toContain('rising');
    // Let down and filled again (the hand was quick: a little faster): told again. After a short pause only it is not.
    s.flow(3, rise(-0.5, 1.65)).flow(4, 0.15).flow(1.1, rise(1.35, 0.15));
    expect(s.of('too-fast')).toHaveLength(2);
    const short = inflating().flow(0.8, rise(1.1)).flow(1, 0.88).flow(0.7, rise(1.1, 0.88));
    expect(short.of('too-fast')).toHaveLength(1);
  });

  it('a fill that a hand can stop is none of it', () => {
    expect(inflating().flow(4, rise(0.42)).of('too-fast')).toEqual([]);
  });
});
