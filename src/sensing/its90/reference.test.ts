import { describe, expect, it } from 'vitest';
import type { ThermocoupleType } from '../../job/setup.ts';
import { celsiusOf, emfMv, seebeck } from './reference.ts';

// NIST Standard Reference Database 60 (Monograph 175), the printed tables of each type: emf in mV to 0.001.
const TABLES: { readonly [T in ThermocoupleType]: readonly (readonly [number, number])[] } = {
  K: [
    [-200, -5.891],
    [-100, -3.554],
    [0, 0],
    [10, 0.397],
    [20, 0.798],
    [25, 1.0],
    [40, 1.612],
    [50, 2.023],
    [60, 2.436],
    [80, 3.267],
    [100, 4.096],
    [500, 20.644],
    [1000, 41.276],
  ],
  J: [
    [-200, -7.89],
    [-100, -4.633],
    [0, 0],
    [25, 1.277],
    [100, 5.269],
    [500, 27.393],
    [1000, 57.953],
  ],
  T: [
    [-200, -5.603],
    [-100, -3.379],
    [0, 0],
    [25, 0.992],
    [100, 4.279],
    [200, 9.288],
    [300, 14.862],
  ],
  N: [
    [-200, -3.99],
    [-100, -2.407],
    [0, 0],
    [25, 0.659],
    [100, 2.774],
    [500, 16.748],
    [1000, 36.256],
  ],
  E: [
    [-200, -8.825],
    [-100, -5.237],
    [0, 0],
    [25, 1.495],
    [100, 6.319],
    [500, 37.005],
    [1000, 76.373],
  ],
};
const TYPES = Object.keys(TABLES) as ThermocoupleType[];
const LOWEST: { readonly [T in ThermocoupleType]: number } = { K: -200, J: -210, T: -200, N: -200, E: -200 };
const HIGHEST: { readonly [T in ThermocoupleType]: number } = { K: 1372, J: 1200, T: 400, N: 1300, E: 1000 };

describe('ITS-90 reference functions', () => {
  it.each(TYPES)('type %s agrees with the printed table to half its last digit', (type) => {
    for (const [c, mv] of TABLES[type]) expect(Math.abs(emfMv(type, c)! - mv)).toBeLessThanOrEqual(0.0005);
  });

  it.each(TYPES)('type %s: inverse undoes forward to 0.001 °C over its whole range', (type) => {
    for (let c = LOWEST[type]; c <= HIGHEST[type]; c += 0.37)
      expect(Math.abs(celsiusOf(type, emfMv(type, c)!)! - c)).toBeLessThan(0.001);
  });

  it.each(TYPES)('type %s: the slope is the slope (central difference)', (type) => {
    for (const c of [-150, -20, 9, 25, 60, 180, 350]) {
      const numeric = (emfMv(type, c + 0.01)! - emfMv(type, c - 0.01)!) / 0.02;
      expect(seebeck(type, c)).toBeCloseTo(numeric, 7);
    }
  });

  it.each(TYPES)('type %s: outside its range there is no answer', (type) => {
    expect(emfMv(type, -271)).toBeNull();
    expect(emfMv(type, HIGHEST[type] + 1)).toBeNull();
    expect(seebeck(type, 3000)).toBeNull();
    expect(celsiusOf(type, 100)).toBeNull();
    expect(celsiusOf(type, -20)).toBeNull();
    expect(celsiusOf(type, Number.NaN)).toBeNull();
    expect(emfMv(type, Number.NaN)).toBeNull();
  });
});
