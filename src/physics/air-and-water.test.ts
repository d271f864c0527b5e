import { describe, expect, it } from 'vitest';
import { standardAirPressure } from './atmosphere.ts';
import { head, waterDensity } from './water.ts';

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
