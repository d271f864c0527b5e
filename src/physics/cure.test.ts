import { describe, expect, it } from 'vitest';
import * as cure from './cure.ts';

describe('time and temperature', () => {
  it.each([
    [273, 0.3678],
    [283, 0.6173],
    [293, 1],
    [303, 1.5692],
    [313, 2.3925],
  ])('age factor at %i K with Q = 4000 K (constant of the CEB-FIP Model Code, values computed)', (t, f) => {
    expect(cure.ageFactor(4000, t, 293)).toBeCloseTo(f, 4);
  });

  it.each([
    [5, 0.335],
    [10, 0.4603],
    [20, 0.8412],
    [30, 1.4773],
    [40, 2.5029],
  ])('C1074 form at %i °C: Q = 5000 K (value from memory), reference 23 °C', (c, f) => {
    expect(cure.equivalentAge(5000, [c], 1, 23)).toBeCloseTo(f, 4);
  });

  it('maturity of 28 d at 15 °C from −11 °C is 728 °C·d (Nurse-Saul, a worked textbook answer)', () => {
    expect(cure.nurseSaul(new Array<number>(28).fill(15), 1, -11)).toBe(728);
    expect(cure.nurseSaul([-20], 1, -11)).toBe(0);
  });

  it('doubling in 10 °C is 51.2 kJ/mol from 20 to 30 °C and 47.8 from 10 to 20 °C (Arrhenius, computed)', () => {
    expect(cure.activationEnergy(2, 293.15, 303.15) / 1000).toBeCloseTo(51.2, 1);
    expect(cure.activationEnergy(2, 283.15, 293.15) / 1000).toBeCloseTo(47.8, 1);
    expect(cure.arrhenius(cure.activationEnergy(2, 293.15, 303.15), 303.15, 293.15)).toBeCloseTo(2, 12);
  });

  it('20 to 5 °C: 2.8 times by doubling, 4.7 at 70 kJ/mol (computed)', () => {
    expect(2 ** 1.5).toBeCloseTo(2.83, 2);
    expect(1 / cure.arrhenius(70_000, 278.15, 293.15)).toBeCloseTo(4.7, 1);
  });
});

describe('closed forms', () => {
  it.each([
    [1, 0.632121],
    [1.5, 0.555556],
    [2, 0.5],
  ])('order %f at k·t = 1', (n, a) => {
    expect(cure.nthOrder(1, n)).toBeCloseTo(a, 6);
    expect(cure.integrateCure((x) => (1 - x) ** n, 0, 0, 1)).toBeCloseTo(a, 6);
  });

  it('(k1 + k2·a)(1 − a): k1 = 0.001, k2 = 0.05, t = 60', () => {
    expect(cure.autocatalytic(0.001, 0.05, 60)).toBeCloseTo(0.284988831, 8);
    expect(cure.integrateCure((a) => (0.001 + 0.05 * a) * (1 - a), 0, 0, 60)).toBeCloseTo(0.284988831, 7);
  });

  it('a(1 − a): k = 0.05, a0 = 0.01', () => {
    expect(cure.logistic(0.05, 0.01, 100)).toBeCloseTo(0.59986, 6);
    expect(cure.logisticPeak(0.05, 0.01)).toBeCloseTo(91.9024, 4);
    const rate = (a: number) => 0.05 * a * (1 - a);
    expect(rate(cure.logistic(0.05, 0.01, 91.9024))).toBeCloseTo(0.0125, 9);
    expect(cure.timeToConversion(rate, 0.01, 0, 1000, 0.5)).toBeCloseTo(91.9024, 3);
  });

  it('a^m (1 − a)^n peaks at m / (m + n): m = 0.5, n = 1.5 at 0.25', () => {
    const rate = (a: number) => cure.kamal(a, 0, 1, 0.5, 1.5);
    expect(rate(0.25)).toBeGreaterThan(rate(0.2499));
    expect(rate(0.25)).toBeGreaterThan(rate(0.2501));
    expect(cure.kamal(1.2, 1, 1, 1, 1)).toBe(0);
  });

  it.each([
    [0, -20],
    [0.25, 14.286],
    [0.5, 60],
    [0.75, 124],
    [1, 220],
  ])('DiBenedetto at %f: Tg0 −20, Tg∞ 220, λ 0.5', (a, tg) => {
    expect(cure.diBenedetto(a, -20, 220, 0.5)).toBeCloseTo(tg, 3);
  });
});

describe('published kinetics', () => {
  // Lee, Loos, Springer, J. Compos. Mater. 16 (1982) 510, an aerospace epoxy: constants through a secondary page;
  // values integrated with an independent program to 1e-10. Rates a minute.
  const R = 8.314;
  const rateAt = (c: number) => {
    const k = (a: number, e: number) => a * Math.exp(-e / (R * (c + 273.15)));
    const [k1, k2, k3] = [k(2.101e9, 8.07e4), k(-2.014e9, 7.78e4), k(1.96e5, 5.66e4)];
    return (a: number) => (a <= 0.3 ? (k1 + k2 * a) * (1 - a) * (0.47 - a) : k3 * (1 - a));
  };
  it.each([
    [120, 61.399, 0.29797, 0.50507],
    [150, 9.9616, 0.74513, 0.92411],
    [177, 2.4027, 0.96693, 0.99862],
  ])('at %i °C reaches 0.3 at %f min', (c, t30, a60, a120) => {
    const rate = rateAt(c);
    expect(Math.abs(cure.timeToConversion(rate, 0, 0, 200, 0.3)! / t30 - 1)).toBeLessThan(1e-4);
    expect(cure.integrateCure(rate, 0, 0, 60)).toBeCloseTo(a60, 4);
    expect(cure.integrateCure(rate, 0, 0, 120)).toBeCloseTo(a120, 4);
  });

  it('what is not reached in time is null, what is there already is now', () => {
    expect(cure.timeToConversion(() => 0.001, 0, 0, 10, 0.5)).toBeNull();
    expect(cure.timeToConversion(() => 0.001, 0.6, 3, 10, 0.5)).toBe(3);
  });
});
