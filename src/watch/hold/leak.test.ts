import { describe, expect, it } from 'vitest';
import type { TemperatureReading } from '../../sensing/reading.ts';
import { noise, readingOf } from '../testing/script.ts';
import type { LeakContext } from './leak.ts';
import { createLeak, leakFigure, leakReading } from './leak.ts';

const CTX: LeakContext = {
  tap: 'packer',
  line: 'closed',
  air: { bar: 1.013, uBar: 0.01, source: 'typed' },
  volume: { litres: 20, uLitres: 2 },
  exotherm: 'low',
  filledS: 0,
};

interface World {
  /** mbar/min at 1.5 bar(g) */
  leak?: number;
  /** Gas temperature, °C. */
  gas?: (t: number) => number;
  /** Time constant of the probe, s; null: no probe. */
  probeTau?: number | null;
  seed?: number;
  sd?: number;
}

/** A rigid closed volume: n falls with the leak, p = n·T. Charge heat, exotherm and a lagging probe as told. */
function hold(minutes: number, world: World, ctx: LeakContext = CTX) {
  const s = createLeak();
  const random = noise(world.seed ?? 1);
  const gas = world.gas ?? (() => 12);
  let probe = gas(0);
  const p0 = (1.5 + ctx.air.bar) / (gas(1e9) + 273.15);
  const perS = (world.leak ?? 0) / 1000 / 60 / (1.5 + ctx.air.bar);
  for (let t = 0; t <= minutes * 60; t += 0.5) {
    const c = gas(t);
    const tau = world.probeTau ?? null;
    if (tau !== null) probe += (0.5 / tau) * (c - probe);
    const bar = p0 * (c + 273.15) * Math.exp(-perS * t) - ctx.air.bar + (world.sd ?? 0.0015) * random();
    const temps: TemperatureReading[] =
      tau === null ? [] : [{ channel: 1, place: 'air', c: probe + 0.05 * random(), uC: 1.5, flags: 0 }];
    leakReading(s, readingOf(t, bar, { temps }), bar, ctx);
  }
  return leakFigure(s, ctx);
}

describe('leak of a closed segment', () => {
  it('is named where it is large, with an interval that holds it', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const f = hold(10, { leak: 5, probeTau: 20, seed });
      expect(f.verdict).toBe('leaking');
      expect(f.low!).toBeLessThan(5);
      expect(f.high!).toBeGreaterThan(4.8);
      expect(f.mbarPerMin!).toBeGreaterThan(4.5);
      // 5 mbar/min of 20 l: 20e-3 m³ · 500/60 Pa/s.
      expect(f.paM3PerS!.value).toBeCloseTo(0.1667, 1);
    }
  });

  it('tight is said with its bound, given time', () => {
    const f = hold(20, { probeTau: 20 });
    expect(f.verdict).toBe('tight');
    expect(f.high!).toBeLessThan(2);
    expect(Math.abs(f.mbarPerMin!)).toBeLessThan(0.5);
  });

  it('the heat of a fast fill is not called a leak, with a probe or without', () => {
    for (const tau of [60, 120, 240])
      for (const probeTau of [null, 20, 40])
        for (const minutes of [7, 10, 20, 40]) {
          const f = hold(minutes, { gas: (t) => 12 + 10 * Math.exp(-t / tau), probeTau });
          expect([tau, probeTau, minutes, f.verdict]).not.toContain('leaking');
        }
  });

  it('cooling after the cure’s heat is not called a leak without a probe', () => {
    const gas = (t: number) => 12 + 15 * Math.exp(-((t - 900) ** 2) / (2 * 600 ** 2));
    for (const minutes of [10, 20, 30, 40, 60])
      expect(hold(minutes, { gas }, { ...CTX, exotherm: 'unknown' }).verdict).not.toBe('leaking');
  });

  it('says why it cannot tell: too short, settling, trend of the temperature', () => {
    expect(hold(2, {}).reason).toBe('settling');
    expect(hold(5, {}).reason).toBe('too-short');
    expect(hold(10, { leak: 1 })).toMatchObject({ verdict: 'cannot-tell', reason: 'temperature-trend' });
    expect(hold(10, {}, { ...CTX, filledS: null }).reason).toBe('settling');
  });

  it('claims nothing where it cannot see', () => {
    const nothing = { mbarPerMin: null, low: null, high: null, paM3PerS: null };
    for (const line of ['supplied-relieving', 'supplied-nonrelieving'] as const)
      expect(hold(30, { leak: 20 }, { ...CTX, line })).toEqual({
        verdict: 'cannot-be-seen',
        reason: 'line',
        ...nothing,
      });
    for (const tap of ['supply', 'unknown'] as const)
      expect(hold(30, { leak: 20 }, { ...CTX, tap })).toEqual({
        verdict: 'cannot-tell',
        reason: 'tap',
        ...nothing,
      });
  });

  it('on an unknown line a leak can be seen, tightness cannot', () => {
    const ctx: LeakContext = { ...CTX, line: 'unknown' };
    expect(hold(20, { leak: 20, probeTau: 20 }, ctx).verdict).toBe('leaking');
    expect(hold(20, { probeTau: 20 }, ctx)).toMatchObject({ verdict: 'cannot-tell', reason: 'line' });
  });

  it('without a known volume there is no Pa·m³/s', () => {
    expect(hold(10, { leak: 5, probeTau: 20 }, { ...CTX, volume: null }).paM3PerS).toBeNull();
  });
});
