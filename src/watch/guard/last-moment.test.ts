import { describe, expect, it } from 'vitest';
import { PLATE_LIMITS } from '../../job/testing/givens.ts';
import { lastMoment } from './last-moment.ts';
import { createGuard } from './state.ts';
import { CTX, type Fill, firstAt, play } from './testing/fills.ts';
import type { GuardState, Motion } from './types.ts';

const motion = (over: Partial<Motion>): Motion => ({
  atS: 10,
  rate: 0.4,
  sd: 0.02,
  before: 0.4,
  ago: 0.4,
  bar: 1.3,
  midS: 9.9,
  ...over,
});
/** A guard at 20 Hz with that motion. */
function guard(m: Motion, slowSince: number | null = null): GuardState {
  const s = createGuard();
  s.clean.period = 0.05;
  s.motion = m;
  s.slowSince = slowSince;
  return s;
}
const at = (s: GuardState, left: number) => lastMoment(s, CTX, PLATE_LIMITS.ceilingBar - left);

describe('the last moment', () => {
  it('is 0.15 s and one and a half samples before the ceiling', () => {
    expect(at(guard(motion({})), 0.4 * 0.23)).toBeNull();
    expect(at(guard(motion({})), 0.4 * 0.22)).toBeCloseTo(0.22, 9);
  });

  it('is none for a slope that is not sure, or not there', () => {
    expect(at(guard(motion({ sd: 0.17 })), 0.01)).toBeNull();
    expect(at(guard(motion({ rate: 0.001, sd: 0 })), 0.0001)).toBeNull();
    expect(lastMoment(guard(motion({})), { ...CTX, limits: null }, 1.48)).toBeNull();
    const still = createGuard();
    expect(lastMoment(still, CTX, 1.48)).toBeNull();
  });

  it('goes by what is left of a stop: v²/2a', () => {
    // 0.4 → 0.2 bar/s in 0.2 s and the 0.2 s until it is seen: 0.5 bar/s², so 0.04 bar are still to come.
    const stop = guard(motion({ rate: 0.2, before: 0.4 }), 9.8);
    expect(at(stop, 0.041)).toBeNull();
    expect(at(stop, 0.039)).not.toBeNull();
    // The slowing of a regulator at its droop: 0.4 → 0.35 in a second leaves 1.5 bar.
    expect(at(guard(motion({ rate: 0.35, before: 0.4 }), 9), 0.05)).not.toBeNull();
  });

  it('tells a quick line that slows down all the way before it passes rated, where the ceiling alone is too late', () => {
    for (const hz of [20, 50, 100])
      for (const seed of [1, 2, 3, 4]) {
        const fill: Fill = { seconds: 4, fromBar: 0.75, k: 0.2, supply: () => 1.7, sd: 0.004 };
        const p = play(fill, hz, seed);
        const rated = firstAt(p.truth, (bar) => bar >= PLATE_LIMITS.ratedBar)! / hz;
        expect(firstAt(p.verdicts, (v) => v.rising !== null)! / hz).toBeLessThan(rated - 0.1);
      }
  });
});
