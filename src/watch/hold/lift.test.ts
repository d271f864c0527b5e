import { describe, expect, it } from 'vitest';
import type { ResinSetup } from '../../job/setup.ts';
import { liftByWarmth } from '../../physics/gas.ts';
import { probeOf, readingOf } from '../../sensing/testing/readings.ts';
import type { LiftContext } from './lift.ts';
import { createLift, endsUnder, liftForecast, liftReading, liftRestart } from './lift.ts';

const resin: ResinSetup = {
  name: 'R',
  criterion: 'let-down',
  points: [{ c: 20, minutes: 60 }],
  lowestC: 5,
  potLifeMin: null,
  exotherm: 'medium',
  expectedRiseK: 20,
};

const CTX: LiftContext = {
  tap: 'packer',
  line: 'closed',
  air: { bar: 1.013, uBar: 0.01, source: 'typed' },
  wet: false,
  resin,
  groundC: 10,
  ceilingBar: 1.65,
  floorBar: 0.8,
  exit: null,
  rising: null,
};

function at(bar: number, airC: number | null, startBar = 1.5, startC: number | null = 10) {
  const s = createLift();
  const temps = (c: number | null) => (c === null ? [] : [probeOf('air', c)]);
  liftReading(s, readingOf(0, startBar, { temps: temps(startC) }), startBar);
  liftReading(s, readingOf(1, bar, { temps: temps(airC) }), bar);
  return s;
}

describe('lift by warmth', () => {
  it('is 8.9 mbar/K at 1.5 bar(g) and 12.4 at 2.5, near 10 °C (gas law)', () => {
    const rise = (bar: number) =>
      liftForecast(at(bar, 10, bar), { ...CTX, ceilingBar: 9 })!.peakBar.value - bar;
    expect(rise(1.5) / 20).toBeCloseTo(0.0089, 4);
    expect(rise(2.5) / 20).toBeCloseTo(0.0124, 4);
  });

  it('what has come already is not to come again', () => {
    const all = liftForecast(at(1.5, 10), CTX)!.peakBar.value;
    const half = liftForecast(at(1.5 + 0.0888, 20), CTX)!.peakBar.value;
    expect(half).toBeCloseTo(all, 3);
    // Without a probe the pressure itself tells.
    expect(liftForecast(at(1.5 + 0.0888, null, 1.5, null), CTX)!.peakBar.value).toBeCloseTo(all, 3);
  });

  it('over liquid water its vapour lifts besides, and what it has lifted is not taken for more warmth', () => {
    const dry = liftForecast(at(1.5, 10), CTX)!.peakBar;
    const wet = liftForecast(at(1.5, 10), { ...CTX, wet: true })!.peakBar;
    // 10 to 30 °C: 42.5 less 12.3 mbar of vapour (steam tables), on (1.5 + 1.013) · 20 / 283.15 of air.
    expect(wet.value - dry.value).toBeCloseTo(0.0425 - 0.0123 * (1 + 20 / 283.15), 3);
    expect(wet.high - dry.high).toBeGreaterThan(0.05);
    // 10 K have come: without a probe the pressure tells so by the same law.
    const now = 1.5 + liftByWarmth(1.5 + 1.013, 10, 10, true);
    const after = liftForecast(at(now, null, 1.5, null), { ...CTX, wet: true })!.peakBar;
    expect(after.value).toBeCloseTo(wet.value, 3);
    expect(liftForecast(at(now, 20), { ...CTX, wet: true })!.peakBar.value).toBeCloseTo(wet.value, 3);
  });

  it('gives advice with a floor where the ceiling may be passed', () => {
    const f = liftForecast(at(1.5, 10), CTX)!;
    expect(f.peakBar.high).toBeGreaterThan(CTX.ceilingBar!);
    expect(f.adviceLowBar).toBeCloseTo(0.85, 6);
    // Let out to the advice, even the high end of the rise stays under the ceiling.
    const after = (f.adviceHighBar! + 1.013) * ((f.peakBar.high + 1.013) / (1.5 + 1.013)) - 1.013;
    expect(after).toBeLessThan(CTX.ceilingBar!);
    expect(after).toBeGreaterThan(CTX.ceilingBar! - 0.08);
    expect(liftForecast(at(1.5, 10), { ...CTX, ceilingBar: 2 })).toMatchObject({
      adviceHighBar: null,
      adviceLowBar: null,
    });
  });

  /** A hold of the practice job: the fill's heat fades, the resin warms the gas by 7 K, the gas cools again. */
  function course(bars: readonly number[], airs: readonly number[]) {
    const s = createLift();
    bars.forEach((bar, i) => {
      const temps = [probeOf('air', airs[i]!)];
      liftReading(s, readingOf(i, bar, { temps }), bar);
    });
    return s;
  }
  const small = { ...CTX, resin: { ...resin, expectedRiseK: 6 } };

  it('the rise is counted from where the heat of the fill has faded to', () => {
    const f = liftForecast(course([1.43, 1.372], [16.1, 10.1]), small)!;
    expect(f.peakBar.value - 1.372).toBeCloseTo((6 * (1.372 + 1.013)) / 283.25, 4);
  });

  it('an exotherm that has come and gone is not foretold again', () => {
    const s = course([1.43, 1.372, 1.425, 1.4], [16.1, 10.1, 17.2, 13.9]);
    expect(liftForecast(s, small)).toBeNull();
    const early = course([1.43, 1.372, 1.425, 1.42], [16.1, 10.1, 17.2, 16.6]);
    expect(liftForecast(early, small)).not.toBeNull();
  });

  it('a probe alone does not end it: the pressure must have come and gone with it', () => {
    expect(liftForecast(course([1.43, 1.372, 1.373, 1.372], [16.1, 10.1, 17.2, 13.9]), small)).not.toBeNull();
    const ventedBetween = course([1.43, 1.372, 1.425], [16.1, 10.1, 17.2]);
    liftRestart(ventedBetween);
    const temps = [probeOf('air', 13.9)];
    liftReading(ventedBetween, readingOf(9, 1.3, { temps }), 1.3);
    expect(liftForecast(ventedBetween, small)).not.toBeNull();
  });

  const up = { direction: 'up', inS: { value: 300, low: 250, high: 380 } } as const;
  const rising = {
    levelBar: 1.5,
    rate: { value: 0.0004, low: 0.0003, high: 0.0005 },
    gain: 2e-7,
    sdGain: 5e-8,
  };

  it('the ceiling’s time needs a rise that is seen', () => {
    expect(liftForecast(at(1.5, 10), CTX)!.ceilingInS).toBeNull();
    const f = liftForecast(at(1.5, 10), { ...CTX, exit: up, rising })!;
    expect(f.ceilingInS).toEqual({ value: 300, low: 150, high: 600 });
  });

  it('without an entry the rise that is seen speaks, where it would reach the ceiling', () => {
    const blank = { ...CTX, resin: null };
    const f = liftForecast(at(1.5, 10), { ...blank, exit: up, rising })!;
    // Rate and gain carried on for ten minutes.
    expect(f.peakBar.value).toBeCloseTo(1.5 + 0.24 + 0.036, 9);
    expect(f.peakBar.high).toBeGreaterThan(f.peakBar.value);
    expect(f.adviceHighBar!).toBeLessThan(1.5);
    expect(f.adviceLowBar).toBeCloseTo(0.85, 9);
    expect(liftForecast(at(1.5, 10), blank)).toBeNull();
    const later = { direction: 'up', inS: { value: 3000, low: 2000, high: 5000 } } as const;
    expect(liftForecast(at(1.5, 10), { ...blank, exit: later, rising })).toBeNull();
    const down = { direction: 'down', inS: up.inS } as const;
    expect(liftForecast(at(1.5, 10), { ...blank, exit: down, rising: null })).toBeNull();
  });

  it('a rise on its way over the ceiling is not talked away by a sheet that ends under it', () => {
    const low = { ...CTX, resin: { ...resin, expectedRiseK: 4 }, exit: up, rising };
    const f = liftForecast(at(1.5, 10), low)!;
    expect(f.peakBar.high).toBeGreaterThan(CTX.ceilingBar!);
    expect(f.adviceHighBar).not.toBeNull();
    expect(liftForecast(at(1.5, 10), { ...low, exit: null })!.adviceHighBar).toBeNull();
  });

  const warmth = (c: number) => ({
    peakC: { value: c, low: c - 5, high: c + 10 },
    peakInS: { value: 1200, low: 900, high: 1800 },
  });

  it('by the cure’s forecast the rise ends under the ceiling or over it (gas law: 16.9 K to 1.65 bar)', () => {
    expect(endsUnder(at(1.5, 10), CTX, warmth(10 + 16.5))).toBe(true);
    expect(endsUnder(at(1.5, 10), CTX, warmth(10 + 17.3))).toBe(false);
    expect(endsUnder(at(1.5, 10), CTX, null)).toBeNull();
    expect(endsUnder(at(1.5, null, 1.5, null), CTX, warmth(20))).toBeNull();
  });

  it('a probe on the sleeve tells the gas where the pressure was lowest, the gas law since', () => {
    const s = createLift();
    const sleeve = (c: number) => ({ temps: [probeOf('sleeve', c)] });
    liftReading(s, readingOf(0, 1.52, sleeve(11)), 1.52);
    liftReading(s, readingOf(1, 1.5, sleeve(10)), 1.5);
    // The sleeve is hot already, the gas has risen by 5 K: 44.4 mbar.
    liftReading(s, readingOf(2, 1.5444, sleeve(24)), 1.5444);
    expect(endsUnder(s, CTX, warmth(10 + 16.5))).toBe(true);
    expect(endsUnder(s, CTX, warmth(10 + 17.3))).toBe(false);
    liftRestart(s);
    expect(endsUnder(s, CTX, warmth(20))).toBeNull();
  });

  it('advice is never under its own floor', () => {
    const f = liftForecast(at(1.5, 10), { ...CTX, ceilingBar: 1.55, floorBar: 1.4 })!;
    expect(f.adviceLowBar).toBeCloseTo(1.45, 9);
    expect(f.adviceHighBar!).toBeGreaterThanOrEqual(f.adviceLowBar!);
    expect(liftForecast(at(1.5, 10), { ...CTX, floorBar: null })!.adviceLowBar).toBeNull();
  });

  it('is nothing where it cannot happen or is not known', () => {
    const s = at(1.5, 10);
    expect(liftForecast(s, { ...CTX, line: 'supplied-relieving' })).toBeNull();
    expect(liftForecast(s, { ...CTX, line: 'unknown' })).toBeNull();
    expect(liftForecast(s, { ...CTX, tap: 'supply' })).toBeNull();
    expect(liftForecast(s, { ...CTX, resin: { ...resin, expectedRiseK: null } })).toBeNull();
    expect(liftForecast(s, { ...CTX, ceilingBar: null })).toBeNull();
    expect(liftForecast(createLift(), CTX)).toBeNull();
  });
});
