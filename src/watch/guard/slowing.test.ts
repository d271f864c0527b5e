import { describe, expect, it } from 'vitest';
import { followSlowing, handStops, slowing } from './slowing.ts';
import { createGuard } from './state.ts';
import type { GuardState } from './types.ts';

/** Tells a guard its slopes, a tenth of a second apart: [rate, before, sd]. */
function told(
  slopes: readonly (readonly [number, number, number?])[],
  s: GuardState = createGuard(),
): GuardState {
  for (const [rate, before, sd = 0.001] of slopes) {
    const atS = Math.round(10 * ((s.motion?.atS ?? 0) + 0.1)) / 10;
    s.motion = { atS, rate, sd, before, ago: before, bar: 1, midS: atS - 0.1 };
    followSlowing(s);
  }
  return s;
}
const times = <T>(n: number, x: T): T[] => new Array<T>(n).fill(x);

describe('slowing', () => {
  it('is a tenth of the slope before, and more than noise explains', () => {
    expect(told([[0.1, 0.1]]).slowSince).toBeNull();
    expect(told([[0.091, 0.1]]).slowSince).toBeNull();
    expect(told([[0.089, 0.1]]).slowSince).toBe(0.1);
    expect(told([[0.089, 0.1, 0.006]]).slowSince).toBeNull();
    expect(told([[0.087, 0.1, 0.006]]).slowSince).toBe(0.1);
    expect(
      told([
        [0.05, 0.1],
        [0.05, 0.1],
      ]).slowSince,
    ).toBe(0.1);
    expect(
      told([
        [0.05, 0.1],
        [0.1, 0.1],
      ]).slowSince,
    ).toBeNull();
  });

  it('lets go after 0.9 s of it, unless the slope has halved', () => {
    expect(slowing(told([[0.1, 0.1]]))).toBe(false);
    expect(slowing(told(times(9, [0.06, 0.1] as const)))).toBe(true);
    expect(slowing(told(times(10, [0.06, 0.1] as const)))).toBe(false);
    expect(slowing(told(times(30, [0.049, 0.1] as const)))).toBe(true);
    expect(slowing(told(times(30, [0.051, 0.1] as const)))).toBe(false);
    // Nothing is known: nothing is claimed.
    expect(slowing(createGuard())).toBe(true);
  });

  it('might be a hand for 0.45 s, or while it has taken the slope below three fifths', () => {
    expect(handStops(told([[0.1, 0.1]]))).toBe(false);
    expect(handStops(told(times(5, [0.08, 0.1] as const)))).toBe(true);
    expect(handStops(told(times(6, [0.08, 0.1] as const)))).toBe(false);
    expect(handStops(told(times(20, [0.059, 0.1] as const)))).toBe(true);
    expect(handStops(told(times(20, [0.061, 0.1] as const)))).toBe(false);
    expect(handStops(createGuard())).toBe(false);
  });
});
