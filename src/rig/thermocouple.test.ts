import { describe, expect, it } from 'vitest';
import { createRandom } from './random.ts';
import { type CoupleOptions, createCouple, emfUv } from './thermocouple.ts';

describe('emfUv', () => {
  // NIST SRD 60 / Monograph 175 tables, mV at 25 °C: a point between the rig's own table points.
  it.each([
    ['K', 1.0],
    ['J', 1.277],
    ['T', 0.992],
    ['N', 0.659],
    ['E', 1.495],
  ] as const)('type %s at 25 °C gives %d mV', (type, mV) => {
    expect(Math.abs(emfUv(type, 25) / 1000 - mV)).toBeLessThan(0.001);
  });

  it('meets the table at its points, 0 included', () => {
    expect(emfUv('K', 0)).toBeCloseTo(0, 9);
    expect(emfUv('K', 100)).toBeCloseTo(4096, 6);
    expect(emfUv('T', 200)).toBeCloseTo(9288, 6);
  });

  // Hot 60 °C, junction 25 °C, from the ITS-90 coefficients, computed apart.
  it.each([
    ['K', 1.4362],
    ['J', 1.8384],
    ['T', 1.4762],
    ['N', 0.9603],
  ] as const)('type %s between 60 and 25 °C gives %d mV', (type, mV) => {
    expect(Math.abs((emfUv(type, 60) - emfUv(type, 25)) / 1000 - mV)).toBeLessThan(0.001);
  });
});

describe('couple', () => {
  const quiet = (o: CoupleOptions) => createCouple({ noiseUv: 0, lagS: 0, bits: 24, ...o }, createRandom(1));
  const uv = (o: CoupleOptions, tip: number, junction: number) => {
    const c = quiet(o);
    return (c.sample(tip, junction, 1) / c.scale.rawHi) * 80_000;
  };

  it('gives the difference of two emfs, not the emf of a difference', () => {
    expect(uv({}, 9, 25)).toBeCloseTo(emfUv('K', 9) - emfUv('K', 25), 1);
    expect(Math.abs(uv({}, 60, 25) - emfUv('K', 35))).toBeGreaterThan(5);
  });

  it('shorted looks like the junction, reversed mirrors, open runs to the top', () => {
    expect(uv({ wiring: 'shorted' }, 9, 25)).toBeCloseTo(0, 6);
    expect(uv({ wiring: 'reversed' }, 9, 25)).toBeCloseTo(-uv({}, 9, 25), 6);
    const open = quiet({ wiring: 'open' });
    expect(open.sample(9, 25, 1)).toBe(open.scale.rawHi);
  });

  it('declares what the device believes and behaves as what it is', () => {
    const c = quiet({ type: 'J', declared: 'K' });
    expect(c.declared).toBe('K');
    expect((c.sample(60, 25, 1) / c.scale.rawHi) * 80_000).toBeCloseTo(1838.4, 0);
  });

  it('lags', () => {
    const c = quiet({ lagS: 10 });
    c.sample(10, 10, 1);
    let last = 0;
    for (let i = 0; i < 10; i++) last = c.sample(30, 10, 1);
    const expected = emfUv('K', 10 + 20 * (1 - Math.exp(-1))) - emfUv('K', 10);
    expect((last / c.scale.rawHi) * 80_000).toBeCloseTo(expected, 0);
  });
});
