import { describe, expect, it } from 'vitest';
import {
  arcsine,
  fittedPressure,
  fittedRate,
  pressureAt,
  type SubsonicFit,
  straighten,
  timeToReach,
} from './subsonic.ts';

describe('subsonic line', () => {
  it('its arcsine agrees with the library to 2.5e-8 (Abramowitz & Stegun 4.4.46 states 2e-8)', () => {
    for (let i = 0; i <= 1000; i++)
      expect(Math.abs(arcsine(i / 1000) - Math.asin(i / 1000))).toBeLessThan(2.5e-8);
  });

  it('has the ISO 6358 flow as its slope (C = 1e-8, b = 0.3, ρ0 = 1.185; values computed from the standard form)', () => {
    // Flow over C·p1·ρ0 is √(1 − u²), which is cos y past the choked part.
    const share = (p1: number, p: number) => Math.cos(Math.max(0, straighten(p, p1, 0.3)));
    const full = (p1: number) => 1e-8 * p1 * 1e5 * 1.185;
    expect(share(7, 1) * full(7)).toBeCloseTo(8.295e-3, 7);
    expect(share(3, 2) * full(3)).toBeCloseTo(3.02827e-3, 7);
    expect(share(3, 2.7) * full(3)).toBeCloseTo(1.8311e-3, 7);
  });

  it('is straight in time for its own supply: checked against RK4 of the flow law', () => {
    const p1 = 2.6;
    const b = 0.25;
    const k = 0.02;
    const rate = (p: number) => {
      const u = (p / p1 - b) / (1 - b);
      return k * p1 * (u <= 0 ? 1 : u >= 1 ? 0 : Math.sqrt(1 - u * u));
    };
    const h = 0.01;
    let p = 1.01;
    const y0 = straighten(p, p1, b);
    for (let i = 1; i <= 5000; i++) {
      const a = rate(p);
      const c = rate(p + (h / 2) * a);
      const d = rate(p + (h / 2) * c);
      const e = rate(p + h * d);
      p += (h / 6) * (a + 2 * c + 2 * d + e);
      if (i % 500 === 0) expect(straighten(p, p1, b)).toBeCloseTo(y0 + (k / (1 - b)) * i * h, 5);
    }
  });

  it('goes there and back', () => {
    for (const p of [0.3, 0.8, 1.5, 2.4, 2.59])
      expect(pressureAt(straighten(p, 2.6, 0.25), 2.6, 0.25)).toBeCloseTo(p, 12);
    expect(pressureAt(3, 2.6, 0.25)).toBe(2.6);
    expect(straighten(2.7, 2.6, 0.25)).toBe(Math.PI / 2);
  });

  it('tells when a pressure is reached, heat and all', () => {
    const fit: SubsonicFit = { p1: 2.6, b: 0.25, y0: 0.2, rate: 0.03, t0: 5, h: 0.3, tauS: 8 };
    const t = timeToReach(fit, 9, 2.3);
    expect(fittedPressure(fit, 9 + t)).toBeCloseTo(2.3, 6);
    expect(timeToReach(fit, 9, 2.7)).toBe(Number.POSITIVE_INFINITY);
    expect(timeToReach(fit, 9, 1)).toBe(0);
    const eps = 1e-4;
    const slope = (fittedPressure(fit, 9 + eps) - fittedPressure(fit, 9 - eps)) / (2 * eps);
    expect(fittedRate(fit, 9)).toBeCloseTo(slope, 7);
    expect(fittedRate(fit, 500)).toBe(0);
  });
});
