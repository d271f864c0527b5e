import { describe, expect, it } from 'vitest';
import { standardAirPressure } from './atmosphere.ts';
import { liftByWarmth, riseBetween } from './gas.ts';
import { head, vapourPressure, waterDensity } from './water.ts';

describe('air pressure', () => {
  it.each([
    [-2000, 127_780],
    [0, 101_320],
    [2000, 79_501],
    [4000, 61_660],
  ])('%i m geometric (US Standard Atmosphere 1976, tables)', (m, pa) => {
    expect(Math.abs(standardAirPressure(m) / pa - 1)).toBeLessThan(5.1e-5);
  });
  it('has none where its layer ends', () => {
    expect(() => standardAirPressure(20_000)).toThrow(RangeError);
    expect(() => standardAirPressure(Number.NaN)).toThrow(RangeError);
  });
});

describe('water', () => {
  it.each([
    [4, 999.975],
    [5, 999.967],
    [10, 999.703],
    [15, 999.103],
    [20, 998.207],
    [25, 997.048],
    [30, 995.65],
    [40, 992.216],
  ])('density at %i °C (computed with IAPWS-95)', (c, rho) => {
    expect(Math.abs(waterDensity(c) - rho)).toBeLessThan(0.005);
  });
  it('head of 3.000 and 3.500 m at 10 °C (computed with IAPWS-95)', () => {
    expect(head(3, 10)).toBeCloseTo(29_411, 0);
    expect(head(3.5, 10) / 1e5).toBeCloseTo(0.3431, 4);
  });
  it('no density outside 0-40 °C', () => {
    expect(() => waterDensity(-1)).toThrow(RangeError);
    expect(() => waterDensity(41)).toThrow(RangeError);
  });
});

it('vapour over water is that of the steam tables', () => {
  // IAPWS-IF97 saturation pressures, kPa (values of the published tables, from memory): 0.01, 10, 20, 35, 60, 100 °C.
  const table = [
    [0.01, 0.61165],
    [10, 1.2282],
    [20, 2.3392],
    [35, 5.629],
    [60, 19.946],
    [100, 101.42],
  ] as const;
  for (const [c, kPa] of table) expect(Math.abs(vapourPressure(c) / 1000 / kPa - 1)).toBeLessThan(3e-4);
  // The release's own check: 373.15 K, 0.101325 MPa at 99.974 °C.
  expect(vapourPressure(99.974) / 101_325).toBeCloseTo(1, 4);
  for (const c of [-1, 201, Number.NaN]) expect(() => vapourPressure(c)).toThrow(RangeError);
});

it('wet air lifts by a fifth to two fifths more than dry air, and what lifted it is found again', () => {
  const lift = (c: number, rise: number, wet: boolean) => liftByWarmth(2.5, c, rise, wet);
  // 10 to 35 °C: 56 − 12 mbar of vapour on 221 mbar; 10 to 60 °C: 199 − 12 mbar on 441 mbar (steam tables).
  expect(lift(10, 25, false)).toBeCloseTo((2.5 * 25) / 283.15, 12);
  expect(lift(10, 25, true) / lift(10, 25, false)).toBeCloseTo(
    1 + (0.0563 - 0.0123 * (1 + 25 / 283.15)) / 0.2207,
    2,
  );
  expect(lift(10, 50, true) / lift(10, 50, false)).toBeCloseTo(1.42, 1);
  for (const wet of [false, true])
    for (const rise of [-5, 0, 3, 25, 50])
      expect(riseBetween(2.5, 2.5 + liftByWarmth(2.5, 10, rise, wet), 10, wet)).toBeCloseTo(rise, 6);
});
