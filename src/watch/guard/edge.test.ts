import { describe, expect, it } from 'vitest';
import { PLATE_LIMITS } from '../../job/testing/givens.ts';
import { bandEdge, lastS, reachS } from './edge.ts';
import { createGuard } from './state.ts';
import { CTX } from './testing/fills.ts';
import type { GuardContext, GuardState } from './types.ts';

// A way of 0.3 bar, a hand of 0.6 s, samples at 20 Hz with 0.5 mbar of noise.
const ctx: GuardContext = {
  ...CTX,
  limits: { ...PLATE_LIMITS, workingBar: 1.2, ceilingBar: 1.5 },
  reaction: { handS: 3, closeS: 0.6 },
};

function moving(rate: number, before = rate): GuardState {
  const s = createGuard();
  s.clean.period = 0.05;
  s.clean.second = 0.0008;
  s.motion = { atS: 5, rate, sd: 0.001, before, ago: rate, bar: 1.2, midS: 4.9 };
  return s;
}
/** Edge over the working pressure in seconds of slope, without the allowance for noise. */
const seconds = (v: number, over: Partial<GuardContext> = {}): number => {
  const s = moving(v);
  const noise = 0.003 + 0.0008 * (1.4826 / Math.sqrt(6));
  return (bandEdge(s, { ...ctx, ...over })! - 1.2 - noise) / v;
};

describe('reach of a stop', () => {
  it('is the closing time and what the hose and sparse samples add', () => {
    expect(reachS(moving(0.1), ctx)).toBeCloseTo(0.6 + 0.1 + 0.05, 9);
    expect(reachS(moving(0.1), { ...ctx, tap: 'hose' })).toBeCloseTo(0.6 + 0.05, 9);
    const sparse = moving(0.1);
    sparse.clean.period = 0.5;
    expect(reachS(sparse, ctx)).toBeCloseTo(0.6 + 0.1 + 0.1, 9);
  });

  it('is learnt from the stops of the fill, within bounds', () => {
    const s = moving(0.1);
    const stop = (reach: number) => s.stops.push({ reachS: reach, dropS: 0, atS: 1 });
    stop(0.3);
    expect(reachS(s, ctx)).toBeCloseTo(0.45 + 1.15 * 0.3, 9);
    stop(0.5);
    expect(reachS(s, ctx)).toBeCloseTo(0.45 + 1.15 * 0.5, 9);
    stop(4);
    expect(reachS(s, ctx)).toBeCloseTo(0.75 + 1.2, 9);
    s.stops.length = 0;
    stop(0.1);
    expect(reachS(s, ctx)).toBeCloseTo(0.85 * 0.75, 9);
    // Less than this is noise and teaches nothing.
    s.stops[0] = { reachS: 0.049, dropS: 0, atS: 1 };
    expect(reachS(s, ctx)).toBeCloseTo(0.75, 9);
  });
});

describe('edge of the band', () => {
  it('lies a reach over the working pressure, and a slower hand is waited for where there is time', () => {
    // 3 s to the ceiling: 1.45 s more than reach and hurry, a twentieth of it is over the bound of 0.05 s.
    expect(seconds(0.1)).toBeCloseTo(0.75 + 0.05, 6);
    // 2 s: 0.45 s more, a twentieth of it.
    expect(seconds(0.15)).toBeCloseTo(0.75 + 0.05 * 0.45, 6);
    expect(seconds(0.3 / 1.55)).toBeCloseTo(0.75, 6);
  });

  it('where a hand that moves now is just in time it does not wait any longer', () => {
    const noise = (0.003 + 0.0008 * (1.4826 / Math.sqrt(6))) * (1.2 / 0.3);
    expect(seconds(0.3 / 1.2) + noise).toBeCloseTo(1.2 - 0.54, 6);
  });

  it('where no hand is in time it waits for one that shows, up to the last moment', () => {
    const noise = (v: number) => (0.003 + 0.0008 * (1.4826 / Math.sqrt(6))) / v;
    expect(seconds(0.3) + noise(0.3)).toBeCloseTo(0.65, 6);
    expect(seconds(0.5) + noise(0.5)).toBeCloseTo(0.6 - (0.15 + 1.5 * 0.05), 6);
    expect(lastS(moving(0.5))).toBeCloseTo(0.225, 9);
    // At 1.5 bar/s there is no time at all: the working pressure itself, and the noise.
    expect(seconds(1.5)).toBeCloseTo(0, 6);
  });

  it('goes by the fastest rise of the last moments', () => {
    expect(bandEdge(moving(0.02, 0.1), ctx)).toBeCloseTo(bandEdge(moving(0.1), ctx)!, 9);
    expect(bandEdge(moving(-0.01), ctx)).toBeCloseTo(1.2035, 3);
  });

  it('is none without a limit, a working pressure or a slope', () => {
    expect(bandEdge(moving(0.1), { ...ctx, limits: null })).toBeNull();
    expect(bandEdge(moving(0.1), { ...ctx, limits: { ...ctx.limits!, cue: false } })).toBeNull();
    expect(bandEdge(createGuard(), ctx)).toBeNull();
  });
});
