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
    expect(cure.ageFactor(5000, 273 + c, 273 + 23)).toBeCloseTo(f, 4);
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

it('a^m (1 − a)^n peaks at m / (m + n): m = 0.5, n = 1.5 at 0.25', () => {
  const rate = (a: number) => cure.kamal(a, 0, 1, 0.5, 1.5);
  expect(rate(0.25)).toBeGreaterThan(rate(0.2499));
  expect(rate(0.25)).toBeGreaterThan(rate(0.2501));
  expect(cure.kamal(1.2, 1, 1, 1, 1)).toBe(0);
});
