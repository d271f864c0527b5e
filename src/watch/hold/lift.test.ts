import { describe, expect, it } from 'vitest';
import type { ResinSetup } from '../../job/setup.ts';
import { readingOf } from '../testing/script.ts';
import type { LiftContext } from './lift.ts';
import { createLift, liftForecast, liftReading } from './lift.ts';

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
  resin,
  groundC: 10,
  ceilingBar: 1.65,
  floorBar: 0.8,
  risingBarPerS: null,
};

function at(bar: number, airC: number | null, startBar = 1.5, startC: number | null = 10) {
  const s = createLift();
  const temps = (c: number | null) =>
    c === null ? [] : [{ channel: 1, place: 'air' as const, c, uC: 1, flags: 0 }];
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

  it('the ceiling’s time needs a rise that is seen', () => {
    expect(liftForecast(at(1.5, 10), CTX)!.ceilingInS).toBeNull();
    const f = liftForecast(at(1.5, 10), { ...CTX, risingBarPerS: 0.0005 })!;
    expect(f.ceilingInS).toEqual({
      value: expect.closeTo(300, 6),
      low: expect.closeTo(150, 6),
      high: expect.closeTo(600, 6),
    });
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
