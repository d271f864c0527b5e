import { expect, it } from 'vitest';
import { scaleOf } from './display.ts';
import { PA_PER_PSI } from './quantity.ts';

const US = { pressure: 'psi', temperature: 'F', length: 'in' } as const;
const METRIC = { pressure: 'kPa', temperature: 'C', length: 'mm' } as const;
const shown = (kind: Parameters<typeof scaleOf>[0], kept: number, choice: Parameters<typeof scaleOf>[1]) => {
  const { factor, shift } = scaleOf(kind, choice);
  return factor * kept + shift;
};

it('pressure units as GNU units has them (definitions file: psi, bar)', () => {
  expect(PA_PER_PSI).toBeCloseTo(6894.75729317, 8);
  expect(shown('pressure', 0.068_947_572_931_7, US)).toBeCloseTo(1, 12);
  expect(shown('pressure', 2.5, METRIC)).toBe(250);
});

it('temperatures: freezing and boiling points, and the crossing at -40 (definition of the scales)', () => {
  for (const [c, f] of [
    [0, 32],
    [100, 212],
    [-40, -40],
  ] as const)
    expect(shown('temperature', c, US)).toBeCloseTo(f, 12);
});

it('an inch has 25.4 mm, a foot twelve of them (exact since 1959)', () => {
  expect(shown('length', 152.4, US)).toBeCloseTo(6, 12);
  expect(shown('distance', 0.3048, US)).toBeCloseTo(1, 12);
});
