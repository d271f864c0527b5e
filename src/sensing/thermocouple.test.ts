import { describe, expect, it } from 'vitest';
import { emfMv } from './its90/reference.ts';
import { hotJunction, junctionWeight, tolerance } from './thermocouple.ts';

describe('cold junction', () => {
  // Computed from the NIST Monograph 175 coefficients: hot 60 °C, cold 25 °C.
  it.each([
    ['K', 1.4362],
    ['J', 1.8384],
    ['T', 1.4762],
    ['N', 0.9603],
  ] as const)('type %s between 60 and 25 °C gives %f mV, and back', (type, mv) => {
    expect(emfMv(type, 60)! - emfMv(type, 25)!).toBeCloseTo(mv, 4);
    expect(hotJunction(type, emfMv(type, 60)! - emfMv(type, 25)!, 25)).toBeCloseTo(60, 6);
  });

  it('4.096 mV of type K with the junction at 25 °C is 124.3 °C, not 100 and not 125 (NIST table)', () => {
    expect(hotJunction('K', 4.096, 25)).toBeCloseTo(124.3, 1);
  });

  it('true 9 °C, junction 25 °C: shorted reads 25, reversed 41 (why the probe is warmed in the hand)', () => {
    const mv = emfMv('K', 9)! - emfMv('K', 25)!;
    expect(hotJunction('K', 0, 25)).toBeCloseTo(25, 6);
    expect(hotJunction('K', -mv, 25)).toBeCloseTo(41, 0);
    expect(hotJunction('K', mv, 25)).toBeCloseTo(9, 6);
  });

  it('out of range is no temperature', () => {
    expect(hotJunction('K', 80, 25)).toBeNull();
    expect(hotJunction('T', 1, -300)).toBeNull();
  });
});

describe('tolerance class', () => {
  // IEC 60584-1:2013 through two secondary pages.
  it.each([
    ['K', 1, 20, 1.5],
    ['N', 1, 375, 1.5],
    ['K', 1, 1000, 4],
    ['T', 1, 100, 0.5],
    ['T', 1, 350, 1.4],
    ['K', 2, 20, 2.5],
    ['N', 2, 1200, 9],
    ['T', 2, 20, 1],
    ['T', 2, 350, 2.625],
  ] as const)('%s class %i at %i °C: ±%f K', (type, grade, c, k) => {
    expect(tolerance(type, grade, c)).toBeCloseTo(k, 9);
  });
  // Class 3 of IEC 60584-1, and J and E: values from memory.
  it.each([
    ['K', 1, -100, 2.5],
    ['K', 2, -200, 3],
    ['T', 1, -50, 1],
    ['T', 2, -200, 3],
    ['J', 2, 750, 5.625],
    ['E', 1, 800, 3.2],
    ['E', 2, 900, 6.75],
  ] as const)('%s class %i at %i °C: ±%f K', (type, grade, c, k) => {
    expect(tolerance(type, grade, c)).toBeCloseTo(k, 9);
  });
  it('outside the standard there is none', () => {
    expect(tolerance('K', 1, 1001)).toBeNull();
    expect(tolerance('T', 2, 351)).toBeNull();
    expect(tolerance('K', 2, -201)).toBeNull();
  });
});

it('one kelvin of the junction is about one of the reading', () => {
  expect(junctionWeight('K', 10, 25)).toBeCloseTo(1.015, 1);
  expect(junctionWeight('T', 200, 20)).toBeLessThan(0.8);
});
