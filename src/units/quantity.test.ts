import { describe, expect, expectTypeOf, it } from 'vitest';
import * as q from './quantity.ts';

describe('conversion', () => {
  it('pressure units as GNU units has them (definitions file: psi, atm, bar)', () => {
    expect(q.PA_PER_PSI).toBeCloseTo(6894.75729317, 8);
    expect(q.PA_PER_ATM).toBe(101_325);
    expect(q.barToPascal(q.bar(1))).toBe(100_000);
    expect(q.psiToBar(q.psi(1))).toBeCloseTo(0.068_947_572_931_7, 13);
    expect(q.kilopascalToBar(q.kilopascal(250))).toBe(2.5);
  });

  it('temperatures: freezing and boiling points, and the crossing at -40 (definition of the scales)', () => {
    expect(q.celsiusToFahrenheit(q.celsius(0))).toBe(32);
    expect(q.celsiusToFahrenheit(q.celsius(100))).toBe(212);
    expect(q.fahrenheitToCelsius(q.fahrenheit(-40))).toBe(-40);
    expect(q.celsiusToKelvin(q.celsius(20))).toBe(293.15);
  });

  it('goes there and back', () => {
    for (const v of [-0.5, 0, 0.31, 1.5, 12]) {
      expect(q.psiToBar(q.barToPsi(q.bar(v)))).toBeCloseTo(v, 12);
      expect(q.kilopascalToBar(q.barToKilopascal(q.bar(v)))).toBeCloseTo(v, 12);
      expect(q.pascalToBar(q.barToPascal(q.bar(v)))).toBeCloseTo(v, 12);
      expect(q.fahrenheitToCelsius(q.celsiusToFahrenheit(q.celsius(v)))).toBeCloseTo(v, 12);
      expect(q.kelvinToCelsius(q.celsiusToKelvin(q.celsius(v)))).toBeCloseTo(v, 12);
      expect(q.inchToMillimetre(q.millimetreToInch(q.millimetre(v)))).toBeCloseTo(v, 12);
      expect(q.cubicMetreToLitre(q.litreToCubicMetre(q.litre(v)))).toBeCloseTo(v, 12);
    }
    expect(q.inchToMillimetre(q.inch(6))).toBeCloseTo(152.4, 12);
  });

  it('the compiler keeps units apart', () => {
    expectTypeOf<q.Psi>().not.toExtend<q.Bar>();
    expectTypeOf<number>().not.toExtend<q.Bar>();
    expectTypeOf<q.Bar>().toExtend<number>();
  });
});
