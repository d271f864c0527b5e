import { describe, expect, it } from 'vitest';
import { arrhenius, cureStep, type Kinetics, QUICK_RESIN, SLOW_RESIN } from './cure.ts';
import { isothermalS } from './testing/isothermal.ts';

const plain = (o: Partial<Kinetics>): Kinetics => ({
  k1Ref: 0,
  k2Ref: 0,
  e1: 60e3,
  e2: 60e3,
  m: 1,
  n: 1,
  heatJkg: 1e5,
  inductionS: 0,
  vitrify: null,
  ...o,
});

function degreeAfter(k: Kinetics, seconds: number, start = 0, steps = 1000, tK = 293.15): number {
  const state = { degree: Float64Array.of(start), induction: new Float64Array(1) };
  for (let i = 0; i < steps; i++) cureStep(k, state, 0, tK, seconds / steps);
  return state.degree[0]!;
}

describe('kinetics against closed forms', () => {
  it.each([
    [1, 0.632121],
    [1.5, 0.555556],
    [2, 0.5],
  ])('order %d at k·t = 1 gives %d', (n, degree) => {
    expect(degreeAfter(plain({ k1Ref: 0.01, n }), 100)).toBeCloseTo(degree, 5);
  });

  it('(k1 + k2·a)(1 − a): k1 = 0.001, k2 = 0.05, t = 60 gives 0.284988831', () => {
    expect(degreeAfter(plain({ k1Ref: 0.001, k2Ref: 0.05 }), 60)).toBeCloseTo(0.284988831, 5);
  });

  it('a(1 − a): k = 0.05 from 0.01 reaches 0.599860 at 100', () => {
    expect(degreeAfter(plain({ k2Ref: 0.05 }), 100, 0.01)).toBeCloseTo(0.59986, 5);
  });

  it('a^m(1 − a)^n with m = 0.5, n = 1.5 is quickest at a = 0.25', () => {
    const k = plain({ k2Ref: 0.001, m: 0.5, n: 1.5 });
    let best = 0;
    let bestAt = 0;
    for (let a = 0.01; a < 0.9; a += 0.01) {
      const gain = degreeAfter(k, 0.1, a, 1) - a;
      if (gain > best) {
        best = gain;
        bestAt = a;
      }
    }
    expect(bestAt).toBeCloseTo(0.25, 6);
  });
});

describe('temperature', () => {
  it('doubles from 20 to 30 °C at 51.2 kJ/mol (Arrhenius)', () => {
    expect(arrhenius(51.2e3, 303.15)).toBeCloseTo(2, 2);
  });

  it('isothermalS is when cureStep gets there, warm and cold', () => {
    for (const k of [SLOW_RESIN, QUICK_RESIN])
      for (const c of [5, 20, 35]) {
        const s = isothermalS(k, c, 0.85);
        expect(degreeAfter(k, s, 0, 4000, c + 273.15)).toBeCloseTo(0.85, 3);
      }
  });

  it('the sketches take a plausible time at 20 °C: hours, and under an hour', () => {
    expect(isothermalS(SLOW_RESIN, 20, 0.85) / 3600).toBeGreaterThan(2);
    expect(isothermalS(SLOW_RESIN, 20, 0.85) / 3600).toBeLessThan(8);
    expect(isothermalS(QUICK_RESIN, 20, 0.85) / 60).toBeGreaterThan(25);
    expect(isothermalS(QUICK_RESIN, 20, 0.85) / 60).toBeLessThan(90);
  });

  it('vitrifies: a cold cure stops short and a warm one goes on', () => {
    const k = { ...SLOW_RESIN, vitrify: { full: 0.9, perK: 0.006 } };
    expect(isothermalS(k, 5, 0.85)).toBe(Number.POSITIVE_INFINITY);
    expect(Number.isFinite(isothermalS(k, 30, 0.85))).toBe(true);
    expect(degreeAfter(k, 1e6, 0, 2000, 278.15)).toBeLessThan(0.81);
  });

  it('waits through the induction time', () => {
    expect(degreeAfter(plain({ k1Ref: 0.01, inductionS: 300 }), 299)).toBe(0);
    expect(degreeAfter(plain({ k1Ref: 0.01, inductionS: 300 }), 400)).toBeCloseTo(0.632121, 3);
  });
});
