import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundText } from './bound.ts';
import { METRIC, UNITS, type UnitChoice } from './display.ts';
import { parseQuantity } from './parse.ts';

const US: UnitChoice = { pressure: 'psi', temperature: 'F', length: 'in' };
const text = (...args: Parameters<typeof boundText>) => boundText(...args).replace('\u00a0', ' ');

describe('a bound in words', () => {
  it('has the digits of its unit where they tell it', () => {
    expect(text(20, 'most', { kind: 'pressure' }, METRIC)).toBe('20.00 bar');
    expect(text(-10, 'least', { kind: 'temperature' }, US)).toBe('14.0 °F');
    expect(text(2000, 'most', { kind: 'length' }, METRIC)).toBe('2000 mm');
    expect(text(0, 'least', { kind: 'pressure' }, US)).toBe('0.0 psi');
  });

  it('has more digits where it would else be told wrong', () => {
    expect(text(0.1, 'least', { kind: 'length' }, METRIC)).toBe('0.1 mm');
    // 0.05 bar are 0.7252 psi: 0.7 would be refused.
    expect(text(0.05, 'least', { kind: 'pressure' }, US)).toBe('0.73 psi');
  });

  it('is rounded to the allowed side', () => {
    // 20 bar are 290.075 psi, 30 mm are 1.1811 in.
    expect(text(20, 'most', { kind: 'pressure' }, US)).toBe('290.0 psi');
    expect(text(30, 'least', { kind: 'length' }, US)).toBe('1.19 in');
  });

  it('names a unit that is the same for everybody, or none', () => {
    expect(text(50, 'least', { unit: 'g/m²' }, US)).toBe('50 g/m²');
    expect(text(0.49, 'most', {}, US)).toBe('0.49');
  });

  it('may be typed as it is said', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('pressure', 'temperature', 'length', 'distance', 'volume', 'mass', 'pressureRate'),
        fc.integer({ min: -100_000, max: 100_000 }).map((n) => n / 100),
        fc.record({
          pressure: fc.constantFrom(...UNITS.pressure),
          temperature: fc.constantFrom(...UNITS.temperature),
          length: fc.constantFrom(...UNITS.length),
        }),
        (kind, bound, units) => {
          const least = parseQuantity(boundText(bound, 'least', { kind }, units), kind, units);
          const most = parseQuantity(boundText(bound, 'most', { kind }, units), kind, units);
          const slip = 1e-9 * Math.max(1, Math.abs(bound));
          expect(least.ok && least.value >= bound - slip).toBe(true);
          expect(most.ok && most.value <= bound + slip).toBe(true);
        },
      ),
      { seed: 9 },
    );
  });
});
